#include "engine/decision/rank.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "engine/decision/room.h"

namespace kartwright {
namespace {

using Eigen::VectorXd;

double quadratic(const VectorXd& mean, const VectorXd& weights) {
  return weights.dot(mean.cwiseAbs2());
}

double spread_of(const VectorXd& weights, const Effect& effect) {
  return weights.dot(effect.covariance.diagonal());
}

double loss_at(const VectorXd& mean, const VectorXd& weights, const Effect& effect, double steps,
               double spread) {
  return weights.dot((mean + steps * effect.per_step).cwiseAbs2()) + steps * steps * spread;
}

double loss_at(const VectorXd& mean, const VectorXd& weights, const Effect& effect, double steps) {
  return loss_at(mean, weights, effect, steps, spread_of(weights, effect));
}

double relief_from(double nothing, double loss) {
  constexpr double kNoError = 1e-12;
  return nothing < kNoError ? 0.0 : 1.0 - loss / nothing;
}

/// What judging a way needs to know of its adjustment, each taken once for all its places.
struct Judged {
  const Effect& effect;
  const Room& room;
  std::size_t adjustment;
  double nothing;  ///< J(none)
  double spread;   ///< tr(W Lambda) of a step
};

/// How all ways of one case are judged.
struct Yardstick {
  const Stakes& stakes;
  const std::vector<Effect>& effects;
  const Room& room;
  double nothing = loss_of_nothing(stakes);

  Judged judged(std::size_t way) const {
    const Effect& effect = effects[way / 2];
    return {effect, room, way / 2, nothing, spread_of(stakes.weights, effect)};
  }
};

double relief_by(const Stakes& stakes, const Judged& judged, double steps) {
  return relief_from(judged.nothing,
                     loss_at(stakes.mean, stakes.weights, judged.effect, steps, judged.spread));
}

/// All but what the move costs in room.
Candidate judge_for_today(const Stakes& stakes, const Option& option, const Effect& effect,
                          double relief) {
  Candidate candidate{.option = option, .relief = relief};
  candidate.parts.effect = 100.0 * candidate.relief;
  candidate.parts.effort = -effort_rate(stakes.minutes_left) * option.minutes;
  if (option.last_notch) candidate.parts.last_notch = -last_notch_cost(option);
  const auto relieves = [&](const std::optional<VectorXd>& mean) {
    return loss_at(*mean, stakes.weights, effect, option.steps) < quadratic(*mean, stakes.weights);
  };
  if (stakes.without_complaints) candidate.only_comfort = !relieves(stakes.without_complaints);
  if (stakes.with_complaints) candidate.against_complaint = !relieves(stakes.with_complaints);
  return candidate;
}

void charge_room(const Judged& judged, Candidate& candidate) {
  candidate.room_cost = judged.room.cost(judged.adjustment, candidate.option.steps);
  candidate.parts.room = -100.0 * candidate.room_cost;
}

bool better(const Candidate& a, const Candidate& b) {
  const auto key = [](const Candidate& c) {
    return std::tuple(c.held_back(), -c.parts.score(), c.option.minutes,
                      std::string_view(c.option.setting->adjustment->id), c.option.direction);
  };
  return key(a) < key(b);
}

/// The axis whose weighed error a move to the mean `after` adds most to.
std::size_t most_worsened(const Stakes& stakes, const Effect& effect, double steps,
                          const VectorXd& after) {
  Eigen::Index worst = 0;
  stakes.weights
      .cwiseProduct(after.cwiseAbs2() - stakes.mean.cwiseAbs2() +
                    steps * steps * effect.covariance.diagonal())
      .maxCoeff(&worst);
  return static_cast<std::size_t>(worst);
}

/// Where the move would go on to if it could be as large as it liked, if farther than the option.
std::optional<double> goes_on_to(const Stakes& stakes, const Way& way, const Effect& effect,
                                 const Option& chosen) {
  const Option* best = nullptr;
  double best_loss = loss_of(stakes, effect, chosen.steps);
  for (const Option& option : way.options) {
    if (option.refusal != Refusal::none) continue;
    const double loss = loss_of(stakes, effect, option.steps);
    if (std::abs(option.steps) <= std::abs(chosen.steps) || loss >= best_loss) continue;
    best = &option;
    best_loss = loss;
  }
  if (best == nullptr) return std::nullopt;
  return best->to;
}

/// Why nothing legal is left in a way, told by its nearest place.
Refused refuse(const Way& way, Refusal refusal) {
  Refused refused{.way = &way, .refusal = refusal};
  if (!way.options.empty()) refused.option = way.options.front();
  return refused;
}

/// Puts the best of the legal places of a way that relieve in the place of one that is no better.
/// Room has a price and never a reward, so a place that is no better without it is not priced.
void take_better(const Stakes& stakes, const Way& way, const Judged& judged,
                 std::optional<Candidate>& best) {
  for (const Option& option : way.options) {
    if (!option.legal()) continue;
    const double relief = relief_by(stakes, judged, option.steps);
    if (relief <= 0.0) continue;
    Candidate candidate = judge_for_today(stakes, option, judged.effect, relief);
    if (best && !better(candidate, *best)) continue;
    charge_room(judged, candidate);
    if (!best || better(candidate, *best)) best = candidate;
  }
}

bool any_legal(const Way& way) {
  return std::any_of(way.options.begin(), way.options.end(),
                     [](const Option& option) { return option.legal(); });
}

void judge_way(const Stakes& stakes, const Way& way, const Judged& judged, Ranking& ranking) {
  const Effect& effect = judged.effect;
  if (way.setting == nullptr) {
    ranking.refused.push_back(refuse(way, Refusal::not_on_this_kart));
    return;
  }
  if (way.options.empty()) {
    ranking.refused.push_back(refuse(way, Refusal::end_stop));
    return;
  }
  if (!effect.known()) {
    ranking.refused.push_back(refuse(way, Refusal::effect_unknown));
    return;
  }
  if (!any_legal(way)) {
    // With the nearest place legal there would be a candidate, unless its step alone is too large.
    const Refusal why = way.options.front().refusal;
    ranking.refused.push_back(refuse(way, why == Refusal::none ? Refusal::end_stop : why));
    return;
  }
  std::optional<Candidate> best;
  take_better(stakes, way, judged, best);
  if (!best) {
    Refused refused = refuse(way, Refusal::makes_worse);
    const double steps = refused.option->steps;
    const VectorXd after = stakes.mean + steps * effect.per_step;
    refused.worsens = most_worsened(stakes, effect, steps, after);
    refused.uncertain = quadratic(after, stakes.weights) < loss_of_nothing(stakes);
    ranking.refused.push_back(refused);
    return;
  }
  best->then = goes_on_to(stakes, way, effect, best->option);
  ranking.candidates.push_back(*best);
}

/// The place of an adjustment that lies so many reference steps from where it stands.
double place_of(double steps, const Way& plus, const Way& minus) {
  for (const Way* way : {&plus, &minus}) {
    for (const Option& option : way->options) {
      if (option.steps == steps) return option.to;
    }
  }
  return plus.setting->now;
}

}  // namespace

double loss_of_nothing(const Stakes& stakes) { return quadratic(stakes.mean, stakes.weights); }

double loss_of(const Stakes& stakes, const Effect& effect, double steps) {
  return loss_at(stakes.mean, stakes.weights, effect, steps);
}

double relief_of(const Stakes& stakes, double loss) {
  return relief_from(loss_of_nothing(stakes), loss);
}

double effort_rate(double minutes_left) {
  constexpr double kRate = 0.5;
  constexpr double kUsualBreak = 15.0;
  if (minutes_left <= 0.0) return kRate * 4.0;
  return kRate * std::clamp(kUsualBreak / minutes_left, 1.0, 4.0);
}

double last_notch_cost(const Option& option) {
  constexpr double kLastNotch = 3.0;
  return option.last_notch ? kLastNotch : 0.0;
}

std::vector<Candidate> judge_places(const Stakes& stakes, const std::vector<Way>& ways,
                                    const std::vector<Effect>& effects, std::size_t way) {
  const Room room(stakes.mean, stakes.weights, stakes.forecast, ways, effects);
  std::vector<Candidate> out;
  const Judged judged = Yardstick{stakes, effects, room}.judged(way);
  for (const Option& option : ways[way].options) {
    const double relief = relief_by(stakes, judged, option.steps);
    out.push_back(judge_for_today(stakes, option, judged.effect, relief));
    charge_room(judged, out.back());
  }
  return out;
}

Ranking rank(const Stakes& stakes, const std::vector<Way>& ways,
             const std::vector<Effect>& effects) {
  Ranking ranking;
  const Room room(stakes.mean, stakes.weights, stakes.forecast, ways, effects);
  const Yardstick yardstick{stakes, effects, room};
  ranking.candidates.reserve(ways.size() / 2);
  ranking.refused.reserve(ways.size());
  for (std::size_t i = 0; i < ways.size(); ++i) {
    const std::size_t before = ranking.candidates.size();
    judge_way(stakes, ways[i], yardstick.judged(i), ranking);
    if (ranking.candidates.size() == before) continue;
    if (const auto steps = room.wanted(i / 2))
      ranking.candidates.back().wanted = place_of(*steps, ways[i - i % 2], ways[i - i % 2 + 1]);
  }
  ranking.nothing = -100.0 * room.cost_of_nothing();
  std::sort(ranking.candidates.begin(), ranking.candidates.end(), better);
  return ranking;
}

Lead leading(const Stakes& stakes, const std::vector<Way>& ways,
             const std::vector<Effect>& effects) {
  const Room room(stakes.mean, stakes.weights, stakes.forecast, ways, effects);
  Lead lead{.nothing = -100.0 * room.cost_of_nothing()};
  const Yardstick yardstick{stakes, effects, room};
  for (std::size_t i = 0; i < ways.size(); ++i) {
    if (!effects[i / 2].known()) continue;
    take_better(stakes, ways[i], yardstick.judged(i), lead.candidate);
  }
  return lead;
}

}  // namespace kartwright
