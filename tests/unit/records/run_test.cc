// A run: its names, its moments, the laps of it that count.

#include "engine/records/run.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/log_files.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

TEST(Moment, IsTakenAsCrewsWriteIt) {
  EXPECT_EQ(parse_moment("2026-11-14"), "2026-11-14T00:00:00");
  EXPECT_EQ(parse_moment("2026-11-14 10:30"), "2026-11-14T10:30:00");
  EXPECT_EQ(parse_moment("2026-11-14T10:30:15"), "2026-11-14T10:30:15");
  EXPECT_EQ(parse_moment("2028-02-29 23:59:59"), "2028-02-29T23:59:59");
}

TEST(Moment, ThatIsNoneIsNone) {
  for (const char* const text : {"",
                                 "today",
                                 "2026",
                                 "2026-11",
                                 "2026-11-14 10",
                                 "2026-11-14 10:3",
                                 "2026-11-14 24:00",
                                 "2026-11-14 10:60",
                                 "2026-11-14 10:30:60",
                                 "2027-02-29",
                                 "2026-13-01",
                                 "2026-00-10",
                                 "2026-11-00",
                                 "26-11-14",
                                 "2026-11-14 10:30:15:10",
                                 "2026-11-14 10:30 ",
                                 " 2026-11-14",
                                 "2026-11-14T-1:30",
                                 "2026--1-14",
                                 "-026-11-14",
                                 "2026-11-14Z10:30",
                                 "2026/11/14",
                                 "2026-11-14 10:30:",
                                 "20261-1-14",
                                 "2026-11-14\n"}) {
    EXPECT_EQ(parse_moment(text), std::nullopt) << text;
  }
}

TEST(Moment, LaterGoesOverMidnightAndNewYear) {
  EXPECT_EQ(later("2026-12-31T23:59:59", 1), "2027-01-01T00:00:00");
  EXPECT_EQ(later("2028-02-28T12:00:00", 86400), "2028-02-29T12:00:00");
  EXPECT_EQ(later("2026-11-14T10:30:00", 0), "2026-11-14T10:30:00");
}

TEST(Run, NamesReadBackAsWhatTheyName) {
  for (const LapFlag flag : {LapFlag::counts, LapFlag::out, LapFlag::in, LapFlag::traffic})
    EXPECT_EQ(lap_flag_named(name_of(flag)), flag);
  for (const Origin origin : {Origin::advice, Origin::own_idea, Origin::found, Origin::undo})
    EXPECT_EQ(origin_named(name_of(origin)), origin);
  EXPECT_EQ(lap_flag_named("Out"), std::nullopt);
  EXPECT_EQ(origin_named(""), std::nullopt);
}

TEST(Run, IsNamedByItsNumberSessionAndDay) {
  LoggedRun run = plain_run("blue 27", "2026-11-14T10:30:00");
  run.id = 12;
  EXPECT_EQ(name_of(run), "run 12 (2026-11-14)");
  run.session = "heat 2";
  EXPECT_EQ(name_of(run), "run 12 (heat 2, 2026-11-14)");
}

TEST(Run, OnlyLapsThatCountAreCounted) {
  const LoggedRun run = whole_run();
  EXPECT_THAT(counted(run), ElementsAre(31.1 + 0.32));
  EXPECT_EQ(best_of(run), 31.1 + 0.32);
  EXPECT_THAT(counted(LoggedRun{}), IsEmpty());
  EXPECT_EQ(best_of(LoggedRun{}), 0.0);
}

TEST(Run, HasASettingOrNone) {
  EXPECT_EQ(whole_run().setting("toe"), "1 mm");
  EXPECT_EQ(whole_run().setting("caster"), "");
}

}  // namespace
}  // namespace kartwright
