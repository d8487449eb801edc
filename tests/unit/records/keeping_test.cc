// A run kept as the crew hands it in.

#include "engine/records/keeping.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/log_files.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

std::vector<RunSetting> blue_setup(const std::string& width) {
  return setup_of(parse_document("blue27.yaml", blue_kart_file(width)), blue_kart(width));
}

class KeepingRuns : public testing::Test {
 protected:
  LoggedRun keep(const std::string& width, const std::string& at) {
    LoggedRun run = plain_run("blue 27", at);
    run.settings = blue_setup(width);
    return keep_run(log_, run, blue_kart(width));
  }

  TempFolder folder_;
  Logbook log_{folder_.path() + "/day.db", kKeeping};
};

TEST(Setup, IsAsTheFileWritesIt) {
  EXPECT_THAT(blue_setup("136 cm"),
              ElementsAre(RunSetting{"axle", "medium"}, RunSetting{"rear-width", "136 cm"},
                          RunSetting{"toe", "1 mm"}));
}

TEST(SetupDifferences, AreCountedInStepsOfTheKart) {
  const auto changes = differences(blue_setup("1360 mm"), blue_setup("1370 mm"), blue_kart());
  ASSERT_THAT(changes, SizeIs(1));
  EXPECT_EQ(changes[0].adjustment, "rear-width");
  EXPECT_EQ(changes[0].from, "1360 mm");
  EXPECT_EQ(changes[0].to, "1370 mm");
  EXPECT_EQ(changes[0].steps, 2.0);
  EXPECT_EQ(changes[0].origin, Origin::found);
  EXPECT_THAT(differences(blue_setup("1360 mm"), blue_setup("136 cm"), blue_kart()), IsEmpty());
  EXPECT_THAT(differences({}, blue_setup("1370 mm"), blue_kart()), IsEmpty());
  EXPECT_THAT(differences({{"rear-width", "wide"}}, blue_setup("1370 mm"), blue_kart()), IsEmpty());
  EXPECT_THAT(differences(blue_setup("1370 mm"), {{"rear-width", "wide"}}, blue_kart()), IsEmpty());
}

TEST_F(KeepingRuns, WhatIsAddedToARunStandsBehindWhatItHasAndLapsAreGivenOnce) {
  LoggedRun run = plain_run("blue 27", "2026-11-14T10:00:00");
  run.laps.clear();
  run.complete = false;
  run.said = "pushes";
  const std::int64_t id = keep_run(log_, run, blue_kart("1360 mm")).id;
  LoggedRun laps;
  laps.laps = {{.number = 1, .seconds = 51.5}, {.number = 2, .seconds = 51.25}};
  laps.said = "hops";
  laps.load = "two litres";
  laps.driver = "K";
  const LoggedRun added = add_to_run(log_, id, laps);
  EXPECT_THAT(added.laps, SizeIs(2));
  EXPECT_EQ(added.said, "pushes; hops");
  EXPECT_EQ(added.load, "two litres");
  EXPECT_EQ(added.driver, "K");
  EXPECT_EQ(added.track, run.track) << "what is not given stays";
  EXPECT_FALSE(added.complete);
  EXPECT_THROW(add_to_run(log_, id, laps), InputError);
  LoggedRun words;
  words.complete = true;
  EXPECT_TRUE(add_to_run(log_, id, words).complete);
  words.complete = false;
  EXPECT_TRUE(add_to_run(log_, id, words).complete) << "it was told in full before";
  EXPECT_THAT(log_.run(id)->laps, SizeIs(2));
}

TEST_F(KeepingRuns, WhatStandsInTheKartFileAndNobodyToldOfIsFound) {
  EXPECT_THAT(keep("1360 mm", "2026-11-14T10:00:00").changes, IsEmpty());
  const LoggedRun second = keep("1370 mm", "2026-11-14T11:00:00");
  ASSERT_THAT(second.changes, SizeIs(1));
  EXPECT_EQ(second.changes[0].origin, Origin::found);
  EXPECT_THAT(keep("1370 mm", "2026-11-14T12:00:00").changes, IsEmpty());
}

TEST_F(KeepingRuns, ARunToldOfLateIsHeldAgainstTheOneBeforeIt) {
  keep("1360 mm", "2026-11-14T10:00:00");
  keep("1370 mm", "2026-11-14T12:00:00");
  EXPECT_THAT(keep("1360 mm", "2026-11-14T11:00:00").changes, IsEmpty());
  EXPECT_THAT(keep("1380 mm", "2026-11-13T11:00:00").changes, IsEmpty());
}

TEST_F(KeepingRuns, ASettingWrittenAnotherWayIsTheSameSetup) {
  keep("1360 mm", "2026-11-14T10:00:00");
  const LoggedRun second = keep("136 cm", "2026-11-14T11:00:00");
  EXPECT_THAT(second.changes, IsEmpty());
  EXPECT_EQ(second.setting("rear-width"), "1360 mm");
}

TEST_F(KeepingRuns, TheOneMadeReadyIsFilledIn) {
  LoggedRun ready{.kart = "blue 27",
                  .at = "2026-11-14T10:50:00",
                  .driven = false,
                  .settings = blue_setup("1370 mm"),
                  .notes = {{"mind the kerb"}},
                  .changes = {{.adjustment = "rear-width",
                               .from = "1360 mm",
                               .to = "1370 mm",
                               .steps = 2.0,
                               .origin = Origin::advice,
                               .rank = 1,
                               .advice = "{}"}}};
  ready.id = log_.put(ready);
  const LoggedRun kept = keep("1370 mm", "2026-11-14T11:00:00");
  EXPECT_EQ(kept.id, ready.id);
  EXPECT_EQ(log_.count_runs(""), 1U);
  const LoggedRun run = log_.run(kept.id).value();
  EXPECT_TRUE(run.driven);
  EXPECT_EQ(run.at, "2026-11-14T11:00:00");
  ASSERT_THAT(run.changes, SizeIs(1));
  EXPECT_EQ(run.changes[0].advice, "{}");
  EXPECT_THAT(run.notes, SizeIs(1));
  EXPECT_FALSE(log_.made_ready("blue 27"));
}

TEST_F(KeepingRuns, WhatWasTurnedAfterItWasMadeReadyIsFound) {
  log_.put({.kart = "blue 27",
            .at = "2026-11-14T10:50:00",
            .driven = false,
            .settings = blue_setup("1370 mm")});
  const LoggedRun kept = keep("1375 mm", "2026-11-14T11:00:00");
  ASSERT_THAT(kept.changes, SizeIs(1));
  EXPECT_EQ(kept.changes[0].from, "1370 mm");
}

TEST_F(KeepingRuns, AMomentThatIsTakenIsMovedOnBySeconds) {
  keep("1360 mm", "2026-11-14T23:59:59");
  EXPECT_EQ(keep("1360 mm", "2026-11-14T23:59:59").at, "2026-11-15T00:00:00");
  EXPECT_EQ(keep("1360 mm", "2026-11-14T23:59:59").at, "2026-11-15T00:00:01");
  EXPECT_EQ(free_moment(log_, "another kart", "2026-11-14T23:59:59"), "2026-11-14T23:59:59");
}

TEST_F(KeepingRuns, TheOneMadeReadyIsNotInItsOwnWay) {
  const std::string second = "2026-11-14T10:00:00";
  keep("1360 mm", second);
  const std::string next = free_moment(log_, "blue 27", second);
  log_.put({.kart = "blue 27", .at = next, .driven = false, .settings = blue_setup("1370 mm")});
  EXPECT_EQ(keep("1370 mm", second).at, next);
  EXPECT_EQ(free_moment(log_, "blue 27", second), "2026-11-14T10:00:02");
}

TEST_F(KeepingRuns, OfTheSameSecondIsHeldAgainstTheOneToldOfBefore) {
  keep("1360 mm", "2026-11-14T09:00:00");
  keep("1370 mm", "2026-11-14T10:00:00");
  const LoggedRun third = keep("1380 mm", "2026-11-14T10:00:00");
  ASSERT_THAT(third.changes, SizeIs(1));
  EXPECT_EQ(third.changes[0].from, "1370 mm");
}

}  // namespace
}  // namespace kartwright
