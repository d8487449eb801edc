// A rule file of a crew's own, on top of the built-in rules: loaded, checked, and asked for advice.

#include <algorithm>

#include "engine/advice/advise.h"
#include "engine/audit/checks.h"
#include "engine/debrief/debrief_file.h"
#include "engine/knowledge/built_in.h"
#include "engine/knowledge/load.h"
#include "tests/fuzz/oracle.h"

namespace kartwright::fuzz {
namespace {

constexpr const char* kRuleFile = "own.yaml";

const std::vector<Document>& built_in() {
  static const std::vector<Document> kBuiltIn = built_in_rules();
  return kBuiltIn;
}

/// Findings of the own file lie inside it; a file of ours may be found wrong beside it.
void check_rule_findings(const std::vector<Diagnostic>& found, std::string_view text) {
  std::vector<Diagnostic> own;
  std::copy_if(found.begin(), found.end(), std::back_inserter(own),
               [](const Diagnostic& each) { return each.file == kRuleFile; });
  check_found(own, text, kRuleFile);
}

/// What the audit finds by the rules alone; what it claims of advice takes too long for here.
AuditFindings audited(const Pack& pack) {
  AuditFindings out;
  for (const auto& check : {check_prior, check_cycles, check_conditions, check_facts, check_twins,
                            check_opposites, check_reach}) {
    for (AuditFinding& found : check(pack)) out.push_back(std::move(found));
  }
  return out;
}

void check_pack(const Pack& pack, std::string_view text) {
  const AuditFindings found = audited(pack);
  for (const AuditFinding& each : found)
    hold(!each.diagnostic.message.empty(), "the audit found nothing in particular");
  const Kart kart = typical_kart(pack);
  Debrief debrief;
  debrief.track = "green";
  add_words(debrief, "pushes going in and hops in the middle", pack);
  try {
    check_advice(advise(pack, kart, debrief, kart.units, {.questions = false}));
  } catch (const InputError& error) {
    check_rule_findings(error.found(), text);
    hold(std::any_of(
             found.begin(), found.end(),
             [](const AuditFinding& each) { return each.diagnostic.severity == Severity::error; }),
         "a pack that cannot be used passes its audit: " + error.found().front().message);
  }
}

}  // namespace

Fate fuzz_rules(std::string_view bytes) {
  try {
    const Document own = parse_document(kRuleFile, std::string(bytes));
    check_places(own);
    check_pack(load_pack(built_in(), {own}), own.text);
    return Fate::taken;
  } catch (const InputError& error) {
    check_rule_findings(error.found(), bytes);
    hold(!error.found().empty(), "refused without an error");
    return Fate::refused;
  }
}

}  // namespace kartwright::fuzz
