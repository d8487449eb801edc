// day_levers.h - the best plan of a few levers, stage by stage over all their places.

#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "engine/decision/day_loss.h"

namespace kartwright {

/// What landing on a place costs beside the minutes.
double landing_cost(const PlanCase& c, const PlanLever& lever, std::size_t place);

/// True where one move goes that far.
bool within_reach(const PlanLever& lever, std::size_t from, std::size_t to, bool any_reach);

/// An item for each lever, so that a stop takes its minutes as a bundle does.
BundleCase jobs_of(const PlanCase& c);

/// The places of all levers now.
std::vector<std::size_t> places_now(const PlanCase& c);

/// Every combination of places of some levers, numbered; the first lever counts fastest.
struct PlaceGrid {
  Levers levers;
  std::vector<std::size_t> sizes, strides;  ///< by lever of the grid
  std::size_t size = 1;
  std::size_t start = 0;  ///< where all stand now

  PlaceGrid(const PlanCase& c, Levers which);
  std::size_t place(std::size_t at, std::size_t i) const { return at / strides[i] % sizes[i]; }
};

/// Exact, by dynamic programming (Bellman 1957): what it is worth to stand at a combination of
/// places after a stage is the least over where the levers can have come from.
class LeversPlan {
 public:
  /// `jobs` as jobs_of, `losses` a stage each, places counted from where the levers stand; all of
  /// them outlive it. With `anywhere` a plan from below: that lever stands where it likes at every
  /// stage, and costs nothing.
  LeversPlan(const PlanCase& c, const BundleCase& jobs, const std::vector<StageLoss>& losses,
             Levers levers, std::optional<std::size_t> anywhere = {});

  double value() const;
  std::size_t looked_at() const { return looked_at_; }

  /// Where its levers stand at each stage; all others stand where they are.
  PlanPlaces places() const;

 private:
  /// Levers of the grid that move at a stop, as bits, and what that costs.
  struct Moves {
    unsigned which = 0;
    double cost = 0.0;
  };
  using Values = std::vector<double>;  ///< by combination

  std::vector<Moves> stops(const PlanStage& stage) const;
  std::vector<std::pair<std::size_t, std::size_t>> reached_from(std::size_t i,
                                                                bool any_reach) const;
  Values moved_along(std::size_t i, const Values& before, bool any_reach) const;
  void reach(unsigned which, std::vector<Values>& moved, bool any_reach);
  Values after_stop(const Values& before, std::size_t k, const Values& loss);
  std::size_t came_from(std::size_t k, std::size_t at) const;
  double before(std::size_t k, std::size_t at) const;
  std::optional<std::size_t> among(std::size_t k, std::size_t at, unsigned which, double most,
                                   std::size_t i, std::size_t from) const;

  const PlanCase& case_;
  const BundleCase& jobs_;
  PlaceGrid grid_;
  std::vector<std::vector<Moves>> stops_;  // by stage
  std::vector<Values> values_;             // by stage: the best way to be there
  std::vector<Values> losses_;             // by stage
  std::size_t looked_at_ = 0;
};

}  // namespace kartwright
