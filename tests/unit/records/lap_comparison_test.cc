// The laps of a file compared: who is held against whom, and what is told of each.

#include "engine/records/lap_comparison.h"

#include <algorithm>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace kartwright {
namespace {

using testing::HasSubstr;

/// Laps of a pattern of groups, scattered by a fixed ±0.025 s at most; `B` is 0.3 s faster, `C` 0.3
/// s slower.
LapFile day_of(const std::string& pattern, int laps_each) {
  std::string text = "time,group\n";
  int number = 0;
  for (const char group : pattern) {
    for (int i = 0; i < laps_each; ++i) {
      const double effect = group == 'B' ? -0.3 : group == 'C' ? 0.3 : 0.0;
      const double seconds = 31.0 + effect - 0.01 * number + 0.005 * (number * 7 % 11 - 5);
      text += std::to_string(seconds) + "," + group + "\n";
      ++number;
    }
  }
  std::istringstream stream(text);
  Findings findings;
  return read_lap_file(stream, "day.csv", {.needs_group = true}, findings);
}

LapComparison compared(const LapFile& file) {
  Findings findings;
  return compare_laps(file, 0.1, findings).value();
}

TEST(LapComparison, GroupsAreHeldAgainstTheFirstAndTheFirstDrivenAgainIsNoThird) {
  const LapComparison found = compared(day_of("ABA", 6));
  ASSERT_EQ(found.groups.size(), 2U);
  EXPECT_EQ(found.groups[0].laps, 12);
  EXPECT_EQ(found.groups[0].last_lap, 18);
  ASSERT_EQ(found.clock.judged.size(), 1U);
  EXPECT_EQ(found.clock.judged[0].verdict, ClockVerdict::keep);
}

TEST(LapComparison, TheGroupDrivenLastDecides) {
  const LapComparison found = compared(day_of("ABCA", 6));
  EXPECT_EQ(found.groups[found.clock.judged[found.decides].setting].name, "C");
  EXPECT_EQ(found.clock.judged[found.decides].verdict, ClockVerdict::revert);
  const LapComparison back = compared(day_of("ABCBA", 6));
  EXPECT_EQ(back.groups[back.clock.judged[back.decides].setting].name, "B");
}

TEST(LapComparison, TheFitGoesThroughItsLaps) {
  const LapComparison found = compared(day_of("ABA", 6));
  for (const FittedLap& lap : found.laps) {
    EXPECT_NEAR(lap.seconds, lap.fitted, 0.05) << lap.number;
    EXPECT_GE(lap.fitted, found.least);
    EXPECT_LE(lap.seconds, found.most);
  }
}

TEST(LapComparison, EveryLapIsFittedByTheDriftAndTheEffectOfItsGroup) {
  const LapComparison found = compared(day_of("ABCA", 5));
  const ClockFit& fit = found.clock.fit;
  ASSERT_EQ(found.laps.size(), 20U);
  double least = 100.0, most = 0.0;
  for (const FittedLap& lap : found.laps) {
    double seconds = fit.start + fit.drift * (lap.number - fit.middle);
    if (lap.group > 0) seconds += fit.effects.at(lap.group - 1).seconds;
    EXPECT_DOUBLE_EQ(lap.fitted, seconds) << lap.number;
    EXPECT_FALSE(lap.wild);
    least = std::min({least, lap.fitted, lap.seconds});
    most = std::max({most, lap.fitted, lap.seconds});
  }
  EXPECT_DOUBLE_EQ(found.least, least);
  EXPECT_DOUBLE_EQ(found.most, most);
  for (const SettingEffect& effect : fit.effects) {
    EXPECT_NEAR(effect.seconds - within(effect), effect.low, 1e-12);
    EXPECT_NEAR(effect.seconds + within(effect), effect.high, 1e-12);
  }
  EXPECT_NEAR(found.drift_within, 2.119905 * fit.drift_error, 1e-6)
      << "t for 16 degrees of freedom, from a table";
}

TEST(LapComparison, AGroupReachesFromItsFirstLapToItsLast) {
  const LapComparison found = compared(day_of("ABA", 6));
  EXPECT_EQ(found.groups[0].first_lap, 1);
  EXPECT_EQ(found.groups[1].first_lap, 7);
  EXPECT_EQ(found.groups[1].last_lap, 12);
  EXPECT_EQ(found.groups[1].laps, 6);
}

TEST(LapComparison, AWildLapIsMarkedAndIsNoPartOfTheScale) {
  LapFile file = day_of("ABA", 6);
  file.laps[8].seconds += 5.0;
  const LapComparison found = compared(file);
  ASSERT_EQ(found.clock.wild, std::vector<std::size_t>{8});
  EXPECT_TRUE(found.laps[8].wild);
  EXPECT_LT(found.most, 32.0);
  EXPECT_NEAR(found.laps[8].fitted, 30.62, 0.05);
}

void is_refused(const LapFile& file, Code code, const char* says) {
  Findings findings;
  EXPECT_FALSE(compare_laps(file, 0.1, findings));
  ASSERT_EQ(findings.all().size(), 1U);
  EXPECT_EQ(findings.all()[0].code, code);
  EXPECT_THAT(findings.all()[0].message, HasSubstr(says));
}

TEST(LapComparison, OneGroupOrTooFewLapsOrAGroupForEveryLapIsRefusedWithWhatWasThere) {
  is_refused(day_of("A", 6), Code::nothing_to_compare, "`A` 6 laps");
  is_refused(day_of("ABA", 1), Code::nothing_to_compare, "`A` 2 laps, `B` 1 lap");
  is_refused(day_of("DEFGHIJKLMNOPQRSTUVWXYZ", 3), Code::too_many_laps, "23 groups");
}

}  // namespace
}  // namespace kartwright
