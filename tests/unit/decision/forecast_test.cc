// What the track will do to the grip, stage by stage.

#include "engine/decision/forecast.h"

#include <gtest/gtest.h>

#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

double shift(const Stage& stage, std::string_view axis) {
  return stage.shift[axis_index(rules(), axis)];
}

// Weights and shifts as the design's table of the trade has them (common practice).
TEST(Forecast, OfAColdTrackGoesThroughGreenToRubberAndOnceMore) {
  const std::vector<Stage> stages = forecast(rules(), "cold", 3.0);
  ASSERT_EQ(stages.size(), 3U);
  EXPECT_EQ(stages[0].track, "green");
  EXPECT_EQ(stages[1].track, "rubbered-in");
  EXPECT_EQ(stages[2].track, "rubbered-in");
  for (const char* axis : {"rear-grip.entry", "rear-grip.mid", "rear-grip.exit"}) {
    EXPECT_NEAR(shift(stages[0], axis), 0.3, 1e-12);
    EXPECT_NEAR(shift(stages[1], axis), 1.3, 1e-12);
    EXPECT_NEAR(shift(stages[2], axis), 1.5, 1e-12);
  }
  EXPECT_NEAR(shift(stages[1], "front-grip.mid"), 0.7, 1e-12);
  EXPECT_EQ(shift(stages[1], "unloading"), 0.0);
  EXPECT_EQ(stages[0].weight, 0.5);
  EXPECT_EQ(stages[1].weight, 0.25);
  EXPECT_EQ(stages[2].weight, 0.125);
}

TEST(Forecast, CountsLessTheFewerHoursAreLeft) {
  EXPECT_NEAR(forecast(rules(), "green", 1.5).front().weight, 0.25, 1e-12);
  EXPECT_EQ(forecast(rules(), "green", 12.0).front().weight, 0.5);
  EXPECT_TRUE(forecast(rules(), "green", 0.0).empty());
}

TEST(Forecast, IsSilentWhereNobodyKnowsWhatComes) {
  EXPECT_TRUE(forecast(rules(), "wet", 3.0).empty());
  EXPECT_TRUE(forecast(rules(), "greasy", 3.0).empty());
  EXPECT_TRUE(forecast(rules(), "unknown", 3.0).empty());
}

TEST(Forecast, OfTracksThatGoInACircleEnds) {
  const Pack pack =
      pack_of({axes_text({"grip"}),
               "track: one\nlabel: one\nplain: one\nahead: {state: two, shift: {grip: +1}}\n",
               "track: two\nlabel: two\nplain: two\nahead: {state: one, shift: {grip: -1}}\n"});
  EXPECT_EQ(forecast(pack, "one", 3.0).size(), 2U);
}

}  // namespace
}  // namespace kartwright
