// small_plans.h - days small enough that every plan can be written down, and the search done so.

#pragma once

#include <cstddef>
#include <vector>

#include "engine/decision/day_plan.h"
#include "tests/support/any.h"

namespace kartwright {

/// Up to three levers of two to four places, up to three stages, with stands, exclusions, reach,
/// breaks, and limits on how many levers may move.
PlanCase any_plan_case(Random& random);

namespace naive {

struct EveryPlan {
  double value = 0.0;       ///< of the best
  std::size_t allowed = 0;  ///< how many plans there are
};

/// Every plan there is, stage by stage, each weighed in plain loops.
EveryPlan every_plan(const PlanCase& c);

/// Minutes of some levers moved at one stop: their sum, and of each stand only the longest stand
/// minutes.
double minutes_of(const PlanCase& c, const std::vector<std::size_t>& moved);

}  // namespace naive
}  // namespace kartwright
