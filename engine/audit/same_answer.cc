#include "engine/audit/same_answer.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "engine/kart/travel.h"

namespace kartwright {
namespace {

constexpr double kSameFigure = 1e-9;

/// Of notches, decibans and points.
bool close(double a, double b) { return std::abs(a - b) <= kSameFigure; }

/// Two numbers in few figures, or in all where few would not tell them apart.
std::string against(double one, double other, const char* unit) {
  const std::string a = fmt::format("{:+.4g}", one), b = fmt::format("{:+.4g}", other);
  if (a == b) return fmt::format("{:+} {} against {:+}", one, unit, other);
  return fmt::format("{} {} against {}", a, unit, b);
}

std::string means_apart(const Eigen::VectorXd& one, const Eigen::VectorXd& other,
                        const Pack& pack) {
  for (std::size_t i = 0; i < pack.axes.size(); ++i) {
    const auto axis = static_cast<Eigen::Index>(i);
    if (close(one[axis], other[axis])) continue;
    return pack.axes[i].label + " is " + against(one[axis], other[axis], "notches");
  }
  return {};
}

std::string odds_apart(const std::vector<FaultOdds>& one, const std::vector<FaultOdds>& other) {
  std::map<const Fault*, double> theirs;
  for (const FaultOdds& odds : other) theirs[odds.fault] = odds.decibans;
  for (const FaultOdds& odds : one) {
    if (close(odds.decibans, theirs.at(odds.fault))) continue;
    return fmt::format("`{}` stands at {}", odds.fault->id,
                       against(odds.decibans, theirs.at(odds.fault), "dB"));
  }
  return {};
}

/// Where a direction of an adjustment ends up: offered, or refused.
struct Fate {
  double to = 0.0, score = 0.0;
  Refusal refusal = Refusal::none;

  std::string text() const {
    return refusal == Refusal::none ? fmt::format("scores {:.4f}", score)
                                    : fmt::format("is refused ({})", name_of(refusal));
  }
  bool same(const Fate& other) const {
    return refusal == other.refusal && same_value(to, other.to, 1.0) && close(score, other.score);
  }
};

std::map<std::pair<std::string, std::string>, Fate> fates(const Advice& advice) {
  std::map<std::pair<std::string, std::string>, Fate> all;
  for (const Change& change : advice.changes) {
    all[{change.adjustment().id, change.direction()}] = {change.candidate.option.to,
                                                         change.candidate.parts.score()};
  }
  for (const NotNow& refused : advice.not_now) {
    all[{std::string(refused.adjustment), std::string(refused.direction)}].refusal = refused.reason;
  }
  return all;
}

std::string ranking_apart(const Advice& one, const Advice& other) {
  const auto theirs = fates(other);
  for (const auto& [move, fate] : fates(one)) {
    const Fate& there = theirs.at(move);
    if (fate.same(there)) continue;
    const bool same_place = same_value(fate.to, there.to, 1.0);
    return fmt::format("`{}` {} {} against {}{}", move.first, move.second, fate.text(),
                       there.text(), same_place ? "" : ", to another place");
  }
  return {};
}

}  // namespace

FullAnswer answer_in_full(const Pack& pack, const Kart& kart, const Debrief& debrief,
                          System units) {
  constexpr Depth kRankingOnly{.questions = false, .together = 1};
  FullAnswer answer{.advice = advise(pack, kart, debrief, units, kRankingOnly), .odds = {}};
  answer.odds = weigh_faults({.pack = pack,
                              .kart = kart,
                              .reports = answer.advice.debrief.heard.reports,
                              .facts = answer.advice.facts});
  return answer;
}

Beliefs believe(const Situation& situation, const Prior& prior) {
  return {update(prior, take_readings(situation)).mean, weigh_faults(situation)};
}

std::string where_beliefs_apart(const Beliefs& one, const Beliefs& other, const Pack& pack) {
  const std::string apart = means_apart(one.mean, other.mean, pack);
  return apart.empty() ? odds_apart(one.odds, other.odds) : apart;
}

std::string where_apart(const FullAnswer& one, const FullAnswer& other, const Pack& pack) {
  std::string apart = means_apart(one.advice.belief.mean, other.advice.belief.mean, pack);
  if (apart.empty()) apart = odds_apart(one.odds, other.odds);
  if (apart.empty() && one.advice.verdict.headline != other.advice.verdict.headline) {
    apart = fmt::format("the headline is {} against {}", name_of(one.advice.verdict.headline),
                        name_of(other.advice.verdict.headline));
  }
  if (apart.empty()) apart = ranking_apart(one.advice, other.advice);
  return apart;
}

}  // namespace kartwright
