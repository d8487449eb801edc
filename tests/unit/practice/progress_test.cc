// What a trainee has done so far.

#include "engine/practice/progress.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"
#include "engine/practice/answer.h"

namespace kartwright {
namespace {

const Pack& pack_of_progress() {
  static const Pack pack = built_in_pack();
  return pack;
}

DrillRecord done(const std::string& level, double mark, std::vector<Mistake> mistakes = {}) {
  return {.seed = 4, .level = level, .mark = mark, .mistakes = std::move(mistakes)};
}

DrillRecord answered(const std::string& id, KartEnd end, const std::string& text) {
  Ear ear(pack_of_progress());
  const DrillTask task =
      named_task(*pack_of_progress().drills.named(id), pack_of_progress(), ear, 1);
  const Marking marking(pack_of_progress(), task);
  return record_of(marking, end, read_answer(text, marking, {}).choice, 0);
}

TEST(DrillProgress, CountsByLevelAndNamesTheNext) {
  const Progress progress = progress_of(
      {done("one-symptom", 90), done("one-symptom", 70), done("one-symptom", 95),
       done("one-way", 20, {{"front", "rear"}}), done("one-way", 60, {{"front", "rear"}})},
      pack_of_progress());
  ASSERT_EQ(progress.levels.size(), 2U);
  EXPECT_DOUBLE_EQ(progress.levels[0].mean, 85.0);
  EXPECT_DOUBLE_EQ(progress.levels[0].latest, 95.0);
  EXPECT_EQ(progress.next_level, "one-way");
  ASSERT_EQ(progress.mistakes.size(), 1U);
  EXPECT_EQ(progress.mistakes[0].second, 2);
}

TEST(DrillProgress, ANewcomerBeginsAtTheFirstLevelAndTheFirstSeed) {
  EXPECT_EQ(progress_of({}, pack_of_progress()).next_level, "one-symptom");
  EXPECT_EQ(next_seed({}), 1U);
  EXPECT_EQ(next_seed({done("one-way", 1)}), 5U);
}

TEST(DrillProgress, WhoHasDoneAllLevelsWellStaysAtTheLast) {
  std::vector<DrillRecord> all;
  for (const DrillLevel& level : pack_of_progress().drills.levels) {
    for (int i = 0; i < 3; ++i) all.push_back(done(level.id, 99));
  }
  EXPECT_EQ(progress_of(all, pack_of_progress()).next_level, "comfort");
}

TEST(DrillMistake, IsOneDirectionForAnotherOneEndForAnotherOrASize) {
  EXPECT_TRUE(answered("first-hop", KartEnd::rear, "rear wider 15").mistakes.empty());
  const DrillRecord other = answered("first-hop", KartEnd::front, "rear narrower 5");
  ASSERT_EQ(other.mistakes.size(), 2U);
  EXPECT_EQ(other.mistakes[0].said, "front");
  EXPECT_EQ(other.mistakes[0].right, "rear");
  EXPECT_EQ(other.mistakes[1].said, "rear narrower");
  EXPECT_EQ(other.mistakes[1].right, "rear wider");
  const DrillRecord little = answered("first-hop", KartEnd::rear, "rear wider 5");
  ASSERT_EQ(little.mistakes.size(), 1U);
  EXPECT_EQ(little.mistakes[0].said, "too little");
  EXPECT_EQ(little.mistakes[0].right, "enough of rear wider");
}

}  // namespace
}  // namespace kartwright
