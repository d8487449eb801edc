// What a step of an adjustment does, today and as far as is known. The means and spreads here are
// worked out by hand, or cell by cell from the rules.

#include "engine/decision/effects.h"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/matrices.h"
#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Condition fact(std::string id, std::string value) {
  Condition condition;
  condition.op = Condition::Op::test;
  condition.test = FactTest{std::move(id), {std::move(value)}};
  return condition;
}

EffectRule rule(std::string id, Condition when, std::vector<Cell> cells, bool contested = false) {
  EffectRule out;
  out.id = std::move(id);
  out.when = std::move(when);
  out.cells = std::move(cells);
  out.contested = contested;
  return out;
}

FactDef open_fact(std::string id, std::vector<std::string> values,
                  std::vector<FactDef::Prior> priors) {
  FactDef out;
  out.id = std::move(id);
  out.values = std::move(values);
  out.priors = std::move(priors);
  return out;
}

/// Three axes; how the driver turns in, how hot the fronts are, and tyres that depend on the track.
Pack small_pack() {
  Pack pack;
  pack.axes.resize(3);
  FactDef knock;
  knock.id = "hit";
  knock.values = {"yes", "no"};
  pack.facts = {
      open_fact("heat", {"hot", "cold", "same"}, {{.when = {}, .weights = {0.5, 0.3, 0.2}}}), knock,
      open_fact("track", {"cold", "green", "wet"}, {{.when = {}, .weights = {0.5, 0.5, 0.0}}}),
      open_fact("turn-in", {"brake", "throttle"}, {{.when = {}, .weights = {0.5, 0.5}}}),
      open_fact("tyres", {"down", "up"},
                {{.when = fact("track", "cold"), .weights = {0.7, 0.3}},
                 {.when = {}, .weights = {0.4, 0.6}}})};
  return pack;
}

/// The effect of these rules where these facts were stated.
Effect effect(const std::vector<EffectRule>& rules, const std::vector<Fact>& stated = {}) {
  static const Pack pack = small_pack();
  static const Kart kart;
  static const std::vector<Report> nobody_said_anything;
  // The effect points at its rules, so these are kept.
  static std::vector<std::unique_ptr<Adjustment>> kept;
  kept.push_back(std::make_unique<Adjustment>());
  kept.back()->effects = rules;
  return effect_of(
      *kept.back(),
      {.pack = pack, .kart = kart, .reports = nobody_said_anything, .facts = {.all = stated}});
}

Fact stated(std::string id, std::string value) {
  return {std::move(id), std::move(value), "crew", {}};
}

std::vector<std::string> names(const Effect& effect) {
  std::vector<std::string> ids;
  for (const EffectRule* each : effect.rules) ids.push_back(each->id);
  return ids;
}

/// Mean and variance of one axis.
void expect_axis(const Effect& effect, Eigen::Index axis, double mean, double variance) {
  EXPECT_NEAR(effect.per_step[axis], mean, 1e-12) << "axis " << axis;
  EXPECT_NEAR(effect.covariance(axis, axis), variance, 1e-12) << "axis " << axis;
}

const EffectRule kBase = rule("base", {}, {{0, 0.3, 0.35}, {1, 0.15, 0.25}});
const EffectRule kThrottle = rule("throttle", fact("turn-in", "throttle"), {{0, -0.3, 0.35}});
const EffectRule kHot = rule("hot", fact("heat", "hot"), {{0, 0.4, 0.3}, {2, 0.2, 0.1}});

// --- one rule, or another in its place ----------------------------------------------------------

TEST(Effect, OfARuleWithoutConditionIsItsCells) {
  const Effect found = effect({kBase});
  expect_axis(found, 0, 0.3, 0.1225);
  expect_axis(found, 1, 0.15, 0.0625);
  expect_axis(found, 2, 0.0, 0.0);
  EXPECT_EQ(found.covariance(0, 1), 0.0) << "cells of one rule are told apart";
  EXPECT_THAT(names(found), ElementsAre("base"));
  EXPECT_THAT(found.open_facts, IsEmpty());
}

TEST(ConditionalEffect, ReplacesTheCellsItNamesAndInheritsTheRest) {
  const Effect found = effect({kBase, kThrottle}, {stated("turn-in", "throttle")});
  expect_axis(found, 0, -0.3, 0.1225);
  expect_axis(found, 1, 0.15, 0.0625);
  EXPECT_THAT(names(found), ElementsAre("base", "throttle"));
}

TEST(ConditionalEffect, IsNotHeardWhereItsConditionFails) {
  const Effect found = effect({kBase, kThrottle}, {stated("turn-in", "brake")});
  expect_axis(found, 0, 0.3, 0.1225);
  EXPECT_THAT(names(found), ElementsAre("base"));
}

TEST(ConditionalEffect, MayNameACellTheBaseDoesNot) {
  const Effect found = effect({kBase, kHot}, {stated("heat", "hot")});
  expect_axis(found, 0, 0.4, 0.09);
  expect_axis(found, 1, 0.15, 0.0625);
  expect_axis(found, 2, 0.2, 0.01);
}

TEST(ConditionalEffect, SpeaksForItselfOfAFactWithoutAPriorOnlyWhereItIsStated) {
  const EffectRule knocked = rule("knocked", fact("hit", "yes"), {{0, -1.0, 0.1}});
  expect_axis(effect({kBase, knocked}), 0, 0.3, 0.1225);
  EXPECT_THAT(effect({kBase, knocked}).open_facts, IsEmpty());
  expect_axis(effect({kBase, knocked}, {stated("hit", "yes")}), 0, -1.0, 0.01);
}

TEST(TwoConditionalEffects, OfOneCellAreAveragedWithAWiderSpread) {
  const Effect found =
      effect({kBase, kThrottle, kHot}, {stated("turn-in", "throttle"), stated("heat", "hot")});
  // An even mixture of -0.3 +- 0.35 and +0.4 +- 0.3: mean 0.05, mean square 0.22875.
  const double square = (0.35 * 0.35 + 0.09 + 0.3 * 0.3 + 0.16) / 2.0;
  expect_axis(found, 0, 0.05, square - 0.05 * 0.05);
  EXPECT_GT(std::sqrt(found.covariance(0, 0)), 0.35) << "wider than either";
  expect_axis(found, 1, 0.15, 0.0625);
  expect_axis(found, 2, 0.2, 0.01);
}

// --- what nobody said ---------------------------------------------------------------------------

TEST(UnstatedFact, MixesItsValues) {
  const Effect found = effect({kBase, kThrottle});
  // Even between +0.3 and -0.3: nothing on average, and the spread between them on top.
  expect_axis(found, 0, 0.0, 0.1225 + 0.09);
  expect_axis(found, 1, 0.15, 0.0625);
  EXPECT_THAT(found.open_facts, ElementsAre("turn-in"));
  EXPECT_THAT(names(found), ElementsAre("base", "throttle"));
}

TEST(UnstatedFact, TiesTogetherTheAxesThatMoveWithIt) {
  const Effect found = effect({kBase, kHot});
  // hot 0.5: (0.4, 0.15, 0.2); cold 0.3 and same 0.2: (0.3, 0.15, 0).
  expect_axis(found, 0, 0.35, 0.5 * 0.09 + 0.5 * 0.1225 + 0.25 * 0.01);
  expect_axis(found, 2, 0.1, 0.5 * 0.01 + 0.25 * 0.04);
  EXPECT_NEAR(found.covariance(0, 2), 0.25 * 0.1 * 0.2, 1e-12);
  EXPECT_NEAR(found.covariance(2, 0), found.covariance(0, 2), 0.0);
  EXPECT_NEAR(found.covariance(0, 1), 0.0, 1e-12) << "nothing about it moves axis 1";
}

TEST(UnstatedFacts, MultiplyTheirWeights) {
  const Effect found = effect({kBase, kThrottle, kHot});
  EXPECT_THAT(found.open_facts, ElementsAre("heat", "turn-in"));
  double mean = 0.0;
  double square = 0.0;
  for (const bool throttle : {true, false}) {
    for (const bool hot : {true, false}) {
      const double case_mean = throttle && hot ? 0.05 : throttle ? -0.3 : hot ? 0.4 : 0.3;
      const double even = (0.1225 + 0.09 + 0.09 + 0.16) / 2.0;
      const double case_square = throttle && hot ? even
                                 : hot           ? 0.09 + 0.16
                                                 : 0.1225 + case_mean * case_mean;
      mean += 0.25 * case_mean;
      square += 0.25 * case_square;
    }
  }
  expect_axis(found, 0, mean, square - mean * mean);
}

TEST(UnstatedFact, KeepsToThePriorThatTheTrackGives) {
  const EffectRule down = rule("down", fact("tyres", "down"), {{0, 1.0, 0.1}});
  EXPECT_NEAR(effect({down}, {stated("track", "cold")}).per_step[0], 0.7, 1e-12);
  EXPECT_NEAR(effect({down}, {stated("track", "wet")}).per_step[0], 0.4, 1e-12);
  EXPECT_THAT(effect({down}, {stated("track", "cold")}).open_facts, ElementsAre("tyres"));
}

TEST(UnstatedTrack, IsSupposedBeforeWhatDependsOnIt) {
  const EffectRule down = rule("down", fact("tyres", "down"), {{0, 1.0, 0.1}});
  const Effect found = effect({down});
  EXPECT_NEAR(found.per_step[0], 0.5 * 0.7 + 0.5 * 0.4, 1e-12) << "cold or green, never wet";
  EXPECT_THAT(found.open_facts, ElementsAre("track", "tyres"));
}

TEST(UnstatedTrack, NeverCountsWetWhereThePackGivesItNoWeight) {
  const EffectRule wet = rule("wet", fact("track", "wet"), {{0, 5.0, 0.1}});
  const Effect found = effect({kBase, wet});
  expect_axis(found, 0, 0.3, 0.1225);
  EXPECT_THAT(names(found), ElementsAre("base"));
}

// --- what is known of it ------------------------------------------------------------------------

TEST(Effect, IsUnknownWhereNoRuleSpeaks) {
  EXPECT_FALSE(effect({}).known());
  EXPECT_FALSE(effect({kThrottle}, {stated("turn-in", "brake")}).known());
  EXPECT_TRUE(effect({kThrottle}).known()) << "it may be so";
}

TEST(Contested, IsWhatMostlyComesFromAContestedRule) {
  const EffectRule disputed = rule("disputed", fact("heat", "hot"), {{0, 0.4, 0.3}}, true);
  const EffectRule aside = rule("aside", fact("heat", "hot"), {{0, 0.1, 0.3}}, true);
  EXPECT_TRUE(effect({kBase, disputed}, {stated("heat", "hot")}).contested);
  EXPECT_FALSE(effect({kBase, disputed}, {stated("heat", "same")}).contested);
  EXPECT_FALSE(effect({kBase, aside}, {stated("heat", "hot")}).contested)
      << "most is said by the base";
}

// --- the built-in rules -------------------------------------------------------------------------

Effect built_in(const char* adjustment, const SmallCase& entered) {
  return effect_of(*rules().adjustment(adjustment), entered.settled());
}

/// A cell of a built-in rule.
Cell cell(const char* adjustment, const char* rule_id, const char* axis) {
  for (const EffectRule& each : rules().adjustment(adjustment)->effects) {
    if (each.id != rule_id) continue;
    for (const Cell& found : each.cells) {
      if (static_cast<long>(found.axis) == axis_index(rules(), axis)) return found;
    }
  }
  ADD_FAILURE() << rule_id << " has no cell for " << axis;
  return {};
}

TEST(Caster, OnRubberReplacesTheRearAndKeepsTheFront) {
  const SmallCase rubber(rules(), {}, {}, "rubbered-in");
  const Effect found = built_in("caster", rubber);
  const auto at = [&](const char* axis) { return found.per_step[axis_index(rules(), axis)]; };
  EXPECT_NEAR(at("rear-grip.mid"),
              cell("caster", "caster-jacks-onto-the-outside-rear", "rear-grip.mid").mean, 1e-12);
  EXPECT_GT(at("rear-grip.mid"), 0.0);
  EXPECT_NEAR(at("front-grip.entry"),
              cell("caster", "caster-lifts-and-bites", "front-grip.entry").mean, 1e-12);
}

TEST(FrontWidth, WithHotFrontsOnTheThrottleIsBothRulesAveraged) {
  const SmallCase entered(rules(), {}, {"front-tyres=hotter", "turn-in=throttle"}, "green");
  const Effect found = built_in("front-width", entered);
  const Cell a = cell("front-width", "wider-front-slow-on-the-throttle", "front-grip.entry");
  const Cell b = cell("front-width", "hot-fronts-want-a-wider-front", "front-grip.entry");
  const double mean = (a.mean + b.mean) / 2.0;
  const double square = (a.sd * a.sd + a.mean * a.mean + b.sd * b.sd + b.mean * b.mean) / 2.0;
  expect_axis(found, axis_index(rules(), "front-grip.entry"), mean, square - mean * mean);
  EXPECT_GT(square - mean * mean, std::max(a.sd * a.sd, b.sd * b.sd));
}

TEST(Pressures, OnAColdTrackTakeTheTyresForColdSevenTimesInTen) {
  const SmallCase entered(rules(), {}, {}, "cold");
  const Effect found = built_in("pressures", entered);
  const char* axis = "rear-grip.mid";
  const Cell cold = cell("pressures", "more-pressure-wakes-cold-tyres", axis);
  const Cell up = cell("pressures", "pressures-once-tyres-are-up", axis);
  const Cell hot = cell("pressures", "more-pressure-overheats-hot-tyres", axis);
  double mean = 0.0;
  double square = 0.0;
  for (const auto& [weight, each] :
       {std::pair(0.7, cold), std::pair(0.15, up), std::pair(0.15, hot)}) {
    mean += weight * each.mean;
    square += weight * (each.sd * each.sd + each.mean * each.mean);
  }
  expect_axis(found, axis_index(rules(), axis), mean, square - mean * mean);
  EXPECT_GT(mean, 0.0) << "up is the better guess in the cold";
}

TEST(EveryEffect, HasASpreadThatCanBe) {
  for (const char* track : {"unknown", "cold", "green", "rubbered-in", "greasy", "wet"}) {
    const SmallCase entered(rules(), {}, {}, track);
    const Situation situation = entered.settled();
    for (const Adjustment& adjustment : rules().adjustments) {
      const Effect found = effect_of(adjustment, situation);
      EXPECT_TRUE(found.known()) << adjustment.id << " on " << track;
      EXPECT_GE(least_eigenvalue(found.covariance), -1e-12) << adjustment.id << " on " << track;
    }
  }
}

// --- with a value supposed ----------------------------------------------------------------------

const EffectRule kDown = rule("down", fact("tyres", "down"), {{0, 0.8, 0.2}});
const EffectRule kColdTrack = rule("cold-track", fact("track", "cold"), {{1, -0.5, 0.1}});

/// The effect of three rules that look at tyres and track, where nobody stated anything.
struct Supposed {
  Pack pack = small_pack();
  Adjustment adjustment = [] {
    Adjustment out;
    out.effects = {kBase, kDown, kColdTrack};
    return out;
  }();
  Kart kart = {};
  std::vector<Report> reports = {};
  Situation situation{.pack = pack, .kart = kart, .reports = reports};

  Effect with(const std::string& id, const std::string& value) const {
    Situation supposing = situation;
    supposing.supposed[id] = value;
    return effect_of(adjustment, supposing);
  }
};

TEST(ValueWeights, AreThePriorOverAllWaysThatWhatItLooksAtMayBe) {
  Supposed open;
  const FactDef& tyres = *open.pack.fact("tyres");
  EXPECT_THAT(value_weights(tyres, open.situation),
              ElementsAre(testing::DoubleNear(0.55, 1e-12), testing::DoubleNear(0.45, 1e-12)))
      << "down at 0.7 on a cold track, at 0.4 on a green one";
  EXPECT_TRUE(open.situation.supposed.empty());
  EXPECT_THAT(value_weights(*open.pack.fact("heat"), open.situation), ElementsAre(0.5, 0.3, 0.2));
  open.situation.facts.all = {stated("track", "cold")};
  EXPECT_THAT(value_weights(tyres, open.situation), ElementsAre(0.7, 0.3));
}

TEST(SupposedValue, IsNoLongerOpenAndMakesLikelierWhatGoesWithIt) {
  const Supposed open;
  const Effect down = open.with("tyres", "down");
  EXPECT_THAT(down.open_facts, ElementsAre("track"));
  EXPECT_NEAR(down.per_step[0], 0.8, 1e-12);
  const double cold = 0.35 / 0.55;  // of the ways that the tyres are down
  EXPECT_NEAR(down.per_step[1], cold * -0.5 + (1.0 - cold) * 0.15, 1e-12);
  EXPECT_THAT(open.with("track", "cold").open_facts, ElementsAre("tyres"));
}

TEST(SupposedValue, MayBeOneThatThePriorRulesOut) {
  const Effect wet = Supposed().with("track", "wet");
  EXPECT_NEAR(wet.per_step[0], 0.4 * 0.8 + 0.6 * 0.3, 1e-9);
  EXPECT_NEAR(wet.per_step[1], 0.15, 1e-9);
}

/// E[b b'] of an effect.
Eigen::MatrixXd second_moment(const Effect& effect) {
  return effect.covariance + effect.per_step * effect.per_step.transpose();
}

TEST(SupposedValues, OverAllOfAFactTheMixtureComesOutAgain) {
  Supposed open;
  const Effect mixture = effect_of(open.adjustment, open.situation);
  for (const char* const id : {"tyres", "track"}) {
    const FactDef& each = *open.pack.fact(id);
    const std::vector<double> weights = value_weights(each, open.situation);
    Eigen::VectorXd mean = Eigen::VectorXd::Zero(3);
    Eigen::MatrixXd second = Eigen::MatrixXd::Zero(3, 3);
    for (std::size_t v = 0; v < weights.size(); ++v) {
      const Effect under = open.with(id, each.values[v]);
      mean += weights[v] * under.per_step;
      second += weights[v] * second_moment(under);
    }
    EXPECT_TRUE(mean.isApprox(mixture.per_step, 1e-12)) << id;
    EXPECT_TRUE(second.isApprox(second_moment(mixture), 1e-12)) << id;
  }
}

}  // namespace
}  // namespace kartwright
