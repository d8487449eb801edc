// Every task of a drill can be solved: named ones and sixty drawn for each level.

#include <algorithm>
#include <numeric>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"
#include "engine/practice/dice.h"
#include "engine/practice/draw_task.h"
#include "engine/practice/ends.h"
#include "engine/practice/outcome.h"
#include "engine/practice/told_reports.h"
#include "tests/support/drill_answers.h"

namespace kartwright {
namespace {

constexpr std::uint64_t kDrawnPerLevel = 60;

const Pack& drill_pack() {
  static const Pack pack = built_in_pack();
  return pack;
}

/// What the best answer must be: it can be made, and beats leaving alone or is that, as the
/// headline of the engine has it.
void expect_solvable(const Marking& marking) {
  const DrillChoice& best = marking.best();
  EXPECT_EQ(marking.refusal_of(best), "");
  EXPECT_DOUBLE_EQ(marking.mark_of(best), 100.0);
  if (marking.leaving_is_right()) {
    EXPECT_EQ(best.kind, DrillChoice::Kind::leave_alone);
  } else {
    EXPECT_NE(best.kind, DrillChoice::Kind::leave_alone);
    EXPECT_GT(marking.worth_of(best).points, marking.worth_of({}).points);
  }
}

/// The best answer, any answer and the opposite: marks fall in that order, and parts sum to worths.
void expect_marks_in_order(const Marking& marking, DrillDice& dice) {
  const double best = marking.worth_of(marking.best()).points;
  for (const DrillChoice& choice : every_choice(marking)) {
    const DrillWorth worth = marking.worth_of(choice);
    EXPECT_LE(worth.points, best + 1e-9) << marking.words_of(choice);
    const double sum = std::accumulate(
        worth.parts.begin(), worth.parts.end(), 0.0,
        [](double so_far, const DrillWorth::Part& part) { return so_far + part.points; });
    EXPECT_NEAR(sum, worth.points, 1e-9);
  }
  const std::vector<DrillChoice> all = every_choice(marking);
  const DrillChoice any = all[dice.below(all.size())];
  EXPECT_GE(marking.mark_of(marking.best()), marking.mark_of(any));
  EXPECT_GT(marking.mark_of(marking.best()), marking.mark_of(opposite_of_best(marking)));
}

/// What the level asks of its tasks, looked up anew.
void expect_of_level(const DrillLevel& level, const DrillTask& task, const Marking& marking) {
  EXPECT_EQ(name_of(marking.advice().verdict.headline), level.headline);
  EXPECT_EQ(level.broken, !marking.stopping().empty());
  EXPECT_EQ(marking.best().kind == DrillChoice::Kind::check, level.broken);
  EXPECT_TRUE(!level.used_up || used_up(task, drill_pack()) != nullptr);
  const EndMarks ends = mark_ends(marking);
  EXPECT_EQ(ends.right == KartEnd::broken, level.broken);
  EXPECT_DOUBLE_EQ(ends.of(ends.right), 100.0);
}

class DrawnDrill : public testing::TestWithParam<std::size_t> {};

TEST_P(DrawnDrill, CanBeSolvedAndIsWhatTheLevelAsks) {
  const DrillLevel& level = drill_pack().drills.levels.at(GetParam());
  Ear ear(drill_pack());
  DrillDice dice{7};
  for (std::uint64_t seed = 1; seed <= kDrawnPerLevel; ++seed) {
    SCOPED_TRACE(level.id + ", seed " + std::to_string(seed));
    const DrillTask task = drawn_task(level, drill_pack(), ear, seed);
    EXPECT_TRUE(task.debrief.heard.not_understood.empty()) << task.said;
    const Marking marking(drill_pack(), task);
    expect_solvable(marking);
    expect_marks_in_order(marking, dice);
    expect_of_level(level, task, marking);
  }
}

INSTANTIATE_TEST_SUITE_P(Levels, DrawnDrill,
                         testing::Range<std::size_t>(0, drill_pack().drills.levels.size()),
                         [](const auto& level) {
                           std::string name = drill_pack().drills.levels[level.param].id;
                           std::erase(name, '-');
                           return name;
                         });

TEST(NamedDrill, CanBeSolvedAndIsWhatItsLevelAsks) {
  Ear ear(drill_pack());
  DrillDice dice{7};
  for (const DrillCase& drill : drill_pack().drills.cases) {
    SCOPED_TRACE(drill.id);
    const DrillTask task = named_task(drill, drill_pack(), ear, 1);
    EXPECT_TRUE(task.debrief.heard.not_understood.empty()) << drill.said;
    const Marking marking(drill_pack(), task);
    expect_solvable(marking);
    expect_marks_in_order(marking, dice);
    expect_of_level(*drill_pack().drills.level(drill.level), task, marking);
  }
}

TEST(NamedDrill, ShowsOnTheListWhatItMovesAndWhatIsBest) {
  Ear ear(drill_pack());
  for (const DrillCase& drill : drill_pack().drills.cases) {
    SCOPED_TRACE(drill.id);
    const std::vector<std::string>& offers = drill_pack().drills.level(drill.level)->offers;
    for (const DrillSetting& each : drill.settings)
      EXPECT_THAT(offers, testing::Contains(each.adjustment));
    const DrillTask task = named_task(drill, drill_pack(), ear, 1);
    const Marking marking(drill_pack(), task);
    if (marking.best().kind != DrillChoice::Kind::change) continue;
    EXPECT_THAT(offers, testing::Contains(marking.adjustment_of(marking.best()).id));
  }
}

TEST(NamedDrill, ThreeOrMoreStandAtEveryLevel) {
  for (const DrillLevel& level : drill_pack().drills.levels) {
    const auto& cases = drill_pack().drills.cases;
    EXPECT_GE(std::count_if(cases.begin(), cases.end(),
                            [&](const DrillCase& drill) { return drill.level == level.id; }),
              3)
        << level.id;
  }
}

// Every saying of the rules, at every phase and severity that a drawn driver may use it with.
TEST(DrawnDriver, IsHeardToSayExactlyWhatWasDrawn) {
  Ear ear(drill_pack());
  int said = 0;
  for (const Symptom& symptom : drill_pack().symptoms) {
    if (drill_pack().drills.said_of("symptom " + symptom.id) == nullptr || !symptom.reading)
      continue;
    for (const Phase phase : symptom.phases) {
      for (int severity = 1; severity <= 3; ++severity) {
        const std::vector<Report> reports{
            {.symptom = symptom.id, .phase = phase, .severity = severity}};
        for (std::uint64_t seed = 0; seed < 12; ++seed) {
          DrillDice dice{seed};
          EXPECT_TRUE(in_driver_words(reports, drill_pack(), ear, dice))
              << symptom.id << " " << name_of(phase) << " " << severity << " seed " << seed;
          ++said;
        }
      }
    }
  }
  EXPECT_GT(said, 500);
}

}  // namespace
}  // namespace kartwright
