// effects.h - what one reference step of an adjustment does on this kart today, as far as is known.

#pragma once

#include <Eigen/Core>
#include <vector>

#include "engine/inference/situation.h"

namespace kartwright {

/// b ~ N(per_step, covariance) over axes, notches per reference step in direction 0.
struct Effect {
  Eigen::VectorXd per_step;
  Eigen::MatrixXd covariance;                 ///< notches squared
  std::vector<const EffectRule*> rules = {};  ///< those that speak, by id
  bool contested = false;  ///< the cell that carries most comes from a contested rule
  std::vector<std::string> open_facts = {};  ///< facts nobody stated that would sharpen it, by id
  bool known() const { return !rules.empty(); }
};

/// The adjustment's base rules, with the cells of conditional rules that hold put in their place.
/// Where two conditional rules name one cell, both are heard as an even mixture. Where conditions
/// ask for facts nobody stated and the pack gives those a prior, the effect is the mixture over
/// their values: the mean of the means, and the mean of the covariances plus the covariance of the
/// means.
Effect effect_of(const Adjustment& adjustment, const Situation& situation);

}  // namespace kartwright
