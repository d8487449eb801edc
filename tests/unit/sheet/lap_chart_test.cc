// Laps in a picture: every group has its own sign, a lap off the scale stays in the picture, and
// no season makes the file large.

#include "cli/sheet/lap_chart.h"

#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/lap_plot.h"
#include "cli/sheet/compare_picture.h"
#include "cli/sheet/run_picture.h"

namespace kartwright::cli {
namespace {

using testing::HasSubstr;

TEST(LapChart, HasAnotherSignForEveryGroup) {
  std::set<std::string> signs;
  for (std::size_t group = 0; group < kMostGroups; ++group) {
    Drawing drawing(10.0);
    lap_mark(drawing, {5.0, 5.0}, group);
    signs.insert(drawing.picture("a sign").markup.html());
  }
  EXPECT_EQ(signs.size(), kMostGroups);
}

TEST(LapChart, KeepsALapThatIsOffTheScaleInThePicture) {
  const LapChart chart{.first = {1, ""}, .last = {10, ""}, .least = {31.0, ""}, .most = {32.0, ""}};
  EXPECT_EQ(chart.y(32.0), LapChart::kTop);
  EXPECT_EQ(chart.y(31.0), LapChart::kFoot);
  const Point above = chart.at(4, 60.0), below = chart.at(4, 1.0);
  EXPECT_LT(above.y, LapChart::kTop);
  EXPECT_GT(above.y, 15.0);
  EXPECT_GT(below.y, LapChart::kFoot);
  EXPECT_LT(below.y, LapChart::kAxis);
}

/// Groups that take turns lap by lap, each with laps all over the scale.
LapComparison season_of(int laps, std::size_t groups) {
  LapComparison all{.worth = 0.1};
  for (std::size_t g = 0; g < groups; ++g) all.groups.push_back({.name = "setup", .laps = 1});
  for (int i = 0; i < laps; ++i) {
    const double seconds = 30.0 + 0.001 * (i * 7919 % 2000);
    all.laps.push_back({.number = i + 1,
                        .seconds = seconds,
                        .fitted = 31.0,
                        .group = static_cast<std::size_t>(i) % groups});
  }
  for (std::size_t g = 1; g < groups; ++g) {
    all.clock.fit.effects.push_back({.setting = g, .seconds = 0.1, .low = -0.1, .high = 0.3});
    all.clock.judged.push_back({.setting = g});
  }
  all.least = 30.0;
  all.most = 32.0;
  return all;
}

TEST(LapChart, OfASeasonIsNoLargeFile) {
  for (const std::size_t groups : {2U, 20U}) {
    const LapComparison all = season_of(30'000, groups);
    const std::string letters = letters_of(all.groups);
    EXPECT_LE(laps_picture(all, letters).markup.html().size(), 130U * 1024U);
    EXPECT_LE(effects_picture(all, letters).height, 600.0);
  }
  Run run;
  for (int lap = 1; lap <= 30'000; ++lap) run.laps.push_back({.number = lap, .seconds = 31.0});
  EXPECT_LE(run_picture(run).markup.html().size(), 60U * 1024U);
}

TEST(LapsOfARun, AreScaledByThoseThatCount) {
  Run run;
  run.laps = {{.number = 1, .seconds = 44.0, .flag = LapFlag::out},
              {.number = 2, .seconds = 31.5},
              {.number = 3, .seconds = 31.25},
              {.number = 4, .seconds = 62.0, .flag = LapFlag::in}};
  const std::string svg = run_picture(run).markup.html();
  EXPECT_THAT(svg, HasSubstr("data-json=\"/laps/1/seconds\" text-anchor=\"end\" "
                             "class=\"soft\">31.500 s</text>"));
  EXPECT_THAT(svg, HasSubstr("data-json=\"/laps/2/seconds\""));
  EXPECT_THAT(svg, HasSubstr(">out-lap</text>"));
  EXPECT_THAT(svg, HasSubstr(">in-lap</text>"));
  EXPECT_THAT(svg, HasSubstr("counts: 2; out-lap: 1; in-lap: 1."));
}

}  // namespace
}  // namespace kartwright::cli
