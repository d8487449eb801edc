// What to do after the first change, by what the driver says then.

#include "engine/advice/next_steps.h"

#include <functional>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/decision/following.h"
#include "tests/support/any.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

Pit pit() { return {.track = "rubbered-in", .reports = {"push@entry=2", "hop@mid=2"}}; }

const AfterChange& on(const NextStep& step, Outcome outcome) {
  return step.after.at(static_cast<std::size_t>(outcome));
}

TEST(NextSteps, ListenForTheComplaintThatTheChangeMendsMost) {
  const Pit p = pit();
  const auto steps = next_steps(p.answer(), rules(), p.kart);
  ASSERT_TRUE(steps.has_value());
  EXPECT_EQ(steps->complaint, "hop mid");
  EXPECT_EQ(steps->first.adjustment->id, "rear-width");
  EXPECT_EQ(steps->first.direction, 0U);
}

TEST(NextSteps, AreTwoDeepAndTheirChancesSumToOne) {
  const Pit p = pit();
  const NextSteps steps = *next_steps(p.answer(), rules(), p.kart);
  ASSERT_EQ(steps.first.after.size(), 4U);
  std::size_t second = 0;
  double first_chances = 0.0;
  for (const AfterChange& each : steps.first.after) {
    first_chances += each.chance;
    const NextStep& then = each.then.front();
    if (then.after.empty()) continue;
    double chances = 0.0;
    for (const AfterChange& last : then.after) {
      chances += last.chance;
      EXPECT_TRUE(last.then.front().after.empty());
    }
    EXPECT_NEAR(chances, 1.0, 1e-9);
    ++second;
  }
  EXPECT_NEAR(first_chances, 1.0, 1e-9);
  EXPECT_GT(second, 0U);
}

TEST(NextSteps, AreNoneWhereNothingIsToBeChanged) {
  const Pit quiet{.track = "green"};
  EXPECT_FALSE(next_steps(quiet.answer(), rules(), quiet.kart).has_value());
  Pit broken = pit();
  broken.facts = {"axle-spun=wobbles"};
  EXPECT_FALSE(next_steps(broken.answer(), rules(), broken.kart).has_value());
}

TEST(NextSteps, PutTheChangeBackWhereItMadeWorseWhatItCannot) {
  const Pit p = pit();
  const Advice advice = p.answer();
  const NextSteps steps = *next_steps(advice, rules(), p.kart);
  const AfterChange& worse = on(steps.first, Outcome::worse);
  ASSERT_LT(worse.chance, 0.02);
  const NextStep& then = worse.then.front();
  EXPECT_EQ(then.kind, NextStep::Kind::look_for_a_fault);
  EXPECT_EQ(then.adjustment->id, "rear-width");
  EXPECT_EQ(then.from, advice.changes.front().to);
  EXPECT_EQ(then.to, advice.changes.front().from);
}

// Where nobody knows which way a change goes, it may well make things worse: then it comes back
// because that pays, with no alarm.
TEST(NextSteps, TakeBackAChangeThatNobodyWasSureOf) {
  Pack unsure = rules();
  for (Adjustment& adjustment : unsure.adjustments) {
    for (EffectRule& rule : adjustment.effects) {
      for (Cell& cell : rule.cells) cell.sd = 0.9 * std::abs(cell.mean);
    }
  }
  Kart kart = typical_kart(unsure);
  std::erase_if(kart.settings, [](const auto& each) { return each.first != "rear-width"; });
  Debrief debrief{.heard = {}, .track = "rubbered-in"};
  debrief.heard.reports = {
      {.symptom = "hop", .phase = Phase::mid, .severity = 2, .confidence = Confidence::sure}};
  const Advice advice = advise(unsure, kart, debrief, System::metric, {.questions = false});
  const auto steps = next_steps(advice, unsure, kart, 1);
  ASSERT_TRUE(steps.has_value());
  const AfterChange& worse = on(steps->first, Outcome::worse);
  EXPECT_GE(worse.chance, 0.02);
  const NextStep& then = worse.then.front();
  ASSERT_EQ(then.kind, NextStep::Kind::put_back);
  EXPECT_EQ(then.to, steps->first.from);
  EXPECT_GT(then.relief, 0.0);
}

/// Every step of a tree, with the kart as it stands before it.
void walk(const NextStep& step, const std::function<void(const NextStep&)>& each) {
  each(step);
  for (const AfterChange& after : step.after) walk(after.then.front(), each);
}

TEST(NextSteps, AreLegalOnEveryKart) {
  Random random(92);
  std::size_t steps_seen = 0;
  for (int i = 0; i < 60; ++i) {
    const Kart kart = any_kart(random, rules());
    const Debrief debrief = any_debrief(random, rules());
    const Advice advice = advise(rules(), kart, debrief, System::metric, {.questions = false});
    const auto steps = next_steps(advice, rules(), kart);
    if (!steps) continue;
    walk(steps->first, [&](const NextStep& step) {
      if (step.kind == NextStep::Kind::leave_alone) return;
      const Setting* setting = kart.setting(step.adjustment->id);
      ASSERT_NE(setting, nullptr);
      EXPECT_LE(step.minutes, debrief.minutes);
      EXPECT_NE(step.from, step.to);
      ++steps_seen;
    });
  }
  EXPECT_GT(steps_seen, 50U);
}

// The first answer, worked out again from the belief and the effect alone.
TEST(NextSteps, RankAnewByWhatTheAnswerTeaches) {
  const Pit p = pit();
  const Advice advice = p.answer();
  const NextSteps steps = *next_steps(advice, rules(), p.kart, 1);
  const Option& made = advice.changes.front().candidate.option;
  const auto which =
      static_cast<std::size_t>(made.setting->adjustment - rules().adjustments.data());
  const auto hop = std::find_if(advice.readings.begin(), advice.readings.end(),
                                [](const Reading& each) { return each.text == "hop mid"; });
  Following following(advice.belief.mean, advice.belief.covariance);
  following.move(which, advice.effects[which], made.steps);
  following.hear(hop->row, hop->value, rules().hearing.fair);
  Kart kart = p.kart;
  kart.settings.at("rear-width").now = made.to;
  const std::vector<Way> ways = all_ways(rules(), kart, advice.debrief.minutes);
  std::vector<Effect> effects;
  for (std::size_t i = 0; i < advice.effects.size(); ++i)
    effects.push_back(following.effect(i, advice.effects[i]));
  const Ranking ranking = rank({.mean = following.mean(),
                                .weights = advice.weights,
                                .minutes_left = advice.debrief.minutes,
                                .forecast = advice.forecast},
                               ways, effects);
  // More of the same is judged with what is known of both together, and loses to another.
  const auto other = std::find_if(
      ranking.candidates.begin(), ranking.candidates.end(),
      [](const Candidate& each) { return each.option.setting->adjustment->id != "rear-width"; });
  const NextStep& then = on(steps.first, Outcome::as_before).then.front();
  ASSERT_EQ(then.kind, NextStep::Kind::change);
  EXPECT_EQ(then.adjustment, other->option.setting->adjustment);
  EXPECT_NEAR(then.relief, other->relief, 1e-9);
}

}  // namespace
}  // namespace kartwright
