#include "tests/support/any.h"

#include <algorithm>

#include "engine/debrief/debrief_file.h"
#include "engine/kart/travel.h"

namespace kartwright {
namespace {

/// A grid inside, or a little beyond, the usual range.
Travel any_travel(Random& random, const Adjustment& adjustment) {
  if (adjustment.listed()) return usual_travel(adjustment);
  const double width = adjustment.to - adjustment.from;
  Range range = usual_range(adjustment);
  range.from += width * any_between(random, -0.3, 0.4);
  range.to += width * any_between(random, -0.4, 0.3);
  range.step *= std::vector<double>{0.5, 1.0, 1.0, 2.0, 3.1}[any_below(random, 5)];
  if (range.to <= range.from + range.step) return usual_travel(adjustment);
  return travel_over(range);
}

ClassLimit any_limit(Random& random, const Setting& setting) {
  ClassLimit limit;
  const std::vector<double>& places = setting.travel.places;
  const double now = setting.now;
  if (setting.adjustment->listed()) {
    for (const std::string& name : setting.travel.names) {
      if (one_in(random, 2) || name == setting.travel.names[static_cast<std::size_t>(now)]) {
        limit.allowed.push_back(name);
      }
    }
    return limit;
  }
  if (one_in(random, 2)) limit.at_most = any_between(random, now, places.back() + 0.001);
  if (one_in(random, 2)) limit.at_least = any_between(random, places.front() - 0.001, now);
  return limit;
}

void lead_astray(Random& random, Setting& setting) {
  const Adjustment& adjustment = *setting.adjustment;
  setting.travel = any_travel(random, adjustment);
  setting.now = any_of(random, setting.travel.places);
  // Now and then between two steps.
  if (!adjustment.listed() && one_in(random, 6)) {
    setting.now = any_between(random, setting.travel.places.front(), setting.travel.places.back());
  }
  if (one_in(random, 3)) setting.limit = any_limit(random, setting);
  if (adjustment.parts) {
    const std::string fitted = setting.travel.names[static_cast<std::size_t>(setting.now)];
    std::erase_if(setting.in_the_box,
                  [&](const std::string& part) { return part != fitted && one_in(random, 3); });
  }
  if (one_in(random, 4)) setting.minutes = any_between(random, 0.0, 30.0);
}

Report any_report(Random& random, const Pack& pack) {
  const Symptom& symptom = any_of(random, pack.symptoms);
  Report report{.symptom = symptom.id};
  if (!symptom.phases.empty()) report.phase = any_of(random, symptom.phases);
  if (one_in(random, 4)) report.phase = Phase::any;
  if (one_in(random, 20)) report.phase = Phase::straight;
  report.severity = static_cast<int>(any_below(random, 4));
  report.confidence = static_cast<Confidence>(any_below(random, 3));
  if (one_in(random, 5)) report.when = static_cast<When>(any_below(random, 2));
  if (one_in(random, 5)) report.side = static_cast<Side>(any_below(random, 2));
  return report;
}

}  // namespace

std::size_t any_below(Random& random, std::size_t end) { return random() % end; }

bool one_in(Random& random, std::size_t n) { return any_below(random, n) == 0; }

double any_between(Random& random, double from, double to) {
  return from + (to - from) * static_cast<double>(random() >> 11U) * 0x1p-53;
}

int whole(Random& random, int low, int high) {
  return std::uniform_int_distribution<int>(low, high)(random);
}

Kart any_kart(Random& random, const Pack& pack) {
  Kart kart = typical_kart(pack);
  kart.name = "any kart";
  for (const Adjustment& adjustment : pack.adjustments) {
    if (one_in(random, 12)) kart.settings.erase(adjustment.id);
  }
  for (auto& [id, setting] : kart.settings) lead_astray(random, setting);
  if (one_in(random, 3)) kart.measures["front-share"] = any_between(random, 0.38, 0.46);
  if (one_in(random, 6)) kart.bands["front-share"] = {0.40, 0.41};
  if (one_in(random, 6)) kart.facts["roll-structure"] = "yes";
  return kart;
}

Debrief any_debrief(Random& random, const Pack& pack) {
  Debrief debrief;
  debrief.minutes = any_between(random, 1.0, 60.0);
  const std::size_t track = any_below(random, pack.tracks.size() + 1);
  if (track < pack.tracks.size()) debrief.track = pack.tracks[track].id;
  for (std::size_t n = any_below(random, 6); n > 0; --n) {
    debrief.heard.reports.push_back(any_report(random, pack));
  }
  settle_reports(debrief.heard.reports);
  for (const FactDef& fact : pack.facts) {
    if (!fact.entered || fact.id == "track" || !one_in(random, 12)) continue;
    debrief.heard.facts.push_back({.fact = fact.id, .value = any_of(random, fact.values)});
  }
  return debrief;
}

}  // namespace kartwright
