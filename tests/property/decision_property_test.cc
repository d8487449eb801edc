// Random karts in random hands: nothing is recommended that is not allowed, and nothing is dropped
// in silence.

#include <cmath>
#include <map>
#include <set>

#include <gtest/gtest.h>

#include "engine/advice/advise.h"
#include "tests/support/any.h"
#include "tests/support/pit.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

bool chance(Random& random, double p) { return std::bernoulli_distribution(p)(random); }
template <typename List>
const auto& pick(Random& random, const List& list) {
  return list[static_cast<std::size_t>(whole(random, 0, static_cast<int>(list.size()) - 1))];
}

void limit(Random& random, Setting& setting) {
  if (!setting.travel.names.empty()) {
    for (const std::string& name : setting.travel.names) {
      const bool fitted = name == setting.travel.names[static_cast<std::size_t>(setting.now)];
      if (fitted || chance(random, 0.6)) setting.limit.allowed.push_back(name);
    }
    return;
  }
  const double a = pick(random, setting.travel.places);
  if (a >= setting.now) setting.limit.at_most = a;
  if (a <= setting.now) setting.limit.at_least = a;
}

Kart random_kart(Random& random) {
  Kart kart = typical_kart(rules());
  for (auto& [id, setting] : kart.settings) {
    setting.now = pick(random, setting.travel.places);
    setting.minutes = whole(random, 0, 30);
    if (chance(random, 0.4)) limit(random, setting);
    if (!setting.adjustment->parts) continue;
    setting.in_the_box = {setting.travel.names[static_cast<std::size_t>(setting.now)]};
    for (const std::string& name : setting.travel.names) {
      if (chance(random, 0.5)) setting.in_the_box.push_back(name);
    }
  }
  for (const Adjustment& adjustment : rules().adjustments) {
    if (chance(random, 0.1)) kart.settings.erase(adjustment.id);
  }
  return kart;
}

Debrief random_debrief(Random& random) {
  Debrief debrief;
  debrief.track = chance(random, 0.1) ? "unknown" : pick(random, rules().tracks).id;
  debrief.minutes = pick(random, std::vector<double>{3.0, 5.0, 15.0, 60.0});
  for (int i = whole(random, 0, 4); i > 0; --i) {
    Report report{.symptom = pick(random, rules().symptoms).id};
    report.phase = static_cast<Phase>(whole(random, 0, 4));
    report.severity = whole(random, 0, 3);
    report.confidence = static_cast<Confidence>(whole(random, 0, 2));
    debrief.heard.reports.push_back(report);
  }
  for (int i = whole(random, 0, 3); i > 0; --i) {
    const FactDef& fact = pick(random, rules().facts);
    if (fact.entered && fact.id != "track") {
      debrief.heard.facts.push_back({fact.id, pick(random, fact.values)});
    }
  }
  return debrief;
}

void expect_allowed(const Change& change, const Kart& kart, const Debrief& debrief) {
  const Option& option = change.candidate.option;
  const Setting& setting = kart.settings.at(change.adjustment().id);
  const std::string what = change.adjustment().id + " to " + change.to;
  const auto& places = setting.travel.places;
  EXPECT_EQ(std::count(places.begin(), places.end(), option.to), 1) << what << " is no place of it";
  EXPECT_LE(std::abs(option.to - setting.now), change.adjustment().most_at_once + 1e-9) << what;
  EXPECT_LE(setting.minutes, debrief.minutes) << what;
  if (setting.limit.at_most) {
    EXPECT_LE(option.to, *setting.limit.at_most + 1e-9) << what;
  }
  if (setting.limit.at_least) {
    EXPECT_GE(option.to, *setting.limit.at_least - 1e-9) << what;
  }
  if (setting.travel.names.empty()) return;
  const std::string& name = setting.travel.names.at(static_cast<std::size_t>(option.to));
  const auto has = [&](const std::vector<std::string>& names) {
    return std::find(names.begin(), names.end(), name) != names.end();
  };
  if (!setting.limit.allowed.empty()) {
    EXPECT_TRUE(has(setting.limit.allowed)) << what;
  }
  if (change.adjustment().parts) {
    EXPECT_TRUE(has(setting.in_the_box)) << what;
  }
}

/// Every adjustment in both directions is offered or refused, once.
void expect_all_accounted_for(const Advice& advice) {
  std::map<std::pair<std::string, std::string>, int> told;
  for (const Change& change : advice.changes) ++told[{change.adjustment().id, change.direction()}];
  for (const NotNow& refused : advice.not_now) {
    ++told[{std::string(refused.adjustment), std::string(refused.direction)}];
    EXPECT_NE(refused.reason, Refusal::none);
    EXPECT_FALSE(refused.text.empty()) << refused.adjustment;
  }
  for (const Adjustment& adjustment : rules().adjustments) {
    for (const std::string& direction : adjustment.directions) {
      EXPECT_EQ((told[{adjustment.id, direction}]), 1) << adjustment.id << " " << direction;
    }
  }
}

void expect_sums(const Advice& advice) {
  const Eigen::VectorXd shift = advice.belief.mean - advice.prior.mean;
  EXPECT_LT((advice.belief.shares.rowwise().sum() - shift).cwiseAbs().maxCoeff(), 1e-9);
  for (const Change& change : advice.changes) {
    const Parts& parts = change.candidate.parts;
    EXPECT_NEAR(parts.effect, 100.0 * change.candidate.relief, 1e-9);
    EXPECT_DOUBLE_EQ(parts.score(), parts.effect + parts.room + parts.effort + parts.last_notch);
    EXPECT_TRUE(std::isfinite(parts.score()));
    EXPECT_GT(change.candidate.relief, 0.0);
  }
  for (const FaultOdds& odds : advice.checks) {
    double sum = 0.0;
    for (const Weight& weight : odds.because) sum += weight.decibans;
    EXPECT_NEAR(sum, odds.decibans, 1e-9) << odds.fault->id;
    EXPECT_NEAR(10.0 * std::log10(odds.probability / (1.0 - odds.probability)), sum, 1e-9);
  }
}

TEST(DecisionProperty, NothingIsRecommendedThatIsNotAllowedAndNothingIsDropped) {
  Random random(11);
  std::size_t offered = 0;
  std::set<Refusal> seen;
  for (int i = 0; i < throws_of_the_dice(2000) && !::testing::Test::HasFailure(); ++i) {
    const Kart kart = random_kart(random);
    const Debrief debrief = random_debrief(random);
    const Advice advice = advise(rules(), kart, debrief, System::metric);
    SCOPED_TRACE("case " + std::to_string(i));
    for (const Change& change : advice.changes) expect_allowed(change, kart, debrief);
    expect_all_accounted_for(advice);
    expect_sums(advice);
    offered += advice.changes.size();
    for (const NotNow& refused : advice.not_now) seen.insert(refused.reason);
  }
  // The cases are no use if they never come near a limit.
  EXPECT_GT(offered, throws_of_the_dice(2000U));
  for (const Refusal reason : {Refusal::end_stop, Refusal::class_limit, Refusal::no_part,
                               Refusal::no_time, Refusal::makes_worse, Refusal::not_on_this_kart}) {
    EXPECT_TRUE(seen.contains(reason)) << name_of(reason);
  }
}

TEST(DecisionProperty, ChangesStandInOrderOfScore) {
  Random random(12);
  for (int i = 0; i < throws_of_the_dice(300); ++i) {
    const Kart kart = random_kart(random);
    const Advice advice = advise(rules(), kart, random_debrief(random), System::metric);
    for (std::size_t c = 1; c < advice.changes.size(); ++c) {
      const Candidate& before = advice.changes[c - 1].candidate;
      const Candidate& after = advice.changes[c].candidate;
      if (before.held_back() == after.held_back()) {
        ASSERT_GE(before.parts.score(), after.parts.score()) << "case " << i;
      } else {
        ASSERT_TRUE(after.held_back()) << "case " << i;
      }
    }
  }
}

}  // namespace
}  // namespace kartwright
