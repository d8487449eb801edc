#include "cli/explain_json.h"

#include <nlohmann/json.hpp>

#include "cli/safe_json.h"

namespace kartwright::cli {
namespace {

nlohmann::ordered_json table_json(const EffectTable& table) {
  nlohmann::ordered_json rows = nlohmann::ordered_json::array();
  for (const EffectTable::Row& row : table.rows) {
    nlohmann::ordered_json notches = nlohmann::ordered_json::array();
    for (const std::optional<double>& each : row.notches) {
      notches.push_back(each ? nlohmann::ordered_json(*each) : nlohmann::ordered_json(nullptr));
    }
    rows.push_back({{"label", row.label}, {"cells", row.cells}, {"notches", notches}});
  }
  return {{"caption", table.caption}, {"columns", table.columns}, {"rows", rows}};
}

}  // namespace

std::string explanation_json(const Explanation& explanation) {
  nlohmann::ordered_json sections = nlohmann::ordered_json::array();
  for (const ExplainedPart& part : explanation.sections) {
    sections.push_back({{"heading", part.heading}, {"paragraphs", part.paragraphs}});
    if (!part.stands.empty()) sections.back()["stands"] = part.stands;
    if (part.table) sections.back()["table"] = table_json(*part.table);
  }
  const nlohmann::ordered_json out{{"schema", "kartwright/explain/1"},
                                   {"kind", explanation.kind},
                                   {"id", explanation.id},
                                   {"title", explanation.title},
                                   {"sections", sections}};
  return json_line(out);
}

std::string topics_json(const Pack& pack) {
  nlohmann::ordered_json kinds = nlohmann::ordered_json::object();
  for (const auto& [kind, ids] : explainable(pack)) kinds[kind] = ids;
  const nlohmann::ordered_json out{{"schema", "kartwright/explain-list/1"}, {"kinds", kinds}};
  return json_line(out);
}

}  // namespace kartwright::cli
