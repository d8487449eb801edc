#include "engine/chassis/balance.h"

#include <gtest/gtest.h>

namespace kartwright {
namespace {

/// 41.8 % in front, 50.3 % on the left.
Unbalanced a_little_heavy_behind() {
  return {.on = {36.0, 33.0, 47.0, 49.0},
          .wheelbase = 1.04,
          .front_track = 1.10,
          .rear_track = 1.18,
          .front = {0.425, 0.435},
          .left = {0.495, 0.505}};
}

Movable lead_piece(double minutes = 5.0) {
  return {.name = "lead",
          .mass = 5.0,
          .mounts = {{"behind the seat", 0.05, 0.10, 0.30},
                     {"on the floor", 0.55, 0.10, 0.02},
                     {"by the tank", 0.35, 0.10, 0.02}},
          .at = 0,
          .minutes = minutes};
}

Movable whole_seat() {
  return {.name = "seat",
          .mass = 80.0,
          .mounts = {{"as it is", 0.30, 0.0, 0.2}, {"an inch forward", 0.3254, 0.0, 0.2}},
          .at = 0,
          .minutes = 20.0};
}

TEST(MassesToMove, TheLeadForwardCuresTheFrontShare) {
  const std::vector<Cure> found = cures(a_little_heavy_behind(), {lead_piece()}, 1, 10);
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found[0].outside, 0.0);
  EXPECT_EQ(found[0].minutes, 5.0);
  // 5 kg by 0.5 m of 1.04 m, or by 0.3 m; the first comes nearer to the middle of the band.
  ASSERT_EQ(found[0].moves.size(), 1U);
  EXPECT_EQ(found[0].moves[0].mount, 1U);
  const CornerLoads& on = found[0].predicted;
  EXPECT_NEAR(on.left_front + on.right_front, 69.0 + 5.0 * 0.5 / 1.04, 1e-9);
  EXPECT_NEAR(found[0].higher, -5.0 * 0.28 / 165.0, 1e-12);
}

TEST(MassesToMove, TheSoonerMoveComesFirst) {
  const std::vector<Cure> found =
      cures(a_little_heavy_behind(), {whole_seat(), lead_piece()}, 1, 10);
  ASSERT_EQ(found.size(), 3U);
  EXPECT_EQ(found[0].moves[0].movable, 1U);
  EXPECT_EQ(found[2].moves[0].movable, 0U);
  EXPECT_EQ(found[2].minutes, 20.0);
}

/// Either piece alone falls short of the band.
TEST(MassesToMove, OneMoveComesBeforeTwoHoweverLongItTakes) {
  Movable piece = lead_piece(1.0);
  piece.mounts = {{"behind", 0.05, 0.10, 0.02}, {"forward", 0.20, 0.10, 0.02}};
  const std::vector<Cure> found =
      cures(a_little_heavy_behind(), {piece, piece, whole_seat()}, 2, 10);
  ASSERT_GE(found.size(), 2U);
  EXPECT_EQ(found[0].moves.size(), 1U);
  EXPECT_EQ(found[0].minutes, 20.0);
  EXPECT_EQ(found[1].moves.size(), 2U);
  EXPECT_EQ(found[1].minutes, 2.0);
}

TEST(MassesToMove, NoMoreAreShownThanAskedFor) {
  EXPECT_EQ(cures(a_little_heavy_behind(), {whole_seat(), lead_piece()}, 2, 2).size(), 2U);
  EXPECT_TRUE(cures(a_little_heavy_behind(), {whole_seat(), lead_piece()}, 0, 2).empty());
}

TEST(MassesToMove, ABalancedKartIsLeftAlone) {
  Unbalanced kart = a_little_heavy_behind();
  kart.front = {0.41, 0.43};
  EXPECT_TRUE(cures(kart, {lead_piece(), whole_seat()}, 2, 10).empty());
}

TEST(MassesToMove, WhereNothingReachesTheBandsTheNearestAloneIsShown) {
  Unbalanced kart = a_little_heavy_behind();
  kart.front = {0.48, 0.49};
  const std::vector<Cure> found = cures(kart, {lead_piece(), whole_seat()}, 2, 10);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_GT(found[0].outside, 0.0);
  EXPECT_EQ(found[0].moves.size(), 2U);  // both forward as far as they go
  EXPECT_EQ(found[0].moves[0].mount, 1U);
}

TEST(MassesToMove, NothingIsShownWhereEveryMoveMakesItWorse) {
  Unbalanced kart = a_little_heavy_behind();
  kart.front = {0.39, 0.40};
  EXPECT_TRUE(cures(kart, {lead_piece(), whole_seat()}, 2, 10).empty());
}

TEST(MassesToMove, AMoveToTheLeftTakesFromTheRightAndLeavesTheWarp) {
  const Movable weight{
      "weight", 11.4, {{"middle", 0.3, 0.0, 0.1}, {"left", 0.3, 0.1, 0.1}}, 0, 5.0};
  const Unbalanced kart = a_little_heavy_behind();
  const CornerLoads on = after_moves(kart, {weight}, {{0, 1}});
  // 11.4 kg by 0.1 m of a mean track of 1.14 m: a kilogram, half of it at either end.
  EXPECT_NEAR(on.left_front, 36.5, 1e-9);
  EXPECT_NEAR(on.right_front, 32.5, 1e-9);
  EXPECT_NEAR(on.left_rear, 47.5, 1e-9);
  EXPECT_NEAR(on.right_rear, 48.5, 1e-9);
}

TEST(MassesToMove, NothingToMoveCuresNothing) {
  EXPECT_TRUE(cures(a_little_heavy_behind(), {}, 3, 10).empty());
}

}  // namespace
}  // namespace kartwright
