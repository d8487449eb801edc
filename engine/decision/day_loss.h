// day_loss.h - the handling error of a stage of the day as a polynomial in the steps that levers
// are moved from where they stand now, and how little it can be.

#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "engine/decision/day_plan.h"

namespace kartwright {

/// Levers of a case, by number.
using Levers = std::vector<std::size_t>;

/// The stage's weight and all: constant + sum (slope u + square u^2) + sum over pairs cross u u'.
struct StageLoss {
  double constant = 0.0;
  std::vector<double> slope = {}, square = {};  ///< by lever
  Eigen::MatrixXd cross = {};                   ///< levers by levers, symmetric

  double between(std::size_t a, std::size_t b) const {
    return cross(static_cast<Eigen::Index>(a), static_cast<Eigen::Index>(b));
  }
};

/// REQUIRES: the stage has a step for each lever of the case.
StageLoss stage_loss(const PlanCase& c, const PlanStage& stage);

/// The same levers, their places counted from where they stand now.
std::vector<PlanLever> from_where_they_stand(std::vector<PlanLever> levers);

/// The least loss with these levers anywhere between their ends, from below: what a convex loss
/// could still fall by is taken off. Places are counted from where the levers stand.
double least_between_ends(const StageLoss& loss, const PlanCase& c, const Levers& levers);

/// The loss at every combination of places of some levers, the first counting fastest; with one
/// more lever that may stand anywhere between its ends, if there is one. Places are counted as
/// above.
std::vector<double> loss_on_places(const StageLoss& loss, const PlanCase& c, const Levers& levers,
                                   std::optional<std::size_t> anywhere);

}  // namespace kartwright
