#include "engine/chassis/scales.h"

#include <gtest/gtest.h>

namespace kartwright {
namespace {

constexpr CornerLoads kWeighed{36.0, 33.0, 47.0, 49.0};  // 165 kg

TEST(Scales, FrontLeftAndCrossShares) {
  const Shares shares = shares_of(kWeighed, 0.2);
  EXPECT_DOUBLE_EQ(shares.front.value, 69.0 / 165.0);
  EXPECT_DOUBLE_EQ(shares.left.value, 83.0 / 165.0);
  EXPECT_DOUBLE_EQ(shares.cross.value, 80.0 / 165.0);
}

// The design's own figure: 0.12 points, from pads of 0.2 kg under 165 kg.
TEST(Scales, PadsOfTwoHundredGramsTellAShareToAnEighthOfAPoint) {
  const Shares shares = shares_of(kWeighed, 0.2);
  EXPECT_NEAR(shares.front.sd, 0.0012, 0.00005);
  EXPECT_NEAR(shares.cross.sd, 0.0012, 0.00005);
}

TEST(Scales, ScalesWithoutErrorLeaveNoDoubt) {
  EXPECT_EQ(shares_of(kWeighed, 0.0).left.sd, 0.0);
  EXPECT_EQ(pairs_of(kWeighed, 0.0).front.sd, 0.0);
}

TEST(Scales, ModesTellAHeavySideFromATwistedFrame) {
  const Modes heavy_left = modes_of({37.0, 33.0, 50.0, 46.0});
  EXPECT_DOUBLE_EQ(heavy_left.roll, 8.0);
  EXPECT_DOUBLE_EQ(heavy_left.warp, 0.0);
  const Modes twisted = modes_of({37.0, 33.0, 46.0, 50.0});
  EXPECT_DOUBLE_EQ(twisted.roll, 0.0);
  EXPECT_DOUBLE_EQ(twisted.warp, 8.0);
  EXPECT_DOUBLE_EQ(twisted.total, 166.0);
  EXPECT_DOUBLE_EQ(twisted.pitch, -26.0);
}

TEST(Scales, AKilogramOfWarpIsAQuarterOnEveryWheel) {
  const CornerLoads on = loads_of({.warp = 1.0});
  EXPECT_DOUBLE_EQ(on.left_front, 0.25);
  EXPECT_DOUBLE_EQ(on.right_front, -0.25);
  EXPECT_DOUBLE_EQ(on.left_rear, -0.25);
  EXPECT_DOUBLE_EQ(on.right_rear, 0.25);
}

TEST(Scales, PairsAreLeftLessRight) {
  const Pairs pairs = pairs_of(kWeighed, 0.2);
  EXPECT_DOUBLE_EQ(pairs.front.value, 3.0);
  EXPECT_DOUBLE_EQ(pairs.rear.value, -2.0);
  EXPECT_NEAR(pairs.front.sd, 0.2828, 0.0001);
  EXPECT_EQ(pairs.rear.sd, pairs.front.sd);
}

TEST(Scales, AFrontScaleThatReadsAKilogramTooMuchIsFound) {
  const CornerLoads first{37.0, 33.0, 47.0, 49.0};  // its pad under the left front
  const CornerLoads again{36.0, 34.0, 47.0, 49.0};  // changed over
  const ScalesSwapped swapped = swap_scales(first, again, 0.2);
  EXPECT_DOUBLE_EQ(swapped.front_scales.value, 1.0);
  EXPECT_DOUBLE_EQ(swapped.rear_scales.value, 0.0);
  EXPECT_DOUBLE_EQ(pairs_of(swapped.on, swapped.sigma).front.value, 3.0);
}

TEST(Scales, AFloorOutOfLevelIsToldFromAFrameThatIs) {
  const CornerLoads as_it_stands = loads_of({165.0, -27.0, 1.0, 6.0});
  const CornerLoads turned = loads_of({165.0, -27.0, 1.0, 2.0});
  const KartTurned told = turn_kart(as_it_stands, turned, 0.2);
  EXPECT_DOUBLE_EQ(told.frame.value, 4.0);
  EXPECT_DOUBLE_EQ(told.floor.value, 2.0);
  EXPECT_NEAR(told.frame.sd, 0.2828, 0.0001);
}

}  // namespace
}  // namespace kartwright
