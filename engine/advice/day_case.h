// day_case.h - a kart's day as a plan to search: its levers, its stages, and how to read the places
// of a plan back as settings.

#pragma once

#include <vector>

#include "engine/advice/advice.h"
#include "engine/advice/day.h"

namespace kartwright {

struct DayCase {
  PlanCase search;
  std::vector<const Setting*> settings;     ///< by lever, in the kart
  std::vector<std::vector<double>> values;  ///< by lever, by place: as Setting::now
  double unit = 1.0;                        ///< of the loss: the untouched mean of the day

  const Adjustment& adjustment(std::size_t lever) const { return *settings[lever]->adjustment; }
};

/// The levers of a kart, and the stages as they were asked for. Loss is counted in points: 100 for
/// what the untouched kart has on the mean of the day. REQUIRES: as plan_day.
DayCase day_case(const Pack& pack, const Kart& kart, const Advice& now, const DayAsked& asked,
                 const History* history);

/// Other stages on the same levers, from other places, without the first stop: by number of stage.
PlanCase from_there(const PlanCase& c, const std::vector<std::size_t>& places,
                    const std::vector<std::size_t>& stages);

}  // namespace kartwright
