// How far a trainee wants to go: sizes in every unit, in steps, as a target; and what has no size.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"
#include "engine/practice/answer.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using Kinds = TraineeAnswer::What;

class AnswerSizes : public testing::Test {
 protected:
  static const Pack& pack() {
    static const Pack pack = built_in_pack();
    return pack;
  }
  static DrillTask hop() {
    static Ear ear(pack());
    DrillTask task = named_task(*pack().drills.named("first-hop"), pack(), ear, 1);
    task.debrief.minutes = 120.0;  // enough for every job
    return task;
  }
  std::string heard(const std::string& text, const std::vector<std::string>& offers = {}) const {
    const Marking marking(pack(), task_);
    const TraineeAnswer answer = read_answer(text, marking, offers);
    if (answer.what == Kinds::choice) return marking.words_of(answer.choice);
    return answer.text + (answer.help.empty() ? "" : " | " + answer.help);
  }
  DrillTask task_ = hop();
};

TEST_F(AnswerSizes, ABareNumberIsInTheUsualUnitOfItsKind) {
  EXPECT_EQ(heard("caster more 2"), heard("caster more 2 deg"));
  EXPECT_THAT(heard("caster more 2"), HasSubstr("12 deg to 14 deg"));
  EXPECT_EQ(heard("rear pressures up 0.05"), heard("rear pressures up 0.05 bar"));
  EXPECT_THAT(heard("rear pressures up 0.05"), HasSubstr(" bar to "));
}

TEST_F(AnswerSizes, OnAKartInPoundsAndInchesABareNumberIsInPsi) {
  task_.kart.units = System::imperial;
  EXPECT_EQ(heard("rear pressures up 0.7252"), heard("rear pressures up 0.7252 psi"));
  EXPECT_THAT(heard("rear pressures up 0.7252 psi"), HasSubstr(" psi to "));
}

TEST_F(AnswerSizes, AreInStepsOfManyNames) {
  for (const char* text : {"rear wider one step", "rear wider 1 notch", "rear wider 1 place",
                           "rear wider 5mm", "rear wider by 1 step"})
    EXPECT_EQ(heard(text), "rear wider, 1360 mm to 1365 mm") << text;
  EXPECT_EQ(heard("stiffer axle one grade"), heard("stiffer axle 1 step"));
  EXPECT_EQ(heard("stiffer axle 1"), heard("stiffer axle 1 step"));
}

TEST_F(AnswerSizes, ThatAreNoNumberOfStepsAreNoSize) {
  for (const char* text : {"rear wider 0 steps", "rear wider 1.5 steps", "rear wider 2000 steps",
                           "rear wider two steps", "rear wider 1 furlong"})
    EXPECT_THAT(heard(text), HasSubstr("is no size of rear width | one of 5 mm")) << text;
  EXPECT_THAT(heard("stiffer axle 99 steps"), HasSubstr("is no size of axle | one of"));
}

TEST_F(AnswerSizes, ATargetSaysTheDirectionItself) {
  EXPECT_EQ(heard("rear width to 1350"), "rear narrower, 1360 mm to 1350 mm");
  EXPECT_EQ(heard("set the rear width at 1370 mm"), "rear wider, 1360 mm to 1370 mm");
  EXPECT_EQ(heard("rear width to 1361"), "rear width which way | wider or narrower");
  EXPECT_EQ(heard("rear width 10"), "rear width which way | wider or narrower");
}

TEST_F(AnswerSizes, APartIsChosenByItsName) {
  EXPECT_THAT(heard("axle hard"), HasSubstr("medium to hard"));
  EXPECT_THAT(heard("axle soft"), HasSubstr("medium to soft"));
  EXPECT_THAT(heard("axle medium"), HasSubstr("axle which way"));  // it is fitted
}

TEST_F(AnswerSizes, ANumberOfTheListStandsForItsAdjustment) {
  const std::vector<std::string> offers{"rear-width", "caster"};
  EXPECT_THAT(heard("2 more 2 deg", offers), HasSubstr("12 deg to 14 deg"));
  for (const char* text : {"3 wider 5", "1.5 wider 5", "-1 wider 5", "0 wider 5"})
    EXPECT_THAT(heard(text, offers), testing::Not(HasSubstr("caster"))) << text;
  const Marking marking(pack(), task_);
  EXPECT_EQ(adjustment_in("2", marking, offers)->id, "caster");
  EXPECT_EQ(adjustment_in("3", marking, offers), nullptr);
  EXPECT_EQ(adjustment_in("width", marking, offers), nullptr);  // of the front or of the rear
  EXPECT_EQ(adjustment_in("", marking, offers), nullptr);
}

TEST_F(AnswerSizes, AtTheEndOfItsTravelItsReasonIsGiven) {
  Setting& width = task_.kart.settings.at("rear-width");
  width.now = width.travel.places.back();
  EXPECT_NE(heard("rear wider 5"), "");
  EXPECT_EQ(heard("rear wider 5"), heard("rear wider"));
  EXPECT_THAT(heard("rear wider"), testing::Not(HasSubstr("to 1405")));
  EXPECT_THAT(heard("rear narrower 5"), HasSubstr("1400 mm to 1395 mm"));
}

TEST_F(AnswerSizes, WhatIsNotFittedIsRefused) {
  task_.kart.settings.erase("caster");
  EXPECT_EQ(heard("caster more 2"), "caster is not fitted on this kart");
  const Marking marking(pack(), task_);
  EXPECT_EQ(in_two_lines(*pack().adjustment("caster"), marking).size(), 1U);
}

TEST_F(AnswerSizes, EveryAdjustmentIsExplainedInOneOrTwoLines) {
  const Marking marking(pack(), task_);
  for (const Adjustment& adjustment : pack().adjustments) {
    const std::vector<std::string> lines = in_two_lines(adjustment, marking);
    EXPECT_EQ(lines.size(), task_.kart.setting(adjustment.id) == nullptr ? 1U : 2U);
    EXPECT_THAT(lines[0], testing::StartsWith(adjustment.label + ": "));
    EXPECT_THAT(adjustment.explain,
                testing::StartsWith(lines[0].substr(adjustment.label.size() + 2)));
  }
}

TEST_F(AnswerSizes, CheckWithoutAFaultListsThemAll) {
  const std::string help = heard("check");
  EXPECT_THAT(help, testing::StartsWith("check what | "));
  for (const Fault& fault : pack().faults) EXPECT_THAT(help, HasSubstr(fault.label));
}

TEST_F(AnswerSizes, NothingNearIsAnsweredWithHowToAnswer) {
  EXPECT_THAT(heard("zzzz qqqq"), HasSubstr("as `rear wider 10`; `leave it`"));
}

}  // namespace
}  // namespace kartwright
