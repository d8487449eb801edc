// Why a rule does not fire: what failed, what was seen, how far off, and what would change it.

#include "engine/inference/near_miss.h"

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

using Texts = std::vector<std::string>;

Condition is(Test test) { return {.op = Condition::Op::test, .test = std::move(test)}; }
Condition fact(const char* id, std::vector<std::string> values) {
  return is(FactTest{id, std::move(values)});
}
Condition all(std::vector<Condition> parts) {
  return {.op = Condition::Op::all, .parts = std::move(parts)};
}
Condition either(std::vector<Condition> parts) {
  return {.op = Condition::Op::any, .parts = std::move(parts)};
}
Condition never(Condition part) { return {.op = Condition::Op::negated, .parts = {part}}; }

RuleRef rule_named(std::string_view id, const Pack& pack = rules()) {
  for (const RuleRef& each : every_rule(pack)) {
    if (each.rule->id == id) return each;
  }
  throw std::invalid_argument("no rule " + std::string(id));
}

/// The lacks of each alternative, in words.
std::vector<Texts> told(const NearMiss& miss, const Pack& pack = rules()) {
  std::vector<Texts> out;
  for (const Alternative& alternative : miss.alternatives) {
    out.emplace_back();
    for (const Lack& lack : alternative.lacks) {
      out.back().push_back(in_words(lack, pack, System::metric));
    }
  }
  return out;
}

/// Why a rule with this condition does not fire on a case.
std::vector<Texts> why(const Condition& condition, const SmallCase& entered) {
  static const Rule rule{.id = "of-the-test", .because = {}, .provenance = {}, .source = {}};
  const RuleRef ref{.rule = &rule, .kind = RuleKind::evidence, .when = &condition};
  return told(why_not(ref, entered.settled()), entered.pack);
}

Texts only(const Condition& condition, const SmallCase& entered) {
  const std::vector<Texts> all = why(condition, entered);
  return all.size() == 1 ? all.front() : Texts{fmt::format("{} alternatives", all.size())};
}

// --- facts --------------------------------------------------------------------------------------

TEST(WhyNotAFact, SaysWhatItIsAndWhatItNeeds) {
  EXPECT_THAT(only(fact("hit", {"yes"}), SmallCase(rules(), {}, {"hit=no"})),
              ElementsAre("hit is no, needs yes"));
  EXPECT_THAT(only(fact("hit", {"yes"}), SmallCase(rules())),
              ElementsAre("hit: nobody said, needs yes"));
  EXPECT_THAT(only(fact("track", {"cold", "green"}), SmallCase(rules(), {}, {}, "wet")),
              ElementsAre("track is wet, needs cold or green"));
  EXPECT_THAT(only(never(fact("track", {"wet"})), SmallCase(rules(), {}, {}, "wet")),
              ElementsAre("track is wet, must not be wet"));
}

TEST(WhyNotAFact, WalksIntoTheRulesThatCouldConcludeIt) {
  EXPECT_THAT(why(fact("raised-mass", {"yes"}), SmallCase(rules())),
              ElementsAre(ElementsAre("raised-mass: nobody said, needs yes"),
                          ElementsAre("roll-structure: nobody said, needs yes; then "
                                      "roll-structure-raises-the-mass concludes it")));
}

TEST(WhyNotAFact, TakesWhatConcludesItAwayAsWell) {
  EXPECT_THAT(only(never(fact("raised-mass", {"yes"})),
                   SmallCase(rules(), {}, {"roll-structure=yes", "raised-mass=yes"})),
              testing::UnorderedElementsAre("raised-mass is yes, must not be yes",
                                            "roll-structure is yes, must not be yes; "
                                            "roll-structure-raises-the-mass concludes it"));
}

TEST(WhyNotAFact, HoldsOnToWhatTheReportsSaidByThemselves) {
  // The one complaint is of the last laps, and one more, of the whole run, would undo that.
  const SmallCase late(rules(), {"push@entry=2,late"});
  const Condition both = all({fact("only-late", {"yes"}), is(ReportTest{"hop", Phase::mid, 2})});
  EXPECT_THAT(only(both, late), testing::UnorderedElementsAre(
                                    "only-late is so by the reports alone, must be stated as yes",
                                    "report hop@mid is not there, needs severity 2 or more"));
}

TEST(WhyNotAFact, OfRoomIsAskedOfTheSetting) {
  const Condition full = fact("room:rear-width:wider", {"none"});
  const SmallCase entered(rules());
  EXPECT_THAT(only(full, entered), ElementsAre("room:rear-width:wider is some, needs none"));
}

// --- reports ------------------------------------------------------------------------------------

TEST(WhyNotAReport, SaysByHowMuchItIsTooSlight) {
  const Condition bad = is(ReportTest{"hop", Phase::mid, 3});
  EXPECT_THAT(only(bad, SmallCase(rules(), {"hop@mid=1"})),
              ElementsAre("report hop@mid is severity 1, needs severity 3 or more (off by 2)"));
  EXPECT_THAT(only(bad, SmallCase(rules())),
              ElementsAre("report hop@mid is not there, needs severity 3 or more"));
  EXPECT_THAT(only(bad, SmallCase(rules(), {"hop@exit=3"})),
              ElementsAre("report hop@mid is not there (reported at exit), needs severity 3 or "
                          "more"));
}

TEST(WhyNotAReport, SaysWhatMustNotBeReported) {
  const RuleRef bog = rule_named("bog-without-hop-or-bind");
  const SmallCase entered(rules(), {"bog@exit=2", "hop@mid=1"});
  EXPECT_THAT(told(why_not(bog, entered.settled())),
              ElementsAre(ElementsAre("report hop@mid is reported, must not be")));
}

TEST(WhyNotAReport, OfSeveralPhasesTakesEveryOneAway) {
  const Condition none = never(is(ReportTest{"hop"}));
  EXPECT_THAT(only(none, SmallCase(rules(), {"hop@mid=1", "hop@exit=2"})),
              ElementsAre("report hop@mid is reported, must not be",
                          "report hop@exit is reported, must not be"));
}

TEST(WhyNotAReport, MayBeMilderWhereOnlyTheSeverityIsTooMuch) {
  const SmallCase entered(rules(), {"hop@mid=3"});
  const Condition mild = never(is(ReportTest{"hop", Phase::mid, 2}));
  EXPECT_THAT(only(mild, entered),
              ElementsAre("report hop@mid is severity 3, must be below 2 (off by 2)"));
}

TEST(WhyNotAReport, CanBeThatNobodyDeniedIt) {
  EXPECT_THAT(only(is(ReportTest{"hop", Phase::mid, 0}), SmallCase(rules(), {"hop@mid=1"})),
              ElementsAre("report hop@mid is severity 1, needs to be denied"));
}

// --- settings -----------------------------------------------------------------------------------

TEST(WhyNotASetting, SaysHowFarFromTheEndItStands) {
  SmallCase entered(rules());
  entered.kart.settings.at("rear-width").now = 1.370;
  const Condition wide = is(SettingTest{"rear-width", {}, 0.010, "wider"});
  EXPECT_THAT(only(wide, entered), ElementsAre("rear-width 1370 mm is 30 mm from its wider end, "
                                               "needs within 10 mm (off by 20 mm)"));
}

TEST(WhyNotASetting, GoesToTheNearestPlaceThatWillDo) {
  SmallCase entered(rules());
  entered.kart.settings.at("rear-width").now = 1.370;
  const Condition wide = is(SettingTest{"rear-width", {}, 0.010, "wider"});
  const Rule rule{};
  const RuleRef ref{.rule = &rule, .kind = RuleKind::evidence, .when = &wide};
  const NearMiss miss = why_not(ref, entered.settled());
  const Lack& lack = miss.alternatives.at(0).lacks.at(0);
  EXPECT_NEAR(std::get<SettingChange>(lack.change).to, 1.390, 1e-12);
  EXPECT_NEAR(lack.off_by.value(), 0.020, 1e-12);
  EXPECT_NEAR(lack.distance, 2.0, 1e-9) << "reference steps of 10 mm";
}

TEST(WhyNotASetting, NamesThePositions) {
  const SmallCase entered(rules());
  EXPECT_THAT(only(is(SettingTest{"axle", {"hard"}, {}, {}}), entered),
              ElementsAre("axle is medium, needs hard"));
  EXPECT_THAT(only(never(is(SettingTest{"axle", {"medium", "hard"}, {}, {}})), entered),
              ElementsAre("axle is medium, must not be medium or hard"));
}

TEST(WhyNotASetting, OfAKartWithoutOneIsThreeStepsFartherOff) {
  SmallCase entered(rules());
  const Condition wide = is(SettingTest{"rear-width", {}, 0.010, "wider"});
  const Rule rule{};
  const RuleRef ref{.rule = &rule, .kind = RuleKind::evidence, .when = &wide};
  const Setting fitted = fitted_setting(*rules().adjustment("rear-width"));
  entered.kart.settings.at("rear-width") = fitted;
  const double there = why_not(ref, entered.settled()).alternatives.at(0).lacks.at(0).distance;
  entered.kart.settings.erase("rear-width");
  const double fitting = why_not(ref, entered.settled()).alternatives.at(0).lacks.at(0).distance;
  EXPECT_NEAR(fitting, there + 3.0, 1e-9);
}

TEST(WhyNotASetting, MayBeThatTheKartHasNone) {
  SmallCase entered(rules());
  entered.kart.settings.erase("axle");
  EXPECT_THAT(only(is(SettingTest{"axle", {"hard"}, {}, {}}), entered),
              ElementsAre("this kart has no axle, needs one"));
}

TEST(WhyNotASetting, IsNotToldWhereNoPlaceWillDo) {
  SmallCase entered(rules(), {}, {}, "wet");
  Setting& camber = entered.kart.settings.at("camber");
  camber.travel.places = {camber.now};
  const NearMiss miss = why_not(rule_named("wet-camber-to-zero"), entered.settled());
  EXPECT_FALSE(miss.fires);
  EXPECT_THAT(miss.alternatives, IsEmpty());
}

// --- measurements -------------------------------------------------------------------------------

TEST(WhyNotAMeasurement, SaysByHowMuchItMisses) {
  SmallCase entered(rules());
  entered.kart.measures["front-share"] = 0.44;
  const Condition heavy = is(MeasureTest{"front-share", MeasureTest::Side::above, 0.45});
  EXPECT_THAT(only(heavy, entered),
              ElementsAre("measurement front-share 44 %, needs above 45 % (off by 1 %)"));
  entered.kart.measures["front-share"] = 0.46;
  EXPECT_THAT(only(never(heavy), entered),
              ElementsAre("measurement front-share 46 %, needs no more than 45 % (off by 1 %)"));
}

TEST(WhyNotAMeasurement, IsAsFarOffAsTenthsOfWhatIsPlausible) {
  SmallCase entered(rules());
  entered.kart.measures["front-share"] = 0.40;
  const Condition heavy = is(MeasureTest{"front-share", MeasureTest::Side::above, 0.45});
  const Rule rule{};
  const RuleRef ref{.rule = &rule, .kind = RuleKind::evidence, .when = &heavy};
  const NearMiss miss = why_not(ref, entered.settled());
  const Lack& lack = miss.alternatives.at(0).lacks.at(0);
  const double moved = std::get<MeasureChange>(lack.change).to - 0.40;
  const MeasureDef& share = *rules().measure("front-share");
  EXPECT_GT(moved, 0.05);
  EXPECT_NEAR(lack.distance, 10.0 * moved / (share.to - share.from), 1e-9);
}

TEST(WhyNotAMeasurement, MayBeThatItWasNotTaken) {
  EXPECT_THAT(
      only(is(MeasureTest{"front-share", MeasureTest::Side::below, {}}), SmallCase(rules())),
      ElementsAre("measurement front-share was not taken, needs below 41 %"));
}

TEST(WhyNotAMeasurement, MayBeThatNobodySaidHowMuchIsTooMuch) {
  SmallCase entered(rules());
  entered.kart.measures["tyre-laps"] = 800;
  EXPECT_THAT(told(why_not(rule_named("more-laps-than-the-crew-allows"), entered.settled())),
              ElementsAre(ElementsAre("measurement tyre-laps 800 has no limit on this kart, needs "
                                      "one that it is above")));
}

TEST(WhyNotAMeasurement, MeetsTwoDemandsByOneValue) {
  SmallCase entered(rules());
  entered.kart.measures["chain-travel"] = 0.010;
  const Condition slack = all({never(is(MeasureTest{"chain-travel", MeasureTest::Side::below, {}})),
                               is(MeasureTest{"chain-travel", MeasureTest::Side::above, 0.025})});
  EXPECT_THAT(only(slack, entered), ElementsAre("measurement chain-travel 10 mm, needs above 25 mm "
                                                "(off by 15 mm)"));
}

TEST(WhyNotAMeasurement, CannotMeetWhatContradictsItself) {
  const Condition above = is(MeasureTest{"front-share", MeasureTest::Side::above, 0.45});
  EXPECT_THAT(why(all({above, never(above)}), SmallCase(rules())), IsEmpty());
}

// --- alternatives -------------------------------------------------------------------------------

TEST(Alternatives, ComeWithTheFewestChangesThenTheNearestFirst) {
  const SmallCase entered(rules(), {"hop@mid=2"}, {"hit=no"});
  const Condition choice = either({all({fact("sudden", {"yes"}), fact("blisters", {"yes"})}),
                                   fact("hit", {"yes"}), is(ReportTest{"hop", Phase::mid, 3})});
  EXPECT_THAT(
      why(choice, entered),
      ElementsAre(ElementsAre("report hop@mid is severity 2, needs severity 3 or more (off by 1)"),
                  ElementsAre("hit is no, needs yes"),
                  testing::UnorderedElementsAre("sudden: nobody said, needs yes",
                                                "blisters: nobody said, needs yes")));
}

TEST(Alternatives, LeaveOutWhatHoldsAlready) {
  const SmallCase entered(rules(), {}, {"hit=yes"});
  EXPECT_THAT(only(all({fact("hit", {"yes"}), fact("sudden", {"yes"})}), entered),
              ElementsAre("sudden: nobody said, needs yes"));
}

TEST(Alternatives, AreNotWantedWhereTheRuleFires) {
  const NearMiss miss =
      why_not(rule_named("bog-without-hop-or-bind"), SmallCase(rules(), {"bog@exit=2"}).settled());
  EXPECT_TRUE(miss.fires);
  EXPECT_THAT(miss.alternatives, IsEmpty());
}

// --- effects and symptoms -----------------------------------------------------------------------

TEST(WhyNotAnEffect, MayBeThatTheKartHasNoSuchAdjustment) {
  SmallCase entered(rules());
  entered.kart.settings.erase("rear-width");
  EXPECT_THAT(told(why_not(rule_named("wider-sheds-side-bite"), entered.settled())),
              ElementsAre(ElementsAre("this kart has no rear-width, needs one")));
}

TEST(WhyNotAnEffect, NamesTheRuleThatHasTakenItsPlace) {
  const RuleRef base = rule_named("wider-sheds-side-bite");
  const NearMiss miss = why_not(base, SmallCase(rules(), {}, {}, "wet").settled());
  EXPECT_FALSE(miss.fires);
  EXPECT_THAT(told(miss), ElementsAre(ElementsAre("track is wet, must not be wet; "
                                                  "wet-narrow-digs-in has taken its place")));
  EXPECT_EQ(miss.taken.size(), static_cast<const EffectRule*>(base.rule)->cells.size());
  for (const TakenCell& cell : miss.taken) EXPECT_EQ(cell.by->id, "wet-narrow-digs-in");
}

TEST(WhyNotAnEffect, SaysWhichAxesAreTakenWhereTheRestIsStillHeard) {
  const RuleRef base = rule_named("higher-seat-presses-the-outside");
  const NearMiss miss = why_not(base, SmallCase(rules(), {}, {}, "wet").settled());
  EXPECT_TRUE(miss.fires) << "nothing else speaks of unloading";
  EXPECT_EQ(miss.taken.size(), 5U);
}

TEST(WhyNotAnEffect, IsHeardInPartWhereAFactIsOpen) {
  const RuleRef throttle = rule_named("wider-front-slow-on-the-throttle");
  const NearMiss open = why_not(throttle, SmallCase(rules(), {}, {}, "green").settled());
  EXPECT_FALSE(open.fires);
  EXPECT_THAT(open.open, ElementsAre("turn-in"));
  const NearMiss said =
      why_not(throttle, SmallCase(rules(), {}, {"turn-in=brake"}, "green").settled());
  EXPECT_THAT(said.open, IsEmpty());
  EXPECT_THAT(told(said), ElementsAre(ElementsAre("turn-in is brake, needs throttle")));
}

TEST(WhyNotASymptom, IsThatNobodyReportedIt) {
  const Symptom& push = *rules().symptom("push");
  const RuleRef rule = rule_named(push.reading->id);
  EXPECT_THAT(told(why_not(rule, SmallCase(rules()).settled())),
              ElementsAre(ElementsAre("report push is not there, needs to be")));
}

TEST(WhyNotASymptom, MayBeThatItWasFeltWhereItReadsNothing) {
  const RuleRef rule = rule_named(rules().symptom("push")->reading->id);
  EXPECT_THAT(told(why_not(rule, SmallCase(rules(), {"push@straight=2"}).settled())),
              ElementsAre(ElementsAre("report push@straight reads nothing there, needs entry")));
}

}  // namespace
}  // namespace kartwright
