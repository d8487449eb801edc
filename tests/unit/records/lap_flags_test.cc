// Which laps do not count: by the rule, and by the crew.

#include "engine/records/lap_flags.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

std::vector<RunLap> laps_in(const std::vector<double>& seconds) {
  std::vector<RunLap> laps;
  for (const double each : seconds) laps.push_back({static_cast<int>(laps.size()) + 1, each});
  return laps;
}

std::vector<LapFlag> flags_of(std::vector<RunLap> laps, double slow = 0.03) {
  flag_laps(laps, slow);
  std::vector<LapFlag> flags;
  for (const RunLap& lap : laps) flags.push_back(lap.flag);
  return flags;
}

constexpr auto kIn = LapFlag::in, kOut = LapFlag::out, kCounts = LapFlag::counts,
               kTraffic = LapFlag::traffic;

TEST(LapFlags, SlowLapsAreTheWayOutTheWayInAndTraffic) {
  EXPECT_THAT(flags_of(laps_in({34, 31, 31.1, 33, 31.2, 31, 36})),
              ElementsAre(kOut, kCounts, kCounts, kTraffic, kCounts, kCounts, kIn));
}

TEST(LapFlags, AQuickFirstLapCounts) {
  EXPECT_THAT(flags_of(laps_in({31, 31.1, 31.2})), ElementsAre(kCounts, kCounts, kCounts));
}

TEST(LapFlags, ALapOnTheEdgeCountsAndOneBeyondItDoesNot) {
  EXPECT_THAT(flags_of(laps_in({100, 100, 103, 100, 100})),
              ElementsAre(kCounts, kCounts, kCounts, kCounts, kCounts));
  EXPECT_THAT(flags_of(laps_in({100, 100, 103.01, 100, 100})),
              ElementsAre(kCounts, kCounts, kTraffic, kCounts, kCounts));
  EXPECT_THAT(flags_of(laps_in({100, 100, 103.01, 100, 100}), 0.05),
              ElementsAre(kCounts, kCounts, kCounts, kCounts, kCounts));
}

TEST(LapFlags, OneLapAloneCounts) { EXPECT_THAT(flags_of(laps_in({90})), ElementsAre(kCounts)); }

TEST(LapFlags, NoLapsAreNoTrouble) { EXPECT_TRUE(flags_of({}).empty()); }

TEST(LapFlags, WhatTheCrewSaidStays) {
  std::vector<RunLap> laps = laps_in({34, 31, 31.1, 31.2, 31});
  laps[0].by_crew = true;
  laps[2].by_crew = true;
  laps[2].flag = kTraffic;
  EXPECT_THAT(flags_of(laps), ElementsAre(kCounts, kCounts, kTraffic, kCounts, kCounts));
}

TEST(LapFlags, FlaggingTwiceIsFlaggingOnce) {
  std::vector<RunLap> laps = laps_in({34, 31, 31.1, 33, 31.2});
  flag_laps(laps, 0.03);
  const std::vector<LapFlag> once = flags_of(laps);
  flag_laps(laps, 0.03);
  EXPECT_EQ(flags_of(laps), once);
}

TEST(LapFlags, TheRuleSaysItsShare) {
  EXPECT_THAT(lap_rule_in_words(0.03), HasSubstr("more than 3 %"));
  EXPECT_THAT(lap_rule_in_words(0.055), HasSubstr("more than 5.5 %"));
}

}  // namespace
}  // namespace kartwright
