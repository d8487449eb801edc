// What an answer is worth, and what comes of it.

#include "engine/practice/marking.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"
#include "engine/practice/answer.h"
#include "engine/practice/draw_task.h"
#include "engine/practice/ends.h"
#include "engine/practice/outcome.h"
#include "engine/practice/result.h"

namespace kartwright {
namespace {

using testing::Contains;
using testing::HasSubstr;

const Pack& practice_pack() {
  static const Pack pack = built_in_pack();
  return pack;
}

/// A case with its marking; the marking looks into the task beside it.
struct Posed {
  explicit Posed(const std::string& id, std::uint64_t seed = 1)
      : task(pose(id, seed)), marking(practice_pack(), task) {}
  static DrillTask pose(const std::string& id, std::uint64_t seed) {
    static Ear ear(practice_pack());
    return named_task(*practice_pack().drills.named(id), practice_pack(), ear, seed);
  }
  DrillChoice answer(const std::string& text) const {
    return read_answer(text, marking, {}).choice;
  }
  double mark(const std::string& text) const { return marking.mark_of(answer(text)); }
  DrillTask task;
  Marking marking;
};

TEST(Marking, AChangeIsWorthItsScoreInTheRanking) {
  const Posed posed("first-hop");
  const Change& first = posed.marking.advice().changes.front();
  EXPECT_NEAR(posed.marking.worth_of(posed.marking.best()).points, first.candidate.parts.score(),
              1e-9);
  EXPECT_NEAR(posed.mark("leave it"),
              100.0 - first.candidate.parts.score() + posed.marking.advice().score_of_nothing,
              1e-9);
}

TEST(Marking, ASmallerStepTheRightWayIsWorthMoreThanAnyTheWrongWay) {
  const Posed posed("first-hop");
  EXPECT_GT(posed.mark("rear wider 10"), posed.mark("rear wider 5"));
  EXPECT_GT(posed.mark("rear wider 5"), posed.mark("leave it"));
  EXPECT_GT(posed.mark("leave it"), posed.mark("rear narrower 5"));
}

TEST(Marking, ALookWhereNothingIsLikelyCostsItsMinutesAndNothingElse) {
  const Posed posed("first-hop");
  const double rate = posed.marking.advice().effort_rate;
  EXPECT_NEAR(posed.marking.worth_of(posed.answer("check bent axle")).points,
              posed.marking.advice().score_of_nothing - 2.0 * rate, 1e-9);
}

TEST(Marking, GoingOutOnABrokenKartCostsTheExpectedLoss) {
  const Posed posed("tight-loose-tight");
  ASSERT_EQ(posed.marking.stopping().size(), 1U);
  const std::size_t fault = posed.marking.stopping().front();
  const double p = posed.marking.probability_of_fault(fault);
  const double cost = 100.0 * p * 9.0 / posed.marking.advice().loss_none;
  EXPECT_NEAR(posed.marking.worth_of({}).points, posed.marking.advice().score_of_nothing - cost,
              1e-9);
  EXPECT_EQ(posed.mark("check bent axle"), 100.0);
  EXPECT_LT(posed.mark("rear narrower 10"), 20.0);
}

TEST(Marking, OnAFastKartNoChangeIsWorthMoreThanLeavingItAlone) {
  const Posed posed("loose-and-faster");
  EXPECT_EQ(posed.mark("leave it"), 100.0);
  for (const DrillChoice& change : posed.marking.changes())
    EXPECT_LT(posed.marking.mark_of(change), 100.0) << posed.marking.words_of(change);
}

TEST(DrillResult, ForTheSecondDirectionItIsSaidThatItUndoesTheFirst) {
  Ear ear(practice_pack());
  bool second = false;
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    const DrillTask task =
        drawn_task(*practice_pack().drills.level("one-symptom"), practice_pack(), ear, seed);
    const Marking marking(practice_pack(), task);
    const bool undoes = marking.option_of(marking.best()).direction == 1;
    const std::string start =
        "undoes what " + marking.adjustment_of(marking.best()).phrases.at(0) + " does: ";
    EXPECT_EQ(because_of(marking).starts_with(start), undoes) << because_of(marking);
    second = second || undoes;
  }
  EXPECT_TRUE(second);
}

TEST(KartEnds, HopOnRubberIsTheRearAndThePartialMarkIsInProportion) {
  const EndMarks ends = mark_ends(Posed("first-hop").marking);
  EXPECT_EQ(ends.right, KartEnd::rear);
  EXPECT_NEAR(ends.of(KartEnd::front), 100.0 * ends.front / ends.rear, 1e-9);
  EXPECT_LT(ends.of(KartEnd::neither), 20.0);
}

TEST(KartEnds, AWordOrItsBeginningNamesAnEnd) {
  EXPECT_EQ(end_named("rear"), KartEnd::rear);
  EXPECT_EQ(end_named("f"), KartEnd::front);
  EXPECT_EQ(end_named("b"), std::nullopt);  // both or broken
  EXPECT_EQ(end_named("sideways"), std::nullopt);
}

TEST(Outcome, TwoAnswersToOneTaskMeetTheSameKart) {
  const Posed posed("first-hop", 5);
  const DrillOutcome wider = outcome_of(posed.answer("rear wider 10"), posed.marking);
  const DrillOutcome left = outcome_of({}, posed.marking);
  EXPECT_DOUBLE_EQ(wider.error_before, left.error_before);
  EXPECT_DOUBLE_EQ(left.error_after, left.error_before);
  EXPECT_EQ(left.felt.at(0).before, left.felt.at(0).after);
}

TEST(Outcome, OverManySeedsTheBestAnswerTakesOutWhatWasExpected) {
  double before = 0.0;
  double after = 0.0;
  DrillTask task = Posed::pose("first-hop", 1);
  const Marking marking(practice_pack(), task);  // looks into the task
  constexpr std::uint64_t kSeeds = 400;
  for (task.seed = 1; task.seed <= kSeeds; ++task.seed) {
    const DrillOutcome outcome = outcome_of(marking.best(), marking);
    before += outcome.error_before / kSeeds;
    after += outcome.error_after / kSeeds;
  }
  // E[z'Wz] is J plus tr(W P), before and after alike, so the fall is that of J.
  const double relief = marking.advice().changes.front().candidate.relief;
  EXPECT_NEAR(before - after, relief * marking.advice().loss_none, 0.45);
}

TEST(Outcome, AGoodCallThatCameOffBadlyIsSaidToBeOne) {
  bool badly = false;
  DrillTask task = Posed::pose("push-in-loose-off", 1);
  const Marking marking(practice_pack(), task);  // looks into the task
  for (task.seed = 1; task.seed <= 60 && !badly; ++task.seed) {
    const DrillOutcome outcome = outcome_of(marking.best(), marking);
    if (outcome.relief() >= 0.0) continue;
    badly = true;
    EXPECT_THAT(luck_of(outcome, marking.best(), marking), HasSubstr("came off badly"));
  }
  EXPECT_TRUE(badly);
}

TEST(Outcome, ACallWorthLessThanLeavingTheKartAloneIsNoGoodCall) {
  Ear ear(practice_pack());
  int worse = 0;
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const DrillTask task =
        drawn_task(*practice_pack().drills.level("conflict"), practice_pack(), ear, seed);
    const Marking marking(practice_pack(), task);
    for (const DrillChoice& change : marking.changes()) {
      const DrillOutcome outcome = outcome_of(change, marking);
      const bool below = marking.worth_of(change).points < marking.worth_of({}).points;
      if (!below || marking.mark_of(change) < 80.0 || outcome.relief() >= 0.0) continue;
      ++worse;
      EXPECT_EQ(luck_of(outcome, change, marking), "") << marking.words_of(change);
    }
  }
  EXPECT_GT(worse, 0);
}

TEST(Outcome, InACaseOfABrokenKartTheFaultIsAlwaysFound) {
  for (const DrillCase& drill : practice_pack().drills.cases) {
    if (!practice_pack().drills.level(drill.level)->broken) continue;
    DrillTask task = Posed::pose(drill.id, 1);
    const Marking marking(practice_pack(), task);  // looks into the task
    for (task.seed = 1; task.seed <= 25; ++task.seed)
      EXPECT_TRUE(outcome_of(marking.best(), marking).found) << drill.id << " " << task.seed;
  }
}

TEST(Outcome, WhoeverGoesOutOnABrokenKartHearsOfTheFaultAndIsNotCalledLucky) {
  DrillTask task = Posed::pose("tight-loose-tight", 1);
  const Marking marking(practice_pack(), task);  // looks into the task
  const DrillChoice narrower = read_answer("rear narrower 10", marking, {}).choice;
  for (task.seed = 1; task.seed <= 40; ++task.seed) {
    const DrillOutcome outcome = outcome_of(narrower, marking);
    EXPECT_EQ(luck_of(outcome, narrower, marking), "");
    EXPECT_THAT(told(outcome, narrower, marking), Contains(HasSubstr("still there")));
  }
  task.id.clear();  // as if it were drawn: now and then it is sound
  bool sound = false;
  for (task.seed = 1; task.seed <= 40; ++task.seed) {
    const DrillOutcome outcome = outcome_of(narrower, marking);
    EXPECT_EQ(luck_of(outcome, narrower, marking), "");
    sound = sound || outcome.out_with.empty();
  }
  EXPECT_TRUE(sound);
}

TEST(Outcome, ALookFindsTheFaultAboutAsOftenAsItIsLikely) {
  int found = 0;
  DrillTask task = Posed::pose("smell-of-fuel", 1);
  task.id.clear();                               // as if it were drawn
  const Marking marking(practice_pack(), task);  // looks into the task
  for (task.seed = 1; task.seed <= 60; ++task.seed) {
    if (outcome_of(marking.best(), marking).found) ++found;
  }
  const double p = marking.probability_of_fault(marking.best().fault);
  EXPECT_NEAR(found / 60.0, p, 0.2);
}

TEST(DrawnTask, TheSameSeedIsTheSameTaskAndAnotherIsAnother) {
  Ear ear(practice_pack());
  const DrillLevel& level = practice_pack().drills.levels.front();
  const DrillTask one = drawn_task(level, practice_pack(), ear, 3);
  const DrillTask again = drawn_task(level, practice_pack(), ear, 3);
  EXPECT_EQ(one.said, again.said);
  EXPECT_EQ(*one.truth, *again.truth);
  EXPECT_NE(*one.truth, *drawn_task(level, practice_pack(), ear, 4).truth);
}

TEST(DrawnTask, ALevelThatNoCaseCanMeetIsRefusedAtItsPlace) {
  Pack pack = practice_pack();
  pack.drills.words.clear();  // a driver without a word for anything
  DrillLevel level = pack.drills.levels.front();
  level.source = {"own.yaml", 3};
  Ear ear(pack);
  try {
    static_cast<void>(drawn_task(level, pack, ear, 1));
    FAIL();
  } catch (const InputError& error) {
    EXPECT_EQ(error.found().at(0).file, "own.yaml");
    EXPECT_THAT(error.found().at(0).message, HasSubstr("one-symptom"));
  }
}

TEST(DrillTask, ADebriefFileIsATaskToo) {
  const DrillTask task = task_from_file(
      KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/final-empty-adjuster.yaml", practice_pack(), 1);
  EXPECT_EQ(task.title, "hops with the rear against its stop");
  const Marking marking(practice_pack(), task);
  const Adjustment* const gone = used_up(task, practice_pack());
  ASSERT_NE(gone, nullptr);
  EXPECT_EQ(gone->id, "rear-width");
  EXPECT_EQ(because_of(marking), task.because);
}

TEST(DrillTask, ACaseThatPutsASettingWhereItCannotStandIsRefused) {
  DrillCase drill = *practice_pack().drills.named("first-hop");
  drill.settings.push_back({.adjustment = "rear-width", .value = 1.363});
  drill.limits.push_back({.adjustment = "toe", .at_most = -0.01});
  Ear ear(practice_pack());
  try {
    static_cast<void>(named_task(drill, practice_pack(), ear, 1));
    FAIL();
  } catch (const InputError& error) {
    EXPECT_EQ(error.found().size(), 2U);
  }
}

}  // namespace
}  // namespace kartwright
