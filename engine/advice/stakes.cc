#include "engine/advice/stakes.h"

#include "engine/knowledge/engine_facts.h"

namespace kartwright {

Stakes stakes_behind(const Advice& advice, const Pack& pack) {
  Stakes stakes{.mean = advice.belief.mean,
                .weights = advice.weights,
                .minutes_left = advice.debrief.minutes,
                .forecast = advice.forecast};
  if (!advice.facts.has(engine_facts::kLaps, "faster")) return stakes;
  std::vector<Reading> without;
  std::vector<Reading> with = advice.readings;
  for (Reading& reading : with) {
    if (!reading.complaint) without.push_back(reading);
    if (reading.complaint) reading.sd /= pack.hearing.faster_factor;
  }
  stakes.without_complaints = update(advice.prior, without).mean;
  stakes.with_complaints = update(advice.prior, with).mean;
  return stakes;
}

Situation situation_behind(const Advice& advice, const Pack& pack, const Kart& kart) {
  Situation situation{
      .pack = pack, .kart = kart, .reports = advice.debrief.heard.reports, .facts = advice.facts};
  if (!advice.experience.empty()) situation.experience = &advice.experience;
  measure_loads(situation);
  return situation;
}

}  // namespace kartwright
