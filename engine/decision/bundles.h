// bundles.h - the best two or three moves made together, found exactly.
//
// best_set knows nothing of karts: it takes the cheapest set of items, one of a group at most, by a
// quadratic loss and additive costs. best_bundle puts the legal moves of a kart to it.

#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <optional>
#include <vector>

#include "engine/decision/rank.h"
#include "engine/decision/stop_order.h"

namespace kartwright {

/// What one unit of a step does.
struct BundleStep {
  Eigen::VectorXd effect;  ///< b, one entry for each axis
  double spread = 0.0;     ///< tr(W Lambda), in the unit of the loss
};

/// One move that may be taken.
struct BundleItem {
  int group = 0;         ///< at most one item of a group is taken
  std::size_t step = 0;  ///< index into BundleCase::steps
  double amount = 0.0;   ///< u, units of the step
  double cost = 0.0;     ///< in the unit of the loss
  double minutes = 0.0;
  int stand = -1;              ///< items of one stand share its minutes; -1: none
  double stand_minutes = 0.0;  ///< of `minutes`: what is spent once for all items on the stand
  int exclusion = -1;          ///< at most one item of an exclusion is taken; -1: of none
};

/// A case to search. All vectors have one entry for each axis.
struct BundleCase {
  Eigen::VectorXd mean;     ///< m
  Eigen::VectorXd weights;  ///< the diagonal of W
  std::vector<BundleStep> steps = {};
  std::vector<BundleItem> items = {};
  double minute_cost = 0.0;                 ///< in the unit of the loss, not below 0
  std::optional<double> most_minutes = {};  ///< a set that takes longer is not taken
  /// Other means at each of which a set must leave less loss than nothing does, costs apart.
  std::vector<Eigen::VectorXd> must_relieve = {};
};

struct BundleChoice {
  std::vector<std::size_t> items = {};  ///< indices, ascending; empty: nothing is better
  double value = 0.0;                   ///< of its loss and costs
};

/// The minutes that a set of items takes: their sum, less, for each stand, all stand minutes but
/// the longest.
double shared_minutes(const BundleCase& c, const std::vector<std::size_t>& items);

/// The set S of at most `most` items, nothing among them, with the least
///   (m + sum u b)' W (m + sum u b) + sum u^2 tr(W Lambda) + sum cost + minute_cost * minutes(S).
/// Exact: every allowed set is looked at, or cannot be better. Of sets equal within rounding
/// (1e-12 of the loss of nothing, or of 1) the one with fewer items, then with the lower indices.
BundleChoice best_set(const BundleCase& c, std::size_t most);

/// Which adjustments stand together, one number for each in the order of the ways; -1: alone.
struct JobClasses {
  std::vector<int> stands;      ///< jobs of one stand share its minutes
  std::vector<int> exclusions;  ///< other names of one physical setting: one of them at most
};
JobClasses job_classes(const std::vector<Way>& ways);

/// Moves made in one break, as copies of the ways' options.
struct Bundle {
  std::vector<Option> moves = {};  ///< in the order of the ways; empty: nothing pays
  /// The order to make and to test them in: jobs are numbers of moves; losses in notches squared.
  std::vector<StopStep> order = {};
  double relief = 0.0;   ///< share of the handling error taken out
  double minutes = 0.0;  ///< with what jobs on one stand share counted once
  double points = 0.0;   ///< 100 relief less effort and last notches; room is not priced here
};

/// The legal moves with known effects, at most `most` and one of an adjustment, that bring most
/// points together and can be done in the minutes left. Adjustments that are one physical setting
/// exclude each other. Where the clock says that the kart is faster, the bundle as a whole must
/// relieve what Candidate::held_back looks at. `effects` are in the order of Pack::adjustments, as
/// for rank(). The options point into the kart.
Bundle best_bundle(const Stakes& stakes, const std::vector<Way>& ways,
                   const std::vector<Effect>& effects, std::size_t most);
/// The same of ways whose job classes are known.
Bundle best_bundle(const Stakes& stakes, const std::vector<Way>& ways,
                   const std::vector<Effect>& effects, const JobClasses& classes, std::size_t most);

}  // namespace kartwright
