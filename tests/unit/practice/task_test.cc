// The kart of a task: out of a file, beside it, or the practice kart; and what no kart can be.

#include "engine/practice/task.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/kart/travel.h"
#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"
#include "tests/support/small_rules.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

TEST(TaskOfAFile, IsOnThePracticeKartWhereItNamesNone) {
  const TempFolder folder;
  const std::string path = folder.write("one.yaml", "track: cold\nreports: [push@entry=2]\n");
  const DrillTask task = task_from_file(path, rules(), 7);
  EXPECT_EQ(task.id, path);
  EXPECT_EQ(task.kart.name, "practice kart");
  EXPECT_FALSE(task.kart.typical);
  EXPECT_EQ(task.debrief.track, "cold");
  EXPECT_EQ(task.seed, 7U);
  EXPECT_EQ(task.title + task.because + task.said + task.level, "");
}

TEST(TaskOfAFile, IsOnItsOwnKartOrOnTheOneBesideIt) {
  const TempFolder folder;
  const std::string within = folder.write("within.yaml", "kart: {kart: blue}\nsaid: it pushes\n");
  EXPECT_EQ(task_from_file(within, rules(), 1).kart.name, "blue");
  EXPECT_EQ(task_from_file(within, rules(), 1).said, "it pushes");
  folder.write("karts/green.yaml", "kart: green\n");
  const std::string beside = folder.write("beside.yaml", "kart: karts/green.yaml\n");
  EXPECT_EQ(task_from_file(beside, rules(), 1).kart.name, "green");
}

TEST(TaskOfAFile, WithAKartThatIsNotThereOrWrongIsRefused) {
  const TempFolder folder;
  const std::string gone = folder.write("gone.yaml", "kart: nowhere.yaml\n");
  EXPECT_THAT(told(found_by([&] { task_from_file(gone, rules(), 1); })), HasSubstr("nowhere.yaml"));
  folder.write("bad.yaml", "kart: bad\nsettings: {rear-wdith: 1360 mm}\n");
  const std::string wrong = folder.write("wrong.yaml", "kart: bad.yaml\n");
  EXPECT_THAT(told(found_by([&] { task_from_file(wrong, rules(), 1); })), HasSubstr("rear-wdith"));
}

class SettingsOfACase : public testing::Test {
 protected:
  std::vector<Diagnostic> put() {
    Findings findings;
    put_settings(drill_, kart_, findings);
    return findings.all();
  }
  DrillCase drill_{.id = "own", .source = {"own.yaml", 4}};
  Kart kart_ = practice_kart(rules());
};

TEST_F(SettingsOfACase, AreValuesAndNamedPositions) {
  drill_.settings = {{.adjustment = "rear-width", .value = 1.38},
                     {.adjustment = "axle", .position = "hard"}};
  drill_.limits = {{.adjustment = "rear-width", .at_least = 1.34, .at_most = 1.38},
                   {.adjustment = "axle", .allowed = {"medium", "hard"}}};
  EXPECT_EQ(told(put()), "");
  const Setting& axle = *kart_.setting("axle");
  EXPECT_DOUBLE_EQ(kart_.setting("rear-width")->now, 1.38);
  EXPECT_EQ(axle.travel.names.at(static_cast<std::size_t>(axle.now)), "hard");
  EXPECT_DOUBLE_EQ(kart_.setting("rear-width")->limit.at_least.value(), 1.34);
  EXPECT_THAT(axle.limit.allowed, SizeIs(2));
}

TEST_F(SettingsOfACase, ThatCannotStandThereAreToldWithThePlaceOfTheCase) {
  drill_.settings = {{.adjustment = "rear-width", .value = 1.363},
                     {.adjustment = "rear-width", .position = "wide"},
                     {.adjustment = "axle", .position = "wooden"},
                     {.adjustment = "no-such-thing", .value = 1.0}};
  const std::vector<Diagnostic> found = put();
  ASSERT_THAT(found, SizeIs(4)) << told(found);
  for (const Diagnostic& each : found) {
    EXPECT_EQ(each.file, "own.yaml");
    EXPECT_EQ(each.span.line, 4);
    EXPECT_THAT(each.message, HasSubstr("where it cannot stand"));
  }
}

TEST_F(SettingsOfACase, OutsideTheirOwnLimitAreTold) {
  drill_.limits = {{.adjustment = "rear-width", .at_most = 1.30},
                   {.adjustment = "axle", .allowed = {"hard"}},
                   {.adjustment = "no-such-thing", .at_most = 1.0}};
  const std::vector<Diagnostic> found = put();
  ASSERT_THAT(found, SizeIs(3)) << told(found);
  for (const Diagnostic& each : found) EXPECT_THAT(each.message, HasSubstr("to where it is not"));
}

TEST(TaskOfACase, HasItsClockItsFactsAndWhatTheDriverSaid) {
  Ear ear(rules());
  DrillCase drill = *rules().drills.named("first-hop");
  drill.laps = "faster";
  drill.facts = {{"turn-in", "brake"}};
  drill.minutes = 9.0;
  drill.hours = 1.0;
  const DrillTask task = named_task(drill, rules(), ear, 3);
  ASSERT_GE(task.debrief.heard.facts.size(), 2U);
  EXPECT_EQ(task.debrief.heard.facts[0].fact, "turn-in");
  EXPECT_EQ(task.debrief.heard.facts[1].value, "faster");
  EXPECT_EQ(task.debrief.minutes, 9.0);
  EXPECT_EQ(task.debrief.hours, 1.0);
  EXPECT_FALSE(task.debrief.heard.reports.empty());
}

}  // namespace
}  // namespace kartwright
