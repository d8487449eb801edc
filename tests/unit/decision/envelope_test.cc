// The highest of some lines, and what it is worth to see where one stands. Numbers by hand, with
// the density 0.398942 at 0, 0.241971 at 1, and 0.158655 beyond 1.

#include "engine/decision/envelope.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

namespace kartwright {
namespace {

constexpr double kDensityAtZero = 0.3989422804014327;
constexpr double kDensityAtOne = 0.24197072451914337;
constexpr double kBeyondOne = 0.15865525393145707;

void expect_corner(const Corner& corner, double z, double rise) {
  EXPECT_NEAR(corner.z, z, 1e-12);
  EXPECT_NEAR(corner.rise, rise, 1e-12);
}

TEST(Corners, LieWhereAnotherLineBecomesTheHighest) {
  const std::vector<Corner> corners = corners_of({{0, 0}, {-1, 2}, {-3, -1}});
  ASSERT_EQ(corners.size(), 2U);
  expect_corner(corners[0], -3.0, 1.0);
  expect_corner(corners[1], 0.5, 2.0);
}

TEST(Corners, OfALineThatIsNeverHighestAreNotThere) {
  const std::vector<Corner> corners = corners_of({{0, -1}, {-0.5, 0}, {0, 1}, {-9, 0.5}});
  ASSERT_EQ(corners.size(), 1U) << "the flat line stays below where the others cross";
  expect_corner(corners[0], 0.0, 2.0);
}

TEST(Corners, OfThreeLinesThroughOnePointAreOne) {
  const std::vector<Corner> corners = corners_of({{0, -1}, {0, 0}, {0, 1}});
  ASSERT_EQ(corners.size(), 1U);
  expect_corner(corners[0], 0.0, 2.0);
}

TEST(Corners, OfParallelLinesAreThoseOfTheHighest) {
  EXPECT_TRUE(corners_of({{1, 2}, {3, 2}, {2, 2}}).empty());
  const std::vector<Corner> corners = corners_of({{3, 2}, {1, 2}, {0, 5}, {-7, 5}});
  ASSERT_EQ(corners.size(), 1U);
  expect_corner(corners[0], 1.0, 3.0);
}

TEST(Corners, OfNothingOrOneLineAreNone) {
  EXPECT_TRUE(corners_of({}).empty());
  EXPECT_TRUE(corners_of({{5, 5}}).empty());
}

TEST(Seeing, IsWorthTheMeanOfTheBetterHalfWhereTwoLinesCrossInTheMiddle) {
  EXPECT_NEAR(worth_of_seeing({{0, 0}, {0, 1}}), kDensityAtZero, 1e-15);
  EXPECT_NEAR(worth_of_seeing({{7, -1}, {7, 1}}), 2.0 * kDensityAtZero, 1e-15);
}

TEST(Seeing, IsWorthLessTheFartherTheLinesCross) {
  // E[max(0, z - 1)] = 0.241971 - 0.158655, on either side.
  const double one_off = kDensityAtOne - kBeyondOne;
  EXPECT_NEAR(worth_of_seeing({{0, 0}, {-1, 1}}), one_off, 1e-15);
  EXPECT_NEAR(worth_of_seeing({{0, 0}, {-1, -1}}), one_off, 1e-15);
  EXPECT_NEAR(worth_of_seeing({{-1, 0}, {0, 1}}), one_off, 1e-15) << "the steeper one leads";
  EXPECT_NEAR(worth_of_seeing({{0, 0}, {-3, 3}, {-2, -2}}), 5.0 * one_off, 1e-14);
}

TEST(Seeing, IsWorthNothingWhereOneLineLeadsForGood) {
  EXPECT_EQ(worth_of_seeing({{1, 0.5}, {0, 0.5}, {-2, 0.5}}), 0.0);
  EXPECT_EQ(worth_of_seeing({{0, 0}}), 0.0);
  EXPECT_EQ(worth_of_seeing({}), 0.0);
  EXPECT_EQ(worth_of_seeing({{0, 0}, {-1e9, 1}}), 0.0) << "it never comes to that";
  EXPECT_EQ(worth_of_seeing({{0, 0}, {-1, 1e-320}}), 0.0);
}

TEST(Floor, LetsOneLineDoForAllBelowIt) {
  const std::vector<Line> lines{{0, 0}, {0, 1}, {0, -1}};
  EXPECT_NEAR(worth_of_seeing(lines), 2.0 * kDensityAtZero, 1e-15);
  // Up to 1 the falling line does best, 0.241971; beyond it the rising one, as much again.
  EXPECT_NEAR(worth_of_seeing(lines, 1.0), 2.0 * kDensityAtOne, 1e-15);
  // Up to -1 nothing is lost; from there on all is seen.
  EXPECT_NEAR(worth_of_seeing(lines, -1.0), 2.0 * kDensityAtZero, 1e-15);
}

TEST(Floor, TakesNothingWhereOneLineDoesBestBelowItAnyway) {
  const std::vector<Line> lines{{0, 0}, {-1, 1}};
  EXPECT_NEAR(worth_of_seeing(lines, 1.0), kDensityAtOne - kBeyondOne, 1e-15);
  EXPECT_NEAR(worth_of_seeing(lines, 0.0), kDensityAtOne - kBeyondOne, 1e-15);
}

TEST(Floor, BeyondACornerInTheMiddleLosesWhatTheFlatLineWouldHaveSaved) {
  // The rising line must do up to 1, or the flat one: 0 either way, and 0.241971 beyond.
  EXPECT_NEAR(worth_of_seeing({{0, 0}, {0, 1}}, 1.0), kDensityAtOne, 1e-15);
}

TEST(Floor, AboveTheCornerLeavesTheSteepLineTheRest) {
  // Up to 2 the flat line must do though the steep one passes it at 1: E[z - 1; z > 2].
  const double density_at_two = 0.05399096651318806;
  const double beyond_two = 0.02275013194817921;
  EXPECT_NEAR(worth_of_seeing({{0, 0}, {-1, 1}}, 2.0), density_at_two - beyond_two, 1e-15);
}

TEST(Floor, ThatLeavesNothingToSeeLeavesNothingToGain) {
  const std::vector<Line> lines{{0, 0}, {-0.2, 1}, {0.1, -1}};
  EXPECT_NEAR(worth_of_seeing(lines, 40.0), 0.0, 1e-15);
  EXPECT_EQ(worth_of_seeing(lines, -40.0), worth_of_seeing(lines));
  EXPECT_EQ(worth_of_seeing(lines, -HUGE_VAL), worth_of_seeing(lines));
}

/// worth_of_seeing by adding up narrow strips.
double by_strips(const std::vector<Line>& lines, double floor) {
  constexpr double kWide = 1e-3;
  std::vector<double> below(lines.size(), 0.0), all(lines.size(), 0.0);
  double seen = 0.0;
  for (int i = -8000; i < 8000; ++i) {
    const double z = (i + 0.5) * kWide;
    const double share = kWide * kDensityAtZero * std::exp(-0.5 * z * z);
    double best = -HUGE_VAL;
    for (std::size_t k = 0; k < lines.size(); ++k) {
      const double height = lines[k].height + lines[k].slope * z;
      all[k] += share * height;
      if (z < floor) below[k] += share * height;
      best = std::max(best, height);
    }
    if (z > floor) seen += share * best;
  }
  return *std::max_element(below.begin(), below.end()) + seen -
         *std::max_element(all.begin(), all.end());
}

TEST(Floor, GivesWhatNarrowStripsAddUpTo) {
  const std::vector<Line> lines{{0.3, -1.5}, {0.6, -0.2}, {0.5, 0.4}, {-0.4, 1.3}, {-2.5, 2.0}};
  for (const double floor : {-3.0, -1.2, -0.5, 0.0, 0.3, 0.9, 2.5})
    EXPECT_NEAR(worth_of_seeing(lines, floor), by_strips(lines, floor), 1e-6) << floor;
  EXPECT_NEAR(worth_of_seeing(lines), by_strips(lines, -9.0), 1e-6);
}

}  // namespace
}  // namespace kartwright
