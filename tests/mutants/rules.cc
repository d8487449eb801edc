// Makes every slip in the rules that come with the program, and sees whether anything notices.
//   rule_mutants [--without-claims] [WORD...]     all mutants, or those whose text has all words
// Ends with 1 where a rule can be removed or turned round unnoticed and no reason is given.

#include <cstdio>
#include <string_view>

#include <fmt/format.h>

#include "engine/knowledge/built_in.h"
#include "tests/mutants/rule_report.h"

namespace kartwright {
namespace {

bool has_all(const std::string& text, const std::vector<std::string_view>& words) {
  for (const std::string_view word : words) {
    if (text.find(word) == std::string::npos) return false;
  }
  return true;
}

int run(const std::vector<std::string_view>& words, JurySize size) {
  RuleFiles files{.rules = built_in_rules(), .cases = built_in_cases()};
  const RuleJury jury(size);
  if (const Juror first = jury.first_to_notice(files); first != Juror::nobody) {
    fmt::print(stderr, "a {} finds something wrong before any slip is made\n", name_of(first));
    return 1;
  }
  const std::vector<RuleMutant> mutants = rule_mutants(files.rules);
  std::vector<JudgedMutant> judged;
  for (const RuleMutant& mutant : mutants) {
    if (!has_all(mutant.text(), words)) continue;
    const MutantAtWork at_work(mutant, files);
    judged.push_back({&mutant, jury.first_to_notice(files)});
  }
  const auto justified =
      read_justified(read_document(KARTWRIGHT_SOURCE_DIR "/tests/mutants/justified.yaml"));
  fmt::print("{}", rule_report(judged, justified));
  if (!words.empty() || !size.claims) return 0;  // not all of it was asked
  const std::vector<std::string> complaints = complaints_about(judged, justified);
  for (const std::string& each : complaints) fmt::print(stderr, "{}\n", each);
  return complaints.empty() ? 0 : 1;
}

}  // namespace
}  // namespace kartwright

int main(int count, char** arguments) {
  std::vector<std::string_view> words(arguments + 1, arguments + count);
  kartwright::JurySize size;
  size.claims = std::erase(words, "--without-claims") == 0;
  try {
    return kartwright::run(words, size);
  } catch (const kartwright::InputError& error) {
    for (const kartwright::Diagnostic& each : error.found())
      fmt::print(stderr, "{}:{}: {}\n", each.file, each.span.line, each.message);
  }
  return 1;
}
