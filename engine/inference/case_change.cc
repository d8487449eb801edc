#include "engine/inference/case_change.h"

#include <algorithm>

#include "engine/inference/derive.h"
#include "engine/kart/travel.h"

namespace kartwright {
namespace {

void apply(const FactChange& change, const Pack& /*pack*/, EnteredCase& entered) {
  std::vector<StatedFact>& stated = entered.debrief.heard.facts;
  std::erase_if(stated, [&](const StatedFact& fact) { return fact.fact == change.fact; });
  if (!change.to) entered.kart.facts.erase(change.fact);
  if (change.fact == "track") {
    entered.kart.facts.erase(change.fact);
    entered.debrief.track = change.to.value_or("unknown");
  } else if (change.to) {
    stated.push_back({.fact = change.fact, .value = *change.to});
  }
}

void apply(const ReportChange& change, const Pack& /*pack*/, EnteredCase& entered) {
  std::vector<Report>& reports = entered.debrief.heard.reports;
  const auto same = [&](const Report& report) {
    return report.symptom == change.symptom && report.phase == change.phase;
  };
  const auto first = std::find_if(reports.begin(), reports.end(), same);
  Report kept =
      first == reports.end() ? Report{.symptom = change.symptom, .phase = change.phase} : *first;
  std::erase_if(reports, same);
  if (!change.severity) return;
  kept.severity = *change.severity;
  if (kept.severity > 0) kept.from_praise = false;
  reports.push_back(std::move(kept));
}

void apply(const SettingChange& change, const Pack& pack, EnteredCase& entered) {
  const auto found = entered.kart.settings.find(change.adjustment);
  Setting& setting =
      found != entered.kart.settings.end()
          ? found->second
          : entered.kart.settings
                .emplace(change.adjustment, fitted_setting(*pack.adjustment(change.adjustment)))
                .first->second;
  setting.now = change.to;
}

void apply(const MeasureChange& change, const Pack& /*pack*/, EnteredCase& entered) {
  entered.kart.measures[change.measure] = change.to;
}

void apply(const BandChange& change, const Pack& /*pack*/, EnteredCase& entered) {
  entered.kart.bands[change.measure] = {change.from, change.to};
}

}  // namespace

EnteredCase case_of(const Situation& situation) {
  EnteredCase entered{.kart = situation.kart, .debrief = {}};
  entered.debrief.heard.reports = situation.reports;
  for (const Fact& fact : situation.facts.all) {
    if (fact.rule != "crew") continue;
    if (fact.id == "track") {
      entered.debrief.track = fact.value;
    } else {
      entered.debrief.heard.facts.push_back({.fact = fact.id, .value = fact.value});
    }
  }
  return entered;
}

void make(const CaseChange& change, const Pack& pack, EnteredCase& entered) {
  std::visit([&](const auto& one) { apply(one, pack, entered); }, change);
}

Setting fitted_setting(const Adjustment& adjustment) {
  Setting setting{.adjustment = &adjustment,
                  .travel = usual_travel(adjustment),
                  .limit = {},
                  .minutes = adjustment.minutes};
  if (adjustment.parts) setting.in_the_box = adjustment.positions;
  const std::vector<double>& places = setting.travel.places;
  setting.now = places[places.size() / 2];
  if (adjustment.listed()) {
    setting.now = place_named(setting.travel, adjustment.typical).value_or(setting.now);
  } else {
    const ParsedQuantity typical = parse_quantity(adjustment.typical, adjustment.kind);
    if (const auto* quantity = std::get_if<Quantity>(&typical)) {
      setting.now = nearest_place(setting.travel, quantity->si);
    }
  }
  return setting;
}

Situation settled(const Pack& pack, const EnteredCase& entered) {
  const std::vector<Report>& reports = entered.debrief.heard.reports;
  return {.pack = pack,
          .kart = entered.kart,
          .reports = reports,
          .facts = settle_facts(pack, entered.kart, reports,
                                given_facts(pack, entered.kart, entered.debrief))};
}

}  // namespace kartwright
