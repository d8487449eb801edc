#include "engine/decision/effects.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "engine/knowledge/engine_facts.h"

namespace kartwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

void collect_facts(const Condition& condition, std::set<std::string>& out) {
  if (condition.op == Condition::Op::test) {
    if (const auto* fact = std::get_if<FactTest>(&condition.test)) out.insert(fact->fact);
  }
  for (const Condition& part : condition.parts) collect_facts(part, out);
}

/// Of the facts asked for, those that nobody stated and the pack has a prior for. The track comes
/// first, since the priors of others depend on it.
std::vector<std::string> open_among(std::set<std::string> asked, const Situation& situation) {
  const auto open = [&](const std::string& id) {
    const FactDef* def = situation.pack.fact(id);
    return def != nullptr && !def->priors.empty() && !situation.facts.stated(id);
  };
  // A prior that looks at the track opens it too.
  for (const std::string& id : std::set<std::string>(asked)) {
    if (!open(id)) continue;
    for (const FactDef::Prior& prior : situation.pack.fact(id)->priors) {
      collect_facts(prior.when, asked);
    }
  }
  std::vector<std::string> out;
  const std::string track(engine_facts::kTrack);
  if (asked.contains(track) && open(track)) out.push_back(track);
  for (const std::string& id : asked) {
    if (id != track && open(id)) out.push_back(id);
  }
  return out;
}

std::vector<std::string> open_facts(const Adjustment& adjustment, const Situation& situation) {
  std::set<std::string> asked;
  for (const EffectRule& rule : adjustment.effects) collect_facts(rule.when, asked);
  return open_among(std::move(asked), situation);
}

/// The rules that speak for each axis where every fact is known.
using Speakers = std::map<std::size_t, std::vector<std::pair<const EffectRule*, Cell>>>;

Speakers speakers_of(const Adjustment& adjustment, const Situation& situation) {
  Speakers base, conditional;
  for (const EffectRule& rule : adjustment.effects) {
    if (!holds(rule.when, situation)) continue;
    Speakers& into = rule.when.op == Condition::Op::always ? base : conditional;
    for (const Cell& cell : rule.cells) into[cell.axis].emplace_back(&rule, cell);
  }
  for (auto& [axis, speakers] : base) conditional.try_emplace(axis, std::move(speakers));
  return conditional;
}

/// Sums of a mixture: weights, first and second moments.
class Mixture {
 public:
  explicit Mixture(std::size_t axes)
      : mean_(VectorXd::Zero(static_cast<Index>(axes))),
        second_(MatrixXd::Zero(mean_.size(), mean_.size())) {}

  void add(double weight, const Speakers& speakers) {
    VectorXd mean = VectorXd::Zero(mean_.size());
    VectorXd variance = mean;
    for (const auto& [axis, rules] : speakers) {
      const auto at = static_cast<Index>(axis);
      const double share = 1.0 / static_cast<double>(rules.size());
      double square = 0.0;
      for (const auto& [rule, cell] : rules) {
        mean[at] += share * cell.mean;
        square += share * (cell.sd * cell.sd + cell.mean * cell.mean);
        carried_[rule] += weight * share * std::abs(cell.mean);
      }
      variance[at] = square - mean[at] * mean[at];
    }
    weight_ += weight;
    mean_ += weight * mean;
    second_ += weight * (mean * mean.transpose());
    second_.diagonal() += weight * variance;
  }

  Effect effect() const {
    const VectorXd mean = mean_ / weight_;
    Effect out{.per_step = mean, .covariance = second_ / weight_ - mean * mean.transpose()};
    const EffectRule* most = nullptr;
    for (const auto& [rule, amount] : carried_) {
      out.rules.push_back(rule);
      if (most == nullptr || amount > carried_.at(most)) most = rule;
    }
    out.contested = most != nullptr && most->contested;
    return out;
  }

 private:
  struct ById {
    bool operator()(const EffectRule* a, const EffectRule* b) const { return a->id < b->id; }
  };
  double weight_ = 0.0;
  VectorXd mean_;
  MatrixXd second_;
  std::map<const EffectRule*, double, ById> carried_;
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
  Cases(Situation& situation, std::vector<std::string> open)
      : given_(situation.supposed), open_(std::move(open)), supposing_(situation) {}

  template <typename Visit>
  void each(const Visit& visit) {
    from(0, 1.0, visit);
  }

 private:
  template <typename Visit>
  void from(std::size_t next, double weight, const Visit& visit) {
    if (next == open_.size()) return visit(supposing_, weight);
    const FactDef& fact = *supposing_.pack.fact(open_[next]);
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
  std::vector<std::string> open_;
  Situation& supposing_;
};

}  // namespace

Effect effect_of(const Adjustment& adjustment, const Situation& situation) {
  Situation supposing = situation;
  return effect_supposing(adjustment, supposing);
}

Effect effect_supposing(const Adjustment& adjustment, Situation& situation) {
  std::vector<std::string> open = open_facts(adjustment, situation);
  Mixture mixture(situation.pack.axes.size());
  Cases(situation, open).each([&](const Situation& supposing, double weight) {
    mixture.add(weight, speakers_of(adjustment, supposing));
  });
  Effect effect = mixture.effect();
  std::erase_if(open, [&](const std::string& id) { return situation.supposed.contains(id); });
  effect.open_facts = std::move(open);
  return effect;
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
