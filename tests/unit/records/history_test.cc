// What the runs of a kart say of its adjustments: which steps count, and what stands between them.

#include "engine/records/history.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/advice/learned.h"
#include "engine/knowledge/built_in.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using Runs = std::vector<kartwright::Run>;

const Pack& rules_of_the_day() {
  static const Pack pack = built_in_pack();
  return pack;
}

const Kart& usual_kart() {
  static const Kart kart = typical_kart(rules_of_the_day());
  return kart;
}

kartwright::Run run_of_kart(int number, std::vector<Report> reports) {
  kartwright::Run run{
      .id = number, .kart = "27", .at = later("2026-11-14T10:00:00", 1200 * number)};
  run.track = "green";
  run.complete = true;
  run.reports = std::move(reports);
  return run;
}

Report hop(int severity) { return {.symptom = "hop", .phase = Phase::mid, .severity = severity}; }

RunChange moved(const std::string& adjustment, double steps) {
  return {.adjustment = adjustment, .from = "a", .to = "b", .steps = steps};
}

/// Hop before a wider rear, less of it after.
Runs wider_and_less_hop() {
  Runs runs{run_of_kart(1, {hop(3)}), run_of_kart(2, {hop(1)})};
  runs[1].changes = {moved("rear-width", 1.0)};
  return runs;
}

std::size_t place(const std::string& adjustment) {
  return static_cast<std::size_t>(rules_of_the_day().adjustment(adjustment) -
                                  rules_of_the_day().adjustments.data());
}

/// What is learned of an adjustment on the axis it is told by.
struct Told {
  double learned = 0.0, sd = 0.0, rule = 0.0;
  int runs = 0;
};

Told learned_of(const Runs& runs, const std::string& adjustment) {
  const Learned all = learned_from(learn(runs, rules_of_the_day(), usual_kart()),
                                   rules_of_the_day(), usual_kart(), "green");
  for (const LearnedAdjustment& each : all.adjustments) {
    if (each.adjustment->id != adjustment) continue;
    const auto axis = static_cast<Eigen::Index>(each.axis);
    return {each.learned[axis], each.sd[axis], each.rule[axis], each.runs};
  }
  return {};
}

TEST(History, LessHopThanForetoldMakesAWiderRearStronger) {
  const Told told = learned_of(wider_and_less_hop(), "rear-width");
  EXPECT_EQ(told.runs, 1);
  EXPECT_LT(told.learned, told.rule);
  const Told more = learned_of(
      [] {
        Runs runs = wider_and_less_hop();
        runs[1].reports = {hop(3)};
        runs[0].reports = {hop(2)};
        return runs;
      }(),
      "rear-width");
  EXPECT_GT(more.learned, more.rule);
}

TEST(History, ASecondChangeAtOnceIsSaidAndTellsLess) {
  Runs both = wider_and_less_hop();
  both[1].changes.push_back(moved("rear-hubs", 1.0));
  const History history = learn(both, rules_of_the_day(), usual_kart());
  EXPECT_EQ(history.steps[place("rear-width")].with_others, 1);
  EXPECT_EQ(history.steps[place("rear-hubs")].with_others, 1);
  EXPECT_GT(learned_of(both, "rear-width").sd, learned_of(wider_and_less_hop(), "rear-width").sd);
}

TEST(History, ATrackThatMovedOnAndOtherTyresAreSaidAndTellLess) {
  const double alone = learned_of(wider_and_less_hop(), "rear-width").sd;
  Runs track = wider_and_less_hop();
  track[1].track = "rubbered-in";
  EXPECT_EQ(learn(track, rules_of_the_day(), usual_kart()).steps[place("rear-width")].track_moved,
            1);
  EXPECT_GT(learned_of(track, "rear-width").sd, alone);
  Runs tyres = wider_and_less_hop();
  tyres[0].tyres = "set 1";
  tyres[1].tyres = "set 2";
  EXPECT_EQ(learn(tyres, rules_of_the_day(), usual_kart()).steps[place("rear-width")].tyres_changed,
            1);
  EXPECT_GT(learned_of(tyres, "rear-width").sd, alone);
  Runs worn_back = wider_and_less_hop();
  worn_back[0].tyre_laps = 30;
  worn_back[1].tyre_laps = 0;
  EXPECT_EQ(
      learn(worn_back, rules_of_the_day(), usual_kart()).steps[place("rear-width")].tyres_changed,
      1);
}

TEST(History, OtherDaysAndOtherDriversAreNotHeldAgainstEachOther) {
  Runs night = wider_and_less_hop();
  night[1].at = "2026-11-15T10:00:00";
  EXPECT_EQ(learned_of(night, "rear-width").runs, 0);
  Runs drivers = wider_and_less_hop();
  drivers[0].driver = "one";
  drivers[1].driver = "the other";
  EXPECT_EQ(learned_of(drivers, "rear-width").runs, 0);
  drivers[1].driver = "";  // nobody said who
  EXPECT_EQ(learned_of(drivers, "rear-width").runs, 1);
}

TEST(History, WhatAnIncompleteDebriefLeavesUnsaidIsNotKnown) {
  Runs runs = wider_and_less_hop();
  runs[1].reports.clear();
  EXPECT_EQ(learned_of(runs, "rear-width").runs, 1);  // complete: no hop any more
  runs[1].complete = false;
  EXPECT_EQ(learned_of(runs, "rear-width").runs, 0);
  runs[1].reports = {hop(0)};  // asked, and no
  EXPECT_EQ(learned_of(runs, "rear-width").runs, 1);
}

TEST(History, ASymptomAtTheEndOfItsScaleTwiceSaysNothing) {
  Runs runs = wider_and_less_hop();
  runs[0].reports = {hop(3)};
  runs[1].reports = {hop(3)};
  EXPECT_EQ(learn(runs, rules_of_the_day(), usual_kart()).learning.runs_of(place("rear-width")), 0);
  runs[0].reports = {hop(2)};
  runs[1].reports = {hop(2)};
  EXPECT_EQ(learn(runs, rules_of_the_day(), usual_kart()).learning.runs_of(place("rear-width")), 1);
}

TEST(History, PushAndLooseAreTheTwoEndsOfOneSaying) {
  Runs runs{run_of_kart(1, {{.symptom = "push", .phase = Phase::mid, .severity = 2}}),
            run_of_kart(2, {{.symptom = "loose", .phase = Phase::mid, .severity = 1}})};
  runs[1].changes = {moved("rear-width", 1.0)};
  const History history = learn(runs, rules_of_the_day(), usual_kart());
  EXPECT_EQ(history.learning.runs_of(place("rear-width")), 1);
  EXPECT_THAT(history.steps[place("rear-width")].told.at(0),
              HasSubstr("push mid 2, then loose mid 1"));
}

TEST(History, TheRunsAreToldLatestFirstWithWhatChanged) {
  Runs runs = wider_and_less_hop();
  runs.push_back(run_of_kart(3, {hop(2)}));
  runs[2].session = "heat 2";
  runs[2].changes = {moved("rear-width", -1.0)};
  const auto told = learn(runs, rules_of_the_day(), usual_kart()).steps[place("rear-width")].told;
  ASSERT_EQ(told.size(), 2U);
  EXPECT_EQ(told[0], "run 3 (heat 2, 2026-11-14): -1 step, hop mid 1 to 2");
  EXPECT_EQ(told[1], "run 2 (2026-11-14): +1 step, hop mid 3 to 1");
}

TEST(History, AChangeTakenBackBeforeTheRunIsNone) {
  Runs runs = wider_and_less_hop();
  runs[1].changes.push_back(moved("rear-width", -1.0));
  EXPECT_EQ(learned_of(runs, "rear-width").runs, 0);
}

TEST(History, ADayInTheRainIsHeldAgainstTheRulesForTheRain) {
  // As much as the rules expect of the rain teaches nothing new of a dry track, though the rules
  // for the dry would have expected another thing.
  const RuleEffect by_rule = rules_for(rules_of_the_day(), usual_kart());
  Runs runs = wider_and_less_hop();
  for (auto& run : runs) run.track = "wet";
  const Effect wet = by_rule(place("rear-width"), runs[0], runs[1]);
  for (auto& run : runs) run.track = "green";
  const Effect dry = by_rule(place("rear-width"), runs[0], runs[1]);
  EXPECT_NE(wet.per_step, dry.per_step);
  for (auto& run : runs) run.track = "wet";
  const DayReader reader(rules_of_the_day(), by_rule);
  const DayOfRuns day = reader.day(cut_into_days(runs).at(0));
  EXPECT_TRUE(day.by_rules.at(0).isApprox(wet.per_step));
}

TEST(History, ALongDayIsCutAndTheRunAtTheCutCountsOnBothSides) {
  Runs runs;
  for (int i = 1; i <= 20; ++i) runs.push_back(run_of_kart(i, {hop(1 + i % 2)}));
  const auto days = cut_into_days(runs);
  ASSERT_EQ(days.size(), 2U);
  EXPECT_EQ(days[0].size(), 16U);
  EXPECT_EQ(days[0].back(), days[1].front());
}

TEST(History, RulesThatDoNotSayHowFarRunsCompareTeachNothing) {
  Pack pack = built_in_pack();
  pack.learning = {};
  const History history = learn(wider_and_less_hop(), pack, typical_kart(pack));
  EXPECT_EQ(history.learning.runs_of(place("rear-width")), 0);
}

TEST(History, AChangeTakenBackIsRememberedWithItsTrack) {
  Runs runs = wider_and_less_hop();
  runs[1].verdicts = {{.adjustment = "rear-width", .verdict = ClockVerdict::revert, .by = "crew"}};
  const auto tried = learn(runs, rules_of_the_day(), usual_kart()).tried[place("rear-width")];
  ASSERT_EQ(tried.size(), 1U);
  EXPECT_EQ(tried[0].direction, 0U);
  EXPECT_EQ(tried[0].track, "green");
  EXPECT_THAT(tried[0].text, HasSubstr("run 2"));
}

std::size_t rear_widths_taken_back(const Runs& runs, const Kart& kart = usual_kart()) {
  return learn(runs, rules_of_the_day(), kart).tried[place("rear-width")].size();
}

RunVerdict says(const std::string& by, ClockVerdict verdict) {
  return {.adjustment = "rear-width", .verdict = verdict, .by = by};
}

/// There, and back to tell the change from the track.
Runs there_and_back(const std::string& from, const std::string& to) {
  Runs runs{run_of_kart(1, {hop(3)}), run_of_kart(2, {hop(1)}), run_of_kart(3, {hop(3)})};
  runs[1].changes = {{.adjustment = "rear-width", .from = from, .to = to, .steps = 1.0}};
  runs[1].verdicts = {says("crew", ClockVerdict::revert)};
  runs[2].changes = {
      {.adjustment = "rear-width", .from = to, .to = from, .steps = -1.0, .origin = Origin::undo}};
  return runs;
}

TEST(History, AChangeThatTheClockKeepsAfterTheWayBackIsNotTakenBack) {
  Runs runs = there_and_back("1370 mm", "1375 mm");
  EXPECT_EQ(rear_widths_taken_back(runs), 1U);
  runs[1].verdicts.push_back(says("clock", ClockVerdict::not_settled));
  EXPECT_EQ(rear_widths_taken_back(runs), 1U);
  runs[1].verdicts.back().verdict = ClockVerdict::keep;
  EXPECT_EQ(rear_widths_taken_back(runs), 0U);
  std::swap(runs[1].verdicts[0], runs[1].verdicts[1]);
  EXPECT_EQ(rear_widths_taken_back(runs), 1U) << "the crew took it back all the same";
}

TEST(History, AChangeThatTheCrewMakesAgainIsNotTakenBack) {
  Runs runs = there_and_back("1370 mm", "1375 mm");
  runs.push_back(run_of_kart(4, {}));
  runs[3].driven = false;
  runs[3].changes = {
      {.adjustment = "rear-width", .from = "1370 mm", .to = "1380 mm", .steps = 2.0}};
  EXPECT_EQ(rear_widths_taken_back(runs), 1U);
  runs[3].changes[0].to = "137.5 cm";
  EXPECT_EQ(rear_widths_taken_back(runs), 0U);
  runs[3].verdicts = {says("crew", ClockVerdict::revert)};
  EXPECT_EQ(rear_widths_taken_back(runs), 1U) << "taken back for the second time";
}

TEST(History, AKartThatStandsThereAgainHasNotTakenItBack) {
  const Setting& width = *usual_kart().setting("rear-width");
  const std::string now = print_setting(width, width.now, System::metric);
  const Runs runs = there_and_back("1200 mm", now);
  EXPECT_EQ(rear_widths_taken_back(runs), 0U);
  Kart elsewhere = usual_kart();
  elsewhere.settings.at("rear-width").now += 0.005;
  EXPECT_EQ(rear_widths_taken_back(runs, elsewhere), 1U);
  // Nobody has moved it since the verdict of the clock.
  Runs still(runs.begin(), runs.begin() + 2);
  still[1].verdicts = {says("clock", ClockVerdict::revert)};
  EXPECT_EQ(rear_widths_taken_back(still), 1U);
}

}  // namespace
}  // namespace kartwright
