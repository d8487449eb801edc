// What a condition sees: facts, reports, settings and measurements.

#include "engine/inference/situation.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Condition of(FactTest test) { return {.op = Condition::Op::test, .test = std::move(test)}; }

Condition joined(Condition::Op op, std::vector<Condition> parts) {
  return {.op = op, .parts = std::move(parts)};
}

// --- facts --------------------------------------------------------------------------------------

TEST(FactCondition, HoldsWhereTheFactHasOneOfTheValues) {
  const SmallCase entered(rules(), {}, {}, "green");
  const Situation situation = entered.settled();
  EXPECT_TRUE(holds(FactTest{"track", {"cold", "green"}}, situation));
  EXPECT_FALSE(holds(FactTest{"track", {"cold", "wet"}}, situation));
  EXPECT_FALSE(holds(FactTest{"turn-in", {"brake", "throttle"}}, situation)) << "nobody said";
}

TEST(FactCondition, SeesWhatIsSupposedInPlaceOfWhatHolds) {
  const SmallCase entered(rules(), {}, {}, "green");
  Situation situation = entered.settled();
  situation.supposed = {{"track", "wet"}, {"turn-in", "brake"}};
  EXPECT_TRUE(holds(FactTest{"track", {"wet"}}, situation));
  EXPECT_FALSE(holds(FactTest{"track", {"green"}}, situation));
  EXPECT_TRUE(holds(FactTest{"turn-in", {"brake"}}, situation));
}

TEST(Facts, StandInTheOrderOfTheirWords) {
  std::vector<Fact> facts;
  for (const char* id : {"hit", "hit-kerb", "hit2", "hi", "laps"}) {
    for (const char* value : {"no", "yes", ""}) facts.push_back({id, value, "crew", {}});
  }
  for (const Fact& a : facts) {
    for (const Fact& b : facts)
      EXPECT_EQ(comes_before(a, b), a.text() < b.text()) << a.text() << ' ' << b.text();
  }
}

TEST(DescribedConditions, PutInBracketsWhatIsAListInAList) {
  const auto test = [](const char* id) { return of(FactTest{id, {"yes"}}); };
  const auto words = [](const Condition& condition) { return describe(condition, rules()); };
  using Op = Condition::Op;
  const Condition a = test("turn-in"), b = test("track"), c = test("laps");
  const std::string x = words(a), y = words(b), z = words(c);
  EXPECT_EQ(words(joined(Op::all, {a, joined(Op::any, {b, c})})),
            x + " and (" + y + " or " + z + ")");
  EXPECT_EQ(words(joined(Op::any, {a, joined(Op::all, {b, c})})),
            x + " or (" + y + " and " + z + ")");
  EXPECT_EQ(words(joined(Op::all, {joined(Op::any, {b, c})})), y + " or " + z);
  EXPECT_EQ(words(joined(Op::negated, {a})), "not (" + x + ")");
  EXPECT_EQ(words(joined(Op::all, {a, joined(Op::negated, {b})})), x + " and not (" + y + ")");
}

// --- reports ------------------------------------------------------------------------------------

TEST(ReportCondition, AsksForASymptomAPhaseAndASeverity) {
  const SmallCase entered(rules(), {"push@entry=2"});
  const Situation situation = entered.settled();
  EXPECT_TRUE(holds(ReportTest{.symptom = "push"}, situation));
  EXPECT_TRUE(holds(ReportTest{"push", Phase::entry, 2}, situation));
  EXPECT_FALSE(holds(ReportTest{"push", Phase::entry, 3}, situation));
  EXPECT_FALSE(holds(ReportTest{"push", Phase::mid, 1}, situation));
  EXPECT_FALSE(holds(ReportTest{.symptom = "loose"}, situation));
}

TEST(ReportCondition, TellsADenialFromAComplaintAndFromSilence) {
  const SmallCase entered(rules(), {"push@entry=0", "hop@mid=1"});
  const Situation situation = entered.settled();
  EXPECT_FALSE(holds(ReportTest{.symptom = "push"}, situation)) << "denied is not reported";
  EXPECT_TRUE(holds(ReportTest{"push", Phase::entry, 0}, situation));
  EXPECT_FALSE(holds(ReportTest{"hop", Phase::mid, 0}, situation)) << "reported is not denied";
  EXPECT_FALSE(holds(ReportTest{"bind", std::nullopt, 0}, situation)) << "silence denies nothing";
}

// --- settings -----------------------------------------------------------------------------------

TEST(SettingCondition, KnowsAPositionByItsName) {
  const SmallCase entered(rules());
  const Situation situation = entered.settled();
  EXPECT_TRUE(holds(SettingTest{.adjustment = "axle", .positions = {"soft", "medium"}}, situation));
  EXPECT_FALSE(holds(SettingTest{.adjustment = "axle", .positions = {"hard"}}, situation));
}

TEST(SettingCondition, ReachesToItsDistanceFromTheEndAndNoFurther) {
  SmallCase entered(rules());
  Setting& width = entered.kart.settings.at("rear-width");
  const SettingTest near{.adjustment = "rear-width", .within = 0.010, .of_end = "wider"};
  const auto at = [&](double metres) {
    width.now = metres;
    return holds(near, entered.settled());
  };
  EXPECT_TRUE(at(1.400));
  EXPECT_TRUE(at(1.390)) << "the distance itself counts";
  EXPECT_FALSE(at(1.389));
  EXPECT_FALSE(at(1.300)) << "the other end";
}

TEST(SettingCondition, TakesTheEndThatTheClassAllows) {
  SmallCase entered(rules());
  Setting& width = entered.kart.settings.at("rear-width");
  const SettingTest near{.adjustment = "rear-width", .within = 0.010, .of_end = "wider"};
  width.now = 1.360;
  EXPECT_FALSE(holds(near, entered.settled()));
  width.limit.at_most = 1.370;
  EXPECT_TRUE(holds(near, entered.settled()));
}

TEST(SettingCondition, KnowsWhichEndIsMeantWhereMoreIsAFallingNumber) {
  SmallCase entered(rules());
  Setting& camber = entered.kart.settings.at("camber");
  camber.now = camber.travel.places.front();  // -1.5 deg
  const double half_a_degree = 2 * camber.travel.step;
  EXPECT_TRUE(
      holds(SettingTest{.adjustment = "camber", .within = half_a_degree, .of_end = "more-negative"},
            entered.settled()));
  EXPECT_FALSE(
      holds(SettingTest{.adjustment = "camber", .within = half_a_degree, .of_end = "less-negative"},
            entered.settled()));
}

TEST(SettingCondition, NeverHoldsForWhatTheKartHasNot) {
  SmallCase entered(rules());
  entered.kart.settings.clear();
  EXPECT_FALSE(holds(SettingTest{.adjustment = "axle", .positions = {"soft", "medium", "hard"}},
                     entered.settled()));
}

TEST(SettingCondition, IsNoDistanceFromAnEndOfWhatTheKartHasNotOrWhatIsNamed) {
  SmallCase entered(rules());
  const SettingTest wide{.adjustment = "rear-width", .within = 0.010, .of_end = "wider"};
  EXPECT_TRUE(distance_from_end(wide, entered.settled()));
  EXPECT_FALSE(distance_from_end({.adjustment = "axle", .of_end = "stiffer"}, entered.settled()));
  entered.kart.settings.clear();
  EXPECT_FALSE(distance_from_end(wide, entered.settled()));
}

// --- measurements -------------------------------------------------------------------------------

TEST(MeasureCondition, AsksWhatLiesBeyondTheBand) {
  SmallCase entered(rules());
  MeasureTest test{.measure = "front-share"};
  EXPECT_EQ(excess_over_band(test, entered.settled()), 0.0) << "not weighed";
  entered.kart.measures["front-share"] = 0.45;
  EXPECT_NEAR(excess_over_band(test, entered.settled()), 0.02, 1e-12);
  EXPECT_TRUE(holds(test, entered.settled()));
  test.side = MeasureTest::Side::below;
  EXPECT_EQ(excess_over_band(test, entered.settled()), 0.0);
  EXPECT_FALSE(holds(test, entered.settled()));
  entered.kart.measures["front-share"] = 0.40;
  EXPECT_NEAR(excess_over_band(test, entered.settled()), 0.01, 1e-12);
}

TEST(MeasureCondition, PrefersTheCrewsOwnBand) {
  SmallCase entered(rules());
  entered.kart.measures["front-share"] = 0.45;
  entered.kart.bands["front-share"] = {0.44, 0.46};
  EXPECT_FALSE(holds(MeasureTest{.measure = "front-share"}, entered.settled()));
}

TEST(MeasureCondition, PrefersItsOwnLimitToAnyBand) {
  SmallCase entered(rules());
  entered.kart.measures["front-share"] = 0.42;
  const MeasureTest test{
      .measure = "front-share", .side = MeasureTest::Side::above, .limit = 0.415};
  EXPECT_NEAR(excess_over_band(test, entered.settled()), 0.005, 1e-12);
}

TEST(MeasureCondition, NeedsAnEdgeToLieBeyond) {
  SmallCase entered(rules());
  entered.kart.measures["tyre-laps"] = 500;
  EXPECT_FALSE(holds(MeasureTest{.measure = "tyre-laps"}, entered.settled()))
      << "the pack has no band for it, and the crew gave none";
  entered.kart.bands["tyre-laps"] = {0.0, 400.0};
  EXPECT_TRUE(holds(MeasureTest{.measure = "tyre-laps"}, entered.settled()));
}

// --- trees --------------------------------------------------------------------------------------

TEST(Condition, JoinsItsParts) {
  const SmallCase entered(rules(), {}, {"turn-in=brake"}, "wet");
  const Situation situation = entered.settled();
  const Condition wet = of({"track", {"wet"}});
  const Condition throttle = of({"turn-in", {"throttle"}});
  using Op = Condition::Op;
  EXPECT_TRUE(holds(Condition{}, situation)) << "a rule that names no condition";
  EXPECT_FALSE(holds(joined(Op::all, {wet, throttle}), situation));
  EXPECT_TRUE(holds(joined(Op::any, {wet, throttle}), situation));
  EXPECT_FALSE(holds(joined(Op::negated, {wet}), situation));
  EXPECT_TRUE(holds(joined(Op::negated, {throttle}), situation));
  EXPECT_TRUE(holds(joined(Op::all, {wet, joined(Op::negated, {throttle})}), situation));
}

TEST(Premises, AreTheTestsThatMadeItHold) {
  const SmallCase entered(rules(), {"hop@mid=2"}, {}, "wet");
  const Situation situation = entered.settled();
  using Op = Condition::Op;
  Condition hop = of({"track", {"cold"}});
  hop.test = ReportTest{"hop", Phase::mid, 2};
  const Condition either = joined(Op::any, {of({"track", {"wet", "green"}}), hop});
  EXPECT_THAT(premises_of(either, situation),
              ElementsAre("report: hop@mid of at least 2", "track:wet or green"));
  const Condition denied = joined(Op::negated, {of({"turn-in", {"throttle"}})});
  EXPECT_THAT(premises_of(denied, situation), ElementsAre("not turn-in:throttle"));
  EXPECT_THAT(premises_of(Condition{}, situation), IsEmpty());
}

TEST(Describe, NamesAdjustmentsMeasuresAndEnds) {
  EXPECT_EQ(
      describe(SettingTest{.adjustment = "rear-width", .within = 0.01, .of_end = "wider"}, rules()),
      "rear-width within 10 mm of its wider end");
  EXPECT_EQ(describe(SettingTest{.adjustment = "axle", .positions = {"soft", "hard"}}, rules()),
            "axle in soft or hard");
  EXPECT_EQ(describe(MeasureTest{.measure = "front-share"}, rules()), "front-share above its band");
  EXPECT_EQ(
      describe(
          MeasureTest{.measure = "front-share", .side = MeasureTest::Side::below, .limit = 0.4},
          rules()),
      "front-share below 40 %");
  EXPECT_EQ(describe(ReportTest{"push", Phase::entry, 0}, rules()), "denied: push@entry");
}

}  // namespace
}  // namespace kartwright
