// day_plan.h - where every adjustment should stand at each stage of a day, found by optimisation.
//
// It knows nothing of karts: levers with places, stages with a loss at each, and what it costs to
// move. A plan that moves few levers is what a crew can learn from, so their number is limited, and
// within that limit the best plan is exact, or how far it could be from the best is said.

#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

#include "engine/decision/bundles.h"

namespace kartwright {

/// One adjustment over the day.
struct PlanLever {
  std::vector<double> places;  ///< reference steps from where the means hold, ascending
  std::size_t now = 0;         ///< index of the place where it stands
  double minutes = 0.0;        ///< of a move
  int stand = -1;              ///< moves of one stand share its minutes; -1: none
  double stand_minutes = 0.0;  ///< of `minutes`: what is spent once for all moves on the stand
  int exclusion = -1;          ///< a plan moves at most one lever of an exclusion; -1: of none
  double reach = std::numeric_limits<double>::infinity();  ///< of one move, reference steps
  bool used = false;       ///< moved before the first stage: it counts among most_levers already
  bool ends_cost = false;  ///< a move that lands on its first or last place costs end_cost
};

struct PlanStage {
  Eigen::VectorXd mean;                     ///< notches on every axis with all levers at 0
  double weight = 1.0;                      ///< of the loss there, not below 0
  std::vector<BundleStep> steps;            ///< what one reference step of each lever does there
  std::optional<double> most_minutes = {};  ///< a stop before it that takes longer is not made
  std::size_t most_changes = 2;             ///< at that stop
  bool any_reach = false;                   ///< moves before it may be longer than reach
  double stop_cost = 0.0;  ///< what a stop before it must bring over its minutes to be made at all
};

struct PlanCase {
  Eigen::VectorXd weights;  ///< the diagonal of W
  std::vector<PlanLever> levers = {};
  std::vector<PlanStage> stages = {};
  double minute_cost = 0.0;             ///< in the unit of the loss, not below 0
  double end_cost = 0.0;                ///< the same
  std::size_t most_levers = 3;          ///< that a plan moves in all
  std::size_t most_work = 300'000'000;  ///< looks at a place of a plan before the search gives up
};

/// By stage, by lever: index into PlanLever::places.
using PlanPlaces = std::vector<std::vector<std::size_t>>;

struct PlanValue {
  double loss = 0.0;     ///< sum over stages of weight times handling error
  double minutes = 0.0;  ///< of all stops
  double ends = 0.0;     ///< cost of moves that land on an end
  double stops = 0.0;    ///< stop_cost of the stops that are made
  bool allowed = true;
};

/// What a plan comes to, stop by stop: with u steps moved the handling error of a stage is
///   (m + sum u b)' W (m + sum u b) + sum u^2 tr(W Lambda)
/// and moving between two stages costs minutes, shared where jobs share a stand. REQUIRES: one
/// place for every lever at every stage.
PlanValue value_of(const PlanCase& c, const PlanPlaces& places);

struct DayPlan {
  PlanPlaces places = {};
  double value = 0.0;  ///< loss + minute_cost * minutes + ends + stops
  double bound = 0.0;  ///< no plan within the limits is worth less than this
  std::size_t looked_at = 0;
  bool exact() const { return bound >= value; }
};

/// The plan of least value. Every set of up to most_levers levers is solved exactly, stage by stage
/// (dynamic programming over the places of its levers; Bellman 1957), or cannot be better: the
/// loss that its levers leave where they may stand anywhere between their ends, and the cost of
/// moving each once, is no less than what was found already. Where the work runs out the plan may
/// not be the best, and `bound` says by how much at most. Plans equal within 1e-9 of the loss of
/// nothing go to the one that moves fewer levers.
DayPlan best_plan(const PlanCase& c);

}  // namespace kartwright
