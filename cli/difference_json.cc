#include "cli/difference_json.h"

#include <nlohmann/json.hpp>

#include "cli/page.h"
#include "cli/safe_json.h"

namespace kartwright::cli {
namespace {

using Json = nlohmann::ordered_json;

Json fields_of(const PartDifference& part) {
  Json out = Json::array();
  for (const FieldDifference& field : part.fields) {
    out.push_back({{"field", printable(field.field)},
                   {"what", name_of(field.kind)},
                   {"before", printable(field.before)},
                   {"after", printable(field.after)}});
  }
  return out;
}

Json place_of_source(const std::optional<Source>& source) {
  if (!source || source->line == 0) return nullptr;
  return printable(source->text());
}

Json rules_of(const PackDifference& difference) {
  Json out = Json::array();
  for (const PartDifference& part : difference.rules) {
    Json one{{"happened", name_of(part.happened)},
             {"kind", part.kind},
             {"id", printable(part.id)},
             {"source",
              {{"before", place_of_source(part.before)}, {"after", place_of_source(part.after)}}},
             {"fields", fields_of(part)}};
    if (!part.of.empty()) one["of"] = printable(part.of);
    out.push_back(std::move(one));
  }
  return out;
}

Json lead_json(const std::optional<LeadingChange>& lead) {
  if (!lead) return nullptr;
  return {{"adjustment", lead->adjustment},
          {"direction", lead->direction},
          {"from", lead->from},
          {"to", lead->to}};
}

Json rank_json(std::size_t rank) { return rank == 0 ? Json(nullptr) : Json(rank); }

Json ranks_of(const ScenarioDifference& scenario) {
  Json out = Json::array();
  for (const RankShift& each : scenario.ranks) {
    out.push_back({{"adjustment", each.adjustment},
                   {"direction", each.direction},
                   {"before", rank_json(each.before)},
                   {"after", rank_json(each.after)}});
  }
  return out;
}

Json scores_of(const ScenarioDifference& scenario) {
  Json out = Json::array();
  for (const ScoreShift& each : scenario.scores) {
    out.push_back({{"adjustment", each.adjustment},
                   {"direction", each.direction},
                   {"before", each.before},
                   {"after", each.after}});
  }
  return out;
}

Json scenario_json(const ScenarioDifference& scenario) {
  return {{"scenario", printable(scenario.scenario)},
          {"title", printable(scenario.title)},
          {"headline",
           {{"before", name_of(scenario.headline_before)},
            {"after", name_of(scenario.headline_after)}}},
          {"first",
           {{"differs", scenario.first_differs},
            {"before", lead_json(scenario.first_before)},
            {"after", lead_json(scenario.first_after)}}},
          {"ranks", ranks_of(scenario)},
          {"scores", scores_of(scenario)},
          {"checks", {{"came", scenario.checks_came}, {"went", scenario.checks_went}}}};
}

Json errors_json(const std::vector<Diagnostic>& errors) {
  Json out = Json::array();
  for (const Diagnostic& each : errors) {
    out.push_back({{"code", code_name(each.code)},
                   {"file", printable(each.file)},
                   {"line", each.span.line},
                   {"column", each.span.column},
                   {"message", printable(each.message)},
                   {"help", printable(each.help)}});
  }
  return out;
}

}  // namespace

std::string difference_json(const PackDifference& difference) {
  Json scenarios = Json::array();
  for (const ScenarioDifference& each : difference.scenarios.differing) {
    scenarios.push_back(scenario_json(each));
  }
  Json unread = Json::array();
  for (const UnreadScenario& each : difference.scenarios.unread) {
    unread.push_back({{"scenario", printable(each.scenario)},
                      {"before", errors_json(each.before)},
                      {"after", errors_json(each.after)}});
  }
  const Json out{{"schema", "kartwright/rules-diff/1"},
                 {"before", printable(difference.before)},
                 {"after", printable(difference.after)},
                 {"rules", rules_of(difference)},
                 {"asked", difference.scenarios.asked},
                 {"scenarios", scenarios},
                 {"unread", unread}};
  return json_line(out);
}

}  // namespace kartwright::cli
