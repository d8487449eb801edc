#include "cli/check_json.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/safe_json.h"
#include "engine/advice/explain_gauge.h"
#include "engine/advice/gauge_words.h"

namespace kartwright::cli {
namespace {

using Json = nlohmann::ordered_json;

Json or_null(const std::optional<double>& si) { return si ? Json(*si) : Json(nullptr); }

Json measured_of(const GaugeReadings& given) {
  Json out = Json::object();
  for (const auto& [id, amounts] : given.amounts) {
    out[id] = amounts.size() == 1 ? Json(amounts.front()) : Json(amounts);
  }
  for (const auto& [id, value] : given.choices) out[id] = value;
  return out;
}

Json figures_of(const GaugeCheck& check) {
  Json out = Json::object();
  for (const FigureFound& found : check.figures) out[found.figure->id] = found.value;
  return out;
}

std::string in_words(const VerdictFound& found, const std::string& text) {
  return verdict_text(found, text, System::metric);
}

Json verdict_of(const VerdictFound& found) {
  Json out{{"id", found.verdict->id},
           {"ok", found.verdict->ok},
           {"stops", found.verdict->stops},
           {"text", in_words(found, found.verdict->says)}};
  if (!found.tyres.empty()) out["tyres"] = found.tyres;
  if (found.found.figure == nullptr) return out;
  out["figure"] = found.found.figure->id;
  out["value"] = found.found.value;
  out["limits"] = {{"from", or_null(found.from)},
                   {"to", or_null(found.to)},
                   {"whose", found.crews_band ? "kart" : "rules"}};
  return out;
}

Json verdicts_of(const GaugeCheck& check) {
  Json out = Json::array();
  for (const VerdictFound& found : check.verdicts) {
    Json one = verdict_of(found);
    one["means"] = in_words(found, found.verdict->because);
    one["do"] = in_words(found, found.verdict->to_do);
    one["provenance"] = found.verdict->provenance.text();
    one["source"] = found.verdict->source.text();
    out.push_back(std::move(one));
  }
  return out;
}

Json evidence_of(const GaugeCheck& check) {
  Json out = Json::array();
  for (const EvidenceFound& each : check.evidence) {
    out.push_back({{"fault", each.fault},
                   {"decibans", each.decibans},
                   {"fact", each.fact},
                   {"value", each.value},
                   {"rule", each.rule}});
  }
  return out;
}

Json facts_of(const GaugeCheck& check) {
  Json out = Json::array();
  for (const auto& [fact, value] : check.facts) out.push_back(fmt::format("{}={}", fact, value));
  return out;
}

Json measures_of(const GaugeCheck& check) {
  Json out = Json::object();
  for (const auto& [measure, si] : check.measures) {
    out[measure->id] = print_quantity(si, measure->kind, System::metric);
  }
  return out;
}

}  // namespace

std::string gauge_list_json(const Pack& pack) {
  Json checks = Json::array();
  for (const Gauge& gauge : pack.gauges) {
    checks.push_back({{"check", gauge.id}, {"label", gauge.label}, {"example", example_of(gauge)}});
  }
  return json_line({{"schema", "kartwright/check-list/1"}, {"checks", checks}});
}

std::string gauge_how_json(const Gauge& gauge, const Pack& pack) {
  std::vector<std::string> cautions;
  for (const std::string& id : gauge.cautions) cautions.push_back(pack.caution(id)->text);
  return json_line({{"schema", "kartwright/check-how/1"},
                    {"check", gauge.id},
                    {"label", gauge.label},
                    {"plain", gauge.plain},
                    {"steps", gauge.steps},
                    {"example", example_of(gauge)},
                    {"options", options_text(gauge, System::metric)},
                    {"cautions", cautions}});
}

std::string gauge_check_json(const GaugeCheck& check) {
  const VerdictFound* const first = check.verdicts.empty() ? nullptr : &check.verdicts.front();
  return json_line({{"schema", "kartwright/check/1"},
                    {"check", check.gauge->id},
                    {"measured", measured_of(check.given)},
                    {"assumed", check.assumed},
                    {"figures", figures_of(check)},
                    {"verdict", first == nullptr ? Json(nullptr) : verdict_of(*first)},
                    {"means", first == nullptr ? "" : in_words(*first, first->verdict->because)},
                    {"do", first == nullptr ? "" : in_words(*first, first->verdict->to_do)},
                    {"verdicts", verdicts_of(check)},
                    {"cautions", check.cautions},
                    {"evidence", evidence_of(check)},
                    {"facts", facts_of(check)},
                    {"kart_file", measures_of(check)}});
}

}  // namespace kartwright::cli
