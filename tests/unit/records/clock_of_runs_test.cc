// The laps of runs as the clock compares them.

#include "engine/records/clock_of_runs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/log_files.h"

namespace kartwright {
namespace {

using testing::ElementsAre;

/// Runs of one day: `A` at one width, `B` at another that is so much faster.
std::vector<LoggedRun> day_of_runs(const std::string& pattern, double faster, int laps = 10) {
  std::vector<LoggedRun> runs;
  int number = 0;
  for (const char setup : pattern) {
    LoggedRun run = plain_run("blue 27", later("2026-11-14T10:00:00", 3600 * number));
    run.id = 11 + static_cast<int>(runs.size());
    run.settings = {{"rear-width", setup == 'A' ? "1360 mm" : "1370 mm"}};
    run.laps.clear();
    for (int i = 1; i <= laps; ++i) {
      ++number;
      const double scatter = 0.01 * (number * 7 % 11 - 5);
      run.laps.push_back({i, 31.4 + scatter - (setup == 'B' ? faster : 0.0)});
    }
    run.laps.insert(run.laps.begin(), {0, 36.0, LapFlag::out});
    number = static_cast<int>(runs.size()) + 1;
    runs.push_back(std::move(run));
  }
  return runs;
}

std::vector<const LoggedRun*> pointers_to(const std::vector<LoggedRun>& runs) {
  std::vector<const LoggedRun*> out;
  for (const LoggedRun& run : runs) out.push_back(&run);
  return out;
}

TEST(ClockOfRuns, RunsOfOneSetupAreOneGroup) {
  const std::vector<LoggedRun> runs = day_of_runs("ABA", 0.3, 2);
  const LapFile file = laps_of(pointers_to(runs));
  EXPECT_THAT(file.groups, ElementsAre("run 11, 13", "run 12"));
  ASSERT_EQ(file.laps.size(), 6U);
  // What does not count is numbered and left out.
  EXPECT_EQ(file.laps[0].number, 2);
  EXPECT_EQ(file.laps[2].number, 5);
  EXPECT_EQ(file.laps[2].group, 1U);
  EXPECT_EQ(file.laps[5].number, 9);
}

TEST(ClockOfRuns, OtherTyresAreAnotherSetup) {
  std::vector<LoggedRun> runs = day_of_runs("AA", 0.0, 2);
  runs[1].tyres = "set 2";
  EXPECT_EQ(laps_of(pointers_to(runs)).groups.size(), 2U);
}

TEST(ClockOfRuns, AnotherStateOfTheTrackIsAnotherGroupAndIsSaid) {
  std::vector<LoggedRun> runs = day_of_runs("AA", 0.0, 2);
  runs[1].track = "wet";
  const LapFile file = laps_of(pointers_to(runs));
  ASSERT_EQ(file.groups.size(), 2U);
  EXPECT_NE(file.groups[1].find("(wet)"), std::string::npos) << file.groups[1];
}

TEST(ClockOfRuns, RunsWithOneSetupAreOneGroupWheneverTheyWereDriven) {
  const std::vector<LoggedRun> runs = day_of_runs("ABA", 0.3);
  EXPECT_EQ(groups_of_runs(pointers_to(runs)), (std::vector<std::size_t>{0, 1, 0}));
}

TEST(ClockOfRuns, TheLastRunIsHeldAgainstTheOneBeforeIt) {
  const std::vector<LoggedRun> runs = day_of_runs("ABA", 0.3);
  const LapComparison compared = last_change(pointers_to(runs), 0.1).value();
  EXPECT_EQ(compared.groups[0].name, "run 12");
  EXPECT_EQ(compared.clock.judged[compared.decides].verdict, ClockVerdict::revert);
  EXPECT_EQ(laps_fact(runs), "slower");
  EXPECT_EQ(laps_fact(day_of_runs("BAB", 0.3)), "faster");
}

TEST(ClockOfRuns, NothingIsSaidOfOneSetupOrOneRun) {
  EXPECT_EQ(laps_fact(day_of_runs("AA", 0.3)), std::nullopt);
  EXPECT_EQ(laps_fact(day_of_runs("A", 0.3)), std::nullopt);
  EXPECT_EQ(laps_fact(day_of_runs("BAB", 0.0)), std::nullopt);
  EXPECT_EQ(laps_fact(day_of_runs("AB", 0.3, 1)), std::nullopt);
}

TEST(ClockOfRuns, AnotherDayAndARunNotDrivenPlayNoPart) {
  std::vector<LoggedRun> runs = day_of_runs("BAB", 0.3);
  runs[1].driven = false;
  EXPECT_EQ(laps_fact(runs), std::nullopt);
  runs = day_of_runs("BAB", 0.3);
  runs[0].at = "2026-11-13T10:00:00";
  runs[1].at = "2026-11-13T11:00:00";
  EXPECT_EQ(laps_fact(runs), std::nullopt);
}

}  // namespace
}  // namespace kartwright
