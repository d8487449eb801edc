#include "engine/advice/learned.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/inference/derive.h"

namespace kartwright {

namespace {

using Eigen::Index;

constexpr double kTwoSided95 = 1.959963984540054;  // 97.5 % of the normal distribution

/// The axis that the rules say most of, in spreads.
std::size_t surest_axis(const Effect& effect) {
  std::size_t best = 0;
  double most = -1.0;
  for (Index i = 0; i < effect.per_step.size(); ++i) {
    const double sd = std::sqrt(std::max(effect.covariance(i, i), 1e-12));
    const double sure = std::abs(effect.per_step[i]) / sd;
    if (effect.covariance(i, i) <= 0.0 || sure <= most) continue;
    most = sure;
    best = static_cast<std::size_t>(i);
  }
  return best;
}

bool contradicted_on(const LearnedAdjustment& each, Index axis) {
  return each.rule[axis] * each.learned[axis] < 0.0 &&
         std::abs(each.learned[axis]) > kTwoSided95 * each.sd[axis];
}

Agreement agreement_of(const LearnedAdjustment& each) {
  constexpr double kHardly = 0.9;  // of the rules' spread
  const auto axis = static_cast<Index>(each.axis);
  if (contradicted_on(each, axis)) return Agreement::contradicted;
  if (each.sd[axis] > kHardly * each.rule_sd[axis]) return Agreement::too_few;
  const bool inside = std::abs(each.learned[axis] - each.rule[axis]) <= each.rule_sd[axis];
  return inside ? Agreement::agrees : Agreement::differs;
}

}  // namespace

std::string_view name_of(Agreement agreement) {
  constexpr std::array<std::string_view, 4> kNames{"too-few", "agrees", "differs", "contradicted"};
  return kNames.at(static_cast<std::size_t>(agreement));
}

std::vector<Effect> effects_by_rules(const Pack& pack, const Kart& kart, const std::string& track) {
  static const std::vector<Report> kNone;
  Debrief debrief;
  debrief.track = track;
  Situation situation{
      .pack = pack,
      .kart = kart,
      .reports = kNone,
      .facts = settle_facts(pack, kart, kNone, facts_without_room(pack, kart, debrief))};
  return effects_of(situation);
}

Learned learned_from(const History& history, const Pack& pack, const Kart& kart,
                     const std::string& track) {
  Learned out{.kart = kart.name, .track = track, .runs = history.runs, .adjustments = {}};
  const std::vector<Effect> effects = effects_by_rules(pack, kart, track);
  const Experience experience = experience_of(history, effects);
  for (std::size_t j = 0; j < effects.size(); ++j) {
    if (experience[j].runs == 0) continue;
    const Effect learned = with_experience(effects[j], experience[j]);
    LearnedAdjustment each{.adjustment = &pack.adjustments[j],
                           .rule = effects[j].per_step,
                           .rule_sd = effects[j].covariance.diagonal().cwiseMax(0.0).cwiseSqrt(),
                           .learned = learned.per_step,
                           .sd = learned.covariance.diagonal().cwiseMax(0.0).cwiseSqrt(),
                           .runs = history.steps[j].steps,
                           .differences = experience[j].runs,
                           .axis = surest_axis(effects[j]),
                           .with_others = history.steps[j].with_others,
                           .track_moved = history.steps[j].track_moved,
                           .tyres_changed = history.steps[j].tyres_changed,
                           .told = history.steps[j].told};
    each.agreement = agreement_of(each);
    for (Index i = 0; i < each.rule.size(); ++i) {
      if (contradicted_on(each, i)) each.contradicted.push_back(static_cast<std::size_t>(i));
    }
    out.adjustments.push_back(std::move(each));
  }
  std::stable_sort(out.adjustments.begin(), out.adjustments.end(),
                   [](const auto& a, const auto& b) { return a.runs > b.runs; });
  return out;
}

}  // namespace kartwright
