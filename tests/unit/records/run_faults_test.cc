// What is wrong with a run as such, for a log that somebody else wrote.

#include <limits>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/records/run_record.h"
#include "tests/support/log_files.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

constexpr double kNoNumber = std::numeric_limits<double>::quiet_NaN();

LoggedRun sound_run() { return plain_run("blue 27", "2026-11-14T10:00:00"); }

TEST(FaultsOfARun, OfOneThatIsSoundAreNone) {
  EXPECT_THAT(faults_of(sound_run()), IsEmpty());
  EXPECT_THAT(faults_of(whole_run()), IsEmpty());
}

TEST(FaultsOfARun, AreLapsThatTakeNoTimeOrEndlessTime) {
  LoggedRun run = sound_run();
  run.laps = {{1, 0.0}, {2, -3.0}, {3, kNoNumber}, {4, std::numeric_limits<double>::infinity()}};
  EXPECT_THAT(faults_of(run), ElementsAre("lap 1 takes 0 s", "lap 2 takes -3 s",
                                          "lap 3 takes nan s", "lap 4 takes inf s"));
}

TEST(FaultsOfARun, AreLapsThatStandTwiceOrAreMissing) {
  LoggedRun run = sound_run();
  run.laps = {{1, 31.0}, {3, 31.0}, {3, 31.2}};
  EXPECT_THAT(faults_of(run), ElementsAre("lap 3 stands twice", "lap 2 of 3 is missing"));
}

TEST(FaultsOfARun, AreSeveritiesThatThereAreNot) {
  LoggedRun run = sound_run();
  run.reports = {{.symptom = "push", .severity = -1},
                 {.symptom = "hop", .severity = 4},
                 {.symptom = "loose", .severity = 3}};
  EXPECT_THAT(faults_of(run), ElementsAre("a severity of -1", "a severity of 4"));
}

TEST(FaultsOfARun, AreChangesThatTheSetupDoesNotShow) {
  LoggedRun run = sound_run();
  run.settings = {{"rear-width", "1370 mm"}};
  run.changes = {{.adjustment = "rear-width", .from = "1360 mm", .to = "1365 mm", .steps = 0.5},
                 {.adjustment = "rear-width", .from = "1365 mm", .to = "1370 mm", .steps = 0.5},
                 {.adjustment = "toe", .from = "0 mm", .to = "1 mm", .steps = 1.0}};
  EXPECT_THAT(faults_of(run), IsEmpty());  // the last change of each counts
  run.changes[1].to = "1380 mm";
  EXPECT_THAT(faults_of(run),
              ElementsAre("`rear-width` was changed to 1380 mm and stands at 1370 mm"));
  run.changes = {{.adjustment = "toe", .from = "0 mm", .to = "1 mm", .steps = kNoNumber}};
  EXPECT_THAT(faults_of(run), ElementsAre("a change of toe by nan steps"));
}

TEST(FaultsOfARun, AreTextsThatCouldSteerATerminal) {
  for (const char* text : {"\x1B[2J", "a\x7F", "\xC2\x9B", "\xE2\x80\xAE", "\xE2\x81\xA7", "\r"}) {
    LoggedRun run = sound_run();
    run.said = text;
    EXPECT_THAT(faults_of(run), ElementsAre("control characters in `said` of the run")) << text;
  }
  for (const char* text :
       {"two\nlines", "caf\xC3\xA9", "\xC2\xB1", "\xE2\x80\x93", "\xE2\x81\xAC"}) {
    LoggedRun run = sound_run();
    run.said = text;
    EXPECT_THAT(faults_of(run), IsEmpty()) << text;
  }
}

TEST(FaultsOfARun, AreTextsThatAreNotThereButNotThoseThatNeedNotBe) {
  LoggedRun run = sound_run();
  run.notes = {{""}};
  run.settings = {{"", "1370 mm"}};
  run.verdicts = {{.adjustment = "toe"}};
  EXPECT_THAT(faults_of(run),
              ElementsAre("a setting without `adjustment`", "a note without `text`"));
}

TEST(FaultsOfARun, AreMomentsThatAreNone) {
  LoggedRun run = sound_run();
  run.at = "yesterday";
  EXPECT_THAT(faults_of(run), ElementsAre("`yesterday` is no moment"));
}

}  // namespace
}  // namespace kartwright
