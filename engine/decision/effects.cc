#include "engine/decision/effects.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string_view>

#include "engine/algebra/solving.h"
#include "engine/knowledge/engine_facts.h"

namespace kartwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Ids in the pack or in a situation, sorted, each once.
using Ids = std::vector<std::string_view>;

void insert(Ids& ids, std::string_view id) {
  const auto place = std::lower_bound(ids.begin(), ids.end(), id);
  if (place == ids.end() || *place != id) ids.insert(place, id);
}

void collect_facts(const Condition& condition, Ids& out) {
  if (condition.op == Condition::Op::test) {
    if (const auto* fact = std::get_if<FactTest>(&condition.test)) insert(out, fact->fact);
  }
  for (const Condition& part : condition.parts) collect_facts(part, out);
}

/// Of the facts asked for, those that nobody stated and the pack has a prior for. The track comes
/// first, since the priors of others depend on it.
std::vector<const FactDef*> open_among(Ids asked, const Situation& situation) {
  const auto open = [&](std::string_view id) -> const FactDef* {
    const FactDef* def = situation.pack.fact(id);
    return def != nullptr && !def->priors.empty() && !situation.facts.stated(id) ? def : nullptr;
  };
  // A prior that looks at the track opens it too.
  for (const std::string_view id : Ids(asked)) {
    const FactDef* def = open(id);
    if (def == nullptr) continue;
    for (const FactDef::Prior& prior : def->priors) collect_facts(prior.when, asked);
  }
  std::vector<const FactDef*> out;
  for (const std::string_view id : asked) {
    const FactDef* def = open(id);
    if (def != nullptr) out.insert(id == engine_facts::kTrack ? out.begin() : out.end(), def);
  }
  return out;
}

std::vector<const FactDef*> open_facts(const Adjustment& adjustment, const Situation& situation) {
  Ids asked;
  for (const EffectRule& rule : adjustment.effects) collect_facts(rule.when, asked);
  return open_among(std::move(asked), situation);
}

bool is_base(const EffectRule& rule) { return rule.when.op == Condition::Op::always; }

/// The rules of an adjustment that hold where every fact is known, and who speaks for each axis:
/// those with a condition, or where there is none the base.
struct Speakers {
  std::vector<const EffectRule*> rules = {};
  Eigen::ArrayXi base, conditional;  ///< how many, by axis

  explicit Speakers(Index axes)
      : base(Eigen::ArrayXi::Zero(axes)), conditional(Eigen::ArrayXi::Zero(axes)) {}

  /// Among how many the axis of a cell is shared; 0 where the rule has lost it to others.
  int sharing(const EffectRule& rule, const Cell& cell) const {
    const auto axis = static_cast<Index>(cell.axis);
    if (!is_base(rule)) return conditional[axis];
    return conditional[axis] > 0 ? 0 : base[axis];
  }
};

Speakers speakers_of(const Adjustment& adjustment, const Situation& situation) {
  Speakers speakers(static_cast<Index>(situation.pack.axes.size()));
  for (const EffectRule& rule : adjustment.effects) {
    if (!holds(rule.when, situation)) continue;
    speakers.rules.push_back(&rule);
    Eigen::ArrayXi& count = is_base(rule) ? speakers.base : speakers.conditional;
    for (const Cell& cell : rule.cells) ++count[static_cast<Index>(cell.axis)];
  }
  return speakers;
}

/// Sums of a mixture: weights, first and second moments.
class Mixture {
 public:
  Mixture(const Adjustment& adjustment, Index axes)
      : adjustment_(adjustment), mean_(VectorXd::Zero(axes)), carried_(adjustment.effects.size()) {}

  void add(double weight, const Speakers& speakers) {
    const Said said = said_by(weight, speakers);
    if (weight_ == 0.0) second_.setZero(mean_.size(), mean_.size());
    weight_ += weight;
    mean_ += weight * said.mean;
    second_ += weight * (said.mean * said.mean.transpose());
    second_.diagonal() += weight * said.variance;
  }

  Effect effect() const {
    const VectorXd mean = mean_ / weight_;
    Effect out{.per_step = mean, .covariance = second_ / weight_};
    out.covariance -= mean * mean.transpose();
    name_rules(out);
    return out;
  }

  /// What add and effect come to where there is one case and no other: axes are apart.
  Effect effect_of_one(const Speakers& speakers) {
    const Said said = said_by(1.0, speakers);
    const VectorXd square = said.mean.cwiseAbs2();
    Effect out{.per_step = said.mean, .covariance = MatrixXd::Zero(square.size(), square.size())};
    out.covariance.diagonal() = (square + said.variance) - square;
    name_rules(out);
    return out;
  }

 private:
  /// By axis, where every fact is known.
  struct Said {
    VectorXd mean, variance;
  };

  Said said_by(double weight, const Speakers& speakers) {
    Said said{VectorXd::Zero(mean_.size()), VectorXd::Zero(mean_.size())};
    VectorXd& square = said.variance;
    for (const EffectRule* rule : speakers.rules) {
      for (const Cell& cell : rule->cells) {
        const int sharing = speakers.sharing(*rule, cell);
        if (sharing == 0) continue;
        const auto at = static_cast<Index>(cell.axis);
        const double share = 1.0 / sharing;
        said.mean[at] += share * cell.mean;
        square[at] += share * (cell.sd * cell.sd + cell.mean * cell.mean);
        carry(*rule, weight * share * std::abs(cell.mean));
      }
    }
    said.variance -= said.mean.cwiseAbs2();
    return said;
  }

  void name_rules(Effect& out) const {
    for (const EffectRule& rule : adjustment_.effects) {
      if (carried_[number_of(rule)]) out.rules.push_back(&rule);
    }
    std::sort(out.rules.begin(), out.rules.end(),
              [](const EffectRule* a, const EffectRule* b) { return a->id < b->id; });
    const auto most = std::max_element(out.rules.begin(), out.rules.end(),
                                       [&](const EffectRule* a, const EffectRule* b) {
                                         return *carried_[number_of(*a)] < *carried_[number_of(*b)];
                                       });
    out.contested = most != out.rules.end() && (*most)->contested;
  }

  std::size_t number_of(const EffectRule& rule) const {
    return static_cast<std::size_t>(&rule - adjustment_.effects.data());
  }

  void carry(const EffectRule& rule, double amount) {
    std::optional<double>& carried = carried_[number_of(rule)];
    carried = carried.value_or(0.0) + amount;
  }

  const Adjustment& adjustment_;
  double weight_ = 0.0;
  VectorXd mean_;
  MatrixXd second_;
  std::vector<std::optional<double>> carried_;  ///< by rule: what it has said, where it speaks
};

/// Prior weights of a fact's values under what is supposed so far.
std::vector<double> weights_of(const FactDef& fact, const Situation& situation) {
  for (const FactDef::Prior& prior : fact.priors) {
    if (holds(prior.when, situation)) return prior.weights;
  }
  return std::vector<double>(fact.values.size(), 1.0 / static_cast<double>(fact.values.size()));
}

/// A situation in every way that its open facts may be, each with its weight. What is supposed
/// already stays so, at the weight its prior gives it.
class Cases {
 public:
  /// The situation is written in and comes back as it was.
  Cases(Situation& situation, std::vector<const FactDef*> open)
      : given_(situation.supposed), open_(std::move(open)), supposing_(situation) {}

  template <typename Visit>
  void each(const Visit& visit) {
    from(0, 1.0, visit);
  }

 private:
  template <typename Visit>
  void from(std::size_t next, double weight, const Visit& visit) {
    if (next == open_.size()) return visit(supposing_, weight);
    const FactDef& fact = *open_[next];
    const std::vector<double> weights = weights_of(fact, supposing_);
    const auto given = given_.find(fact.id);
    for (std::size_t i = 0; i < fact.values.size(); ++i) {
      if (given != given_.end()) {
        // What the prior rules out may be supposed all the same.
        constexpr double kRuledOut = 1e-12;
        if (given->second == fact.values[i])
          from(next + 1, weight * std::max(weights[i], kRuledOut), visit);
      } else if (weights[i] > 0.0) {
        supposing_.supposed[fact.id] = fact.values[i];
        from(next + 1, weight * weights[i], visit);
      }
    }
    if (given == given_.end()) supposing_.supposed.erase(fact.id);
  }

  std::map<std::string, std::string, std::less<>> given_;
  std::vector<const FactDef*> open_;
  Situation& supposing_;
};

/// What the rules say, over all ways that the open facts may be.
Effect mixed_effect(const Adjustment& adjustment, const std::vector<const FactDef*>& open,
                    Situation& situation) {
  Mixture mixture(adjustment, static_cast<Index>(situation.pack.axes.size()));
  if (open.empty()) return mixture.effect_of_one(speakers_of(adjustment, situation));
  Cases(situation, open).each([&](const Situation& supposing, double weight) {
    mixture.add(weight, speakers_of(adjustment, supposing));
  });
  return mixture.effect();
}

}  // namespace

Effect with_experience(Effect effect, const LearnedEffect& learned) {
  if (learned.precision.size() == 0 || !effect.known()) return effect;
  effect.covariance = narrowed(effect.covariance, learned.precision);
  effect.per_step += effect.covariance * learned.pull;
  effect.records = learned.runs;
  return effect;
}

Effect effect_of(const Adjustment& adjustment, const Situation& situation) {
  Situation supposing = situation;
  return effect_supposing(adjustment, supposing);
}

Effect effect_supposing(const Adjustment& adjustment, Situation& situation) {
  const std::vector<const FactDef*> open = open_facts(adjustment, situation);
  Effect effect = mixed_effect(adjustment, open, situation);
  for (const FactDef* fact : open) {
    if (!situation.supposed.contains(fact->id)) effect.open_facts.push_back(fact->id);
  }
  const auto at = static_cast<std::size_t>(&adjustment - situation.pack.adjustments.data());
  if (situation.experience == nullptr || at >= situation.experience->size()) return effect;
  return with_experience(std::move(effect), (*situation.experience)[at]);
}

std::vector<Effect> effects_of(Situation& situation) {
  std::vector<Effect> effects;
  effects.reserve(situation.pack.adjustments.size());
  for (const Adjustment& adjustment : situation.pack.adjustments)
    effects.push_back(effect_supposing(adjustment, situation));
  return effects;
}

std::vector<double> value_weights(const FactDef& fact, Situation& situation) {
  std::vector<double> out(fact.values.size(), 0.0);
  Cases(situation, open_among({fact.id}, situation))
      .each([&](const Situation& supposing, double weight) {
        const std::string& value = supposing.supposed.at(fact.id);
        const auto at = std::find(fact.values.begin(), fact.values.end(), value);
        out[static_cast<std::size_t>(at - fact.values.begin())] += weight;
      });
  return out;
}

}  // namespace kartwright
