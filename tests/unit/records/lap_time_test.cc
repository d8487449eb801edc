// Lap times, as timing sheets and thumbs write them.

#include "engine/records/lap_time.h"

#include <gtest/gtest.h>

namespace kartwright {
namespace {

TEST(LapTime, IsReadAsTimingSheetsHaveIt) {
  EXPECT_DOUBLE_EQ(parse_lap_time("31.42").value(), 31.42);
  EXPECT_DOUBLE_EQ(parse_lap_time("31,42").value(), 31.42);
  EXPECT_DOUBLE_EQ(parse_lap_time("1:02.417").value(), 62.417);
  EXPECT_DOUBLE_EQ(parse_lap_time("1:02,417").value(), 62.417);
  EXPECT_DOUBLE_EQ(parse_lap_time("0:59.9").value(), 59.9);
  EXPECT_DOUBLE_EQ(parse_lap_time("75").value(), 75.0);
  EXPECT_DOUBLE_EQ(parse_lap_time("0:00.750").value(), 0.75) << "a split, not a lap";
}

TEST(LapTime, HasTwelveFiguresAtMost) {
  EXPECT_DOUBLE_EQ(parse_lap_time("31.420000000").value(), 31.42);
  EXPECT_FALSE(parse_lap_time("31.4200000000"));
  EXPECT_FALSE(parse_lap_time("0000000000031.42"));
}

TEST(LapTime, OfSomethingElseIsNone) {
  for (const char* text :
       {"", ":", "1:2.4", "1:62.0", "1:60.000", "-31.4", "0", "0:00.000", "31.4s", "1:02:03.4",
        "31.4.2", ".5", "1:", "out", "1e3", "9999:00.0", " 31.4", "1:002.4", "31..4"})
    EXPECT_FALSE(parse_lap_time(text)) << text;
}

TEST(LapTime, IsPrintedToTheThousandth) {
  EXPECT_EQ(print_lap_time(31.42), "31.420");
  EXPECT_EQ(print_lap_time(62.417), "1:02.417");
  EXPECT_EQ(print_lap_time(59.9996), "1:00.000");
  EXPECT_EQ(print_lap_time(600.0), "10:00.000");
}

TEST(LapTime, ReadsBackWhatItPrints) {
  for (int thousandths = 1; thousandths < 200'000; thousandths += 37) {
    const double seconds = thousandths / 1000.0;
    EXPECT_NEAR(parse_lap_time(print_lap_time(seconds)).value(), seconds, 1e-9);
  }
}

}  // namespace
}  // namespace kartwright
