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
  int records = 0;  ///< differences between debriefs in the log that it was learned from
  bool known() const { return !rules.empty(); }
};

/// The effect with what a log adds: prior N(b, P) and information (E, e) about the distance from b
/// give b + P (1 + E P)^-1 e and P (1 + E P)^-1.
Effect with_experience(Effect effect, const LearnedEffect& learned);

/// The adjustment's base rules, with the cells of conditional rules that hold put in their place.
/// Where two conditional rules name one cell, both are heard as an even mixture. Where conditions
/// ask for facts nobody stated and the pack gives those a prior, the effect is the mixture over
/// their values: the mean of the means, and the mean of the covariances plus the covariance of the
/// means. What is supposed of such a fact is no longer open, and makes likelier what goes with it:
/// over the values of a fact, by value_weights, the mixture comes out again. What the situation has
/// of the kart's log is put on top.
Effect effect_of(const Adjustment& adjustment, const Situation& situation);

/// The same without copying the case, which would cost more than all the rest: its `supposed` is
/// written in and comes back as it was.
Effect effect_supposing(const Adjustment& adjustment, Situation& situation);

/// effect_supposing of every adjustment of the pack, in its order.
std::vector<Effect> effects_of(Situation& situation);

/// How likely each value of a fact is before anybody states it, in the order of its values: its
/// prior, over all ways that the open facts which the prior looks at may be. Sums to 1. REQUIRES:
/// the fact has a prior, is not stated, and nothing is supposed: the situation comes back so.
std::vector<double> value_weights(const FactDef& fact, Situation& situation);

}  // namespace kartwright
