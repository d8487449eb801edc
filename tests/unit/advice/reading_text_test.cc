// The reading in words, and what a change does against the driver's own.

#include "engine/advice/reading_text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(ReadingText, SaysWhichEndAComplaintIsMoreAbout) {
  const Pit push{.track = "rubbered-in", .reports = {"push@entry=2", "hop@mid=2"}};
  EXPECT_THAT(push.answer().text, HasSubstr("The push entry is more that the rear"));
  const Pit loose{.track = "rubbered-in", .reports = {"loose@exit=2"}};
  EXPECT_THAT(loose.answer().text, HasSubstr("than that the rear steps out"));
}

TEST(ReadingText, SaysWhatAComplaintIsNotWhereThatIsHardlySo) {
  const Pit sure{.track = "rubbered-in", .reports = {"push@entry=1", "hop@entry=3"}};
  const Advice advice = sure.answer();
  ASSERT_GT(belief(advice, "front-grip.entry"), 0.0) << "the front holds";
  EXPECT_THAT(advice.text, HasSubstr("The push entry is not that the front tyres give up"));
}

TEST(ReadingText, NamesTheEndThatIsALittleOffAllThroughTheCorner) {
  const Pit pit{.track = "cold", .reports = {"inside-rear-stays-up@mid=2"}};
  const Advice advice = pit.answer();
  for (const char* axis : {"rear-grip.entry", "rear-grip.mid", "rear-grip.exit"}) {
    ASSERT_LT(belief(advice, axis), -0.25);
    ASSERT_GT(belief(advice, axis), -0.5);
  }
  EXPECT_THAT(advice.text, HasSubstr("there is slightly too little rear grip"));
}

TEST(ExplainChange, SaysWhichComplaintTheMoveFeeds) {
  const Pit pit{.track = "cold", .reports = {"inside-rear-stays-up@mid=2"}};
  const Advice advice = pit.answer();
  const Change* narrower = ranked(advice, "rear-width", "narrower");
  ASSERT_NE(narrower, nullptr);
  ASSERT_EQ(narrower->against.size(), 1U);
  const auto& [reading, notches] = narrower->against.front();
  EXPECT_TRUE(advice.readings.at(reading).complaint);
  EXPECT_NEAR(notches, moved_by(advice, *narrower, "unloading"), 1e-12)
      << "the inside rear lifts more";
}

TEST(ExplainChange, IsSilentWhereTheMoveEasesTheComplaint) {
  const Pit pit{.track = "rubbered-in", .reports = {"push@entry=2", "hop@mid=2"}};
  const Advice advice = pit.answer();
  EXPECT_TRUE(advice.changes.at(0).against.empty());
}

}  // namespace
}  // namespace kartwright
