// explain: any symptom, adjustment, fault, track state, fact, rule or message in plain words.

#include "engine/advice/explain.h"

#include <algorithm>
#include <cstdio>

#include "cli/commands.h"
#include "cli/explain_json.h"
#include "cli/explain_text.h"
#include "cli/sheet/explain_sheet.h"
#include "engine/document/diagnostic.h"

namespace kartwright::cli {
namespace {

/// "Rear Width" and "rear_width" are rear-width.
std::string id_of(const std::vector<std::string>& words) {
  std::string id;
  for (const std::string& word : words) id += (id.empty() ? "" : "-") + word;
  std::transform(id.begin(), id.end(), id.begin(), [](char c) {
    if (c == ' ' || c == '_') return '-';
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
  });
  return id;
}

[[noreturn]] void refuse(const std::string& id, const Pack& pack) {
  std::vector<std::string> known;
  for (const auto& [kind, ids] : explainable(pack))
    known.insert(known.end(), ids.begin(), ids.end());
  std::string help = suggestion(id, known);
  if (help.empty()) help = "`kartwright explain` lists what there is";
  throw InputError({Diagnostic{.code = Code::unknown_name,
                               .file = "explain",
                               .message = "nothing here is called `" + id + "`",
                               .help = help}});
}

}  // namespace

int run_explain(const ExplainOptions& options) {
  const Pack pack = load_rules(options.common);
  const bool json = options.common.format == Format::json;
  const bool html = options.common.format == Format::html;
  std::string answer;
  if (options.id.empty()) {
    answer = json   ? topics_json(pack)
             : html ? topics_sheet(pack)
                    : topics_text(pack, look_of_stdout());
  } else {
    const std::string id = id_of(options.id);
    const std::optional<Explanation> found = explain(id, pack);
    if (!found) refuse(id, pack);
    answer = json   ? explanation_json(*found)
             : html ? explanation_sheet(*found)
                    : explanation_text(*found, look_of_stdout());
  }
  std::fwrite(answer.data(), 1, answer.size(), stdout);
  return kSuccess;
}

}  // namespace kartwright::cli
