// What a change does at which phase, when that turns round, and what it is a cure for, held against
// the numbers of the rules.

#include "engine/advice/cause.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::Contains;
using testing::IsEmpty;
using testing::Not;

const Adjustment& change(std::string_view id) { return *rules().adjustment(id); }

std::size_t axis_named(std::string_view id) {
  const auto found = std::find_if(rules().axes.begin(), rules().axes.end(),
                                  [&](const Axis& axis) { return axis.id == id; });
  EXPECT_NE(found, rules().axes.end()) << id;
  return static_cast<std::size_t>(found - rules().axes.begin());
}

double usual(std::string_view adjustment, std::string_view axis) {
  return usual_effect(change(adjustment), axis_named(axis)).value_or(0.0);
}

std::set<std::string> rules_that_turn(std::string_view adjustment) {
  std::set<std::string> ids;
  for (const EffectChange& each : effect_changes(change(adjustment))) {
    if (each.turns()) ids.insert(each.rule->id);
  }
  return ids;
}

/// Notches of a symptom for a step in the + direction; 0 where it is not worth naming.
double moved(std::string_view symptom, std::string_view adjustment) {
  const auto move = symptom_move(*rules().symptom(symptom), change(adjustment), rules());
  return move ? move->notches : 0.0;
}

TEST(Cause, AWiderRearBitesLessMostOfAllInTheMiddle) {
  EXPECT_LT(usual("rear-width", "rear-grip.entry"), 0.0);
  EXPECT_LT(usual("rear-width", "rear-grip.mid"), usual("rear-width", "rear-grip.entry"));
  EXPECT_LT(usual("rear-width", "rear-grip.mid"), usual("rear-width", "rear-grip.exit"));
  EXPECT_FALSE(usual_effect(change("rear-width"), axis_named("front-grip.mid")));
}

TEST(Cause, NothingKnownTurnsRearWidthRoundAndRainMakesItSmaller) {
  EXPECT_THAT(rules_that_turn("rear-width"), IsEmpty());
  const auto changes = effect_changes(change("rear-width"));
  ASSERT_EQ(changes.size(), 1U);
  EXPECT_EQ(changes[0].rule->id, "wet-narrow-digs-in");
  for (const CellChange& cell : changes[0].cells) {
    EXPECT_NE(cell.axis, axis_named("rear-grip.entry")) << "which is as usual";
    if (cell.axis == axis_named("rear-grip.mid")) {
      EXPECT_LT(std::abs(cell.to), std::abs(*cell.from));
    }
  }
}

TEST(Cause, AWiderRearCuresHopAndPushAndFeedsLoose) {
  EXPECT_NEAR(moved("hop", "rear-width"), (-0.9 + 0.4 * -0.2) / 1.4, 1e-12);
  EXPECT_NEAR(moved("push", "rear-width"), -0.9, 1e-12);
  EXPECT_NEAR(moved("loose", "rear-width"), 0.9, 1e-12);
  const auto push = symptom_move(*rules().symptom("push"), change("rear-width"), rules());
  EXPECT_EQ(push->phase, Phase::mid);
}

TEST(Cause, CasterJacksOntoTheOutsideRearOnceRubberIsDown) {
  EXPECT_THAT(rules_that_turn("caster"),
              testing::ElementsAre("caster-jacks-onto-the-outside-rear"));
  for (const EffectChange& each : effect_changes(change("caster"))) {
    if (!each.turns()) continue;
    for (const CellChange& cell : each.cells) {
      EXPECT_EQ(cell.turns, cell.axis == axis_named("rear-grip.mid"));
    }
  }
}

TEST(Cause, MoreCasterBitesGoingInAndLiftsTheInsideRear) {
  EXPECT_GT(usual("caster", "front-grip.entry"), usual("caster", "front-grip.mid"));
  EXPECT_GT(usual("caster", "unloading"), 0.0);
  EXPECT_LT(moved("bind", "caster"), -0.5);
  EXPECT_GT(moved("twitchy", "caster"), 0.0);
}

TEST(Cause, PressureIsEitherWayUntilTheTyresAreKnownToBeColdOrHot) {
  for (const char* axis : {"front-grip.mid", "rear-grip.exit"})
    EXPECT_EQ(usual("pressures", axis), 0.0);
  const auto turning = rules_that_turn("pressures");
  EXPECT_THAT(turning, Contains("more-pressure-wakes-cold-tyres"));
  EXPECT_THAT(turning, Contains("more-pressure-overheats-hot-tyres"));
  EXPECT_THAT(symptoms_moved(change("pressures"), rules()), IsEmpty());
}

TEST(Cause, AWiderFrontTurnsRoundOnTheThrottleAndOnColdFrontTyres) {
  const auto turning = rules_that_turn("front-width");
  EXPECT_THAT(turning, testing::UnorderedElementsAre("wider-front-slow-on-the-throttle",
                                                     "cold-fronts-want-a-narrower-front"));
  EXPECT_THAT(turning, Not(Contains("hot-fronts-want-a-wider-front")));
}

TEST(Cause, ALongerHubIsTheSameCureFromBothSides) {
  const auto of_hubs = symptoms_moved(change("rear-hubs"), rules());
  ASSERT_THAT(of_hubs, Not(IsEmpty()));
  for (const SymptomMove& move : of_hubs) {
    const auto movers = movers_of(*move.symptom, rules());
    const auto found = std::find_if(movers.begin(), movers.end(), [](const SymptomMove& each) {
      return each.adjustment->id == "rear-hubs";
    });
    ASSERT_NE(found, movers.end()) << move.symptom->id;
    EXPECT_EQ(found->notches, move.notches);
    EXPECT_EQ(found->phase, move.phase);
  }
}

TEST(Cause, EveryMoveIsWorthNamingAndTheLargestComesFirst) {
  for (const Adjustment& adjustment : rules().adjustments) {
    double before = 1e9;
    for (const SymptomMove& move : symptoms_moved(adjustment, rules())) {
      EXPECT_GE(std::abs(move.notches), kWorthNaming) << adjustment.id << move.symptom->id;
      EXPECT_LE(std::abs(move.notches), before + 1e-8) << adjustment.id << move.symptom->id;
      before = std::abs(move.notches);
    }
  }
}

TEST(Cause, AShakeOrAPullIsMovedByNoSetting) {
  for (const char* id : {"vibration", "pulls", "clunk"})
    EXPECT_THAT(movers_of(*rules().symptom(id), rules()), IsEmpty()) << id;
}

/// The sum of the usual rules on an axis; 0 where none names it.
double usual_again(const Adjustment& adjustment, std::size_t axis) {
  double sum = 0.0;
  for (const EffectRule& rule : adjustment.effects) {
    for (const Cell& cell : rule.cells) {
      if (rule.when.op == Condition::Op::always && cell.axis == axis) sum += cell.mean;
    }
  }
  return sum;
}

/// Whether a cell has the other sign than usual, or than another condition's where usually it has
/// none, worked out from the rules once more.
bool flips(const Cell& cell, const Adjustment& adjustment) {
  const double before = usual_again(adjustment, cell.axis);
  if (before != 0.0) return std::signbit(before) != std::signbit(cell.mean) && cell.mean != 0.0;
  for (const EffectRule& rule : adjustment.effects) {
    for (const Cell& other : rule.cells) {
      if (other.axis == cell.axis && other.mean * cell.mean < 0.0) return true;
    }
  }
  return false;
}

TEST(Cause, ARuleTurnsAChangeRoundWhereOneOfItsSignsFlipsAndNowhereElse) {
  int turning = 0, others = 0;
  for (const Adjustment& adjustment : rules().adjustments) {
    for (const EffectChange& each : effect_changes(adjustment)) {
      const bool any = std::any_of(each.rule->cells.begin(), each.rule->cells.end(),
                                   [&](const Cell& cell) { return flips(cell, adjustment); });
      EXPECT_EQ(each.turns(), any) << each.rule->id;
      ++(any ? turning : others);
    }
  }
  EXPECT_GT(turning, 5);
  EXPECT_GT(others, 5);
}

}  // namespace
}  // namespace kartwright
