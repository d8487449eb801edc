#include "tests/support/drill_answers.h"

namespace kartwright {
namespace {

/// The change that is worth least.
DrillChoice worst_change(const Marking& marking) {
  DrillChoice worst;
  double least = 1e9;
  for (const DrillChoice& change : marking.changes()) {
    if (marking.worth_of(change).points >= least) continue;
    worst = change;
    least = marking.worth_of(change).points;
  }
  return worst;
}

}  // namespace

DrillChoice opposite_of_best(const Marking& marking) {
  const DrillChoice& best = marking.best();
  if (best.kind == DrillChoice::Kind::check) return {};
  if (best.kind == DrillChoice::Kind::leave_alone) return worst_change(marking);
  const std::size_t other = best.way % 2 == 0 ? best.way + 1 : best.way - 1;
  for (const DrillChoice& change : marking.changes()) {
    if (change.way == other) return change;
  }
  return worst_change(marking);
}

std::vector<DrillChoice> every_choice(const Marking& marking) {
  std::vector<DrillChoice> all = marking.changes();
  all.push_back({});
  for (std::size_t i = 0; i < marking.pack().faults.size(); ++i)
    all.push_back({.kind = DrillChoice::Kind::check, .fault = i});
  return all;
}

}  // namespace kartwright
