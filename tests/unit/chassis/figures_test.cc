#include "engine/chassis/figures.h"

#include <gtest/gtest.h>

#include "tests/support/default_sprint_kart.h"

namespace kartwright {
namespace {

constexpr CornerClass kHairpin{1.0 * kGravity, 1.2 * kGravity, 8.0};
constexpr CornerClass kSweep{1.0 * kGravity, 1.2 * kGravity, 25.0};

TEST(Figures, GoingInTheKartIsBrakedAndComingOutDriven) {
  const SprintKart kart = default_sprint_kart();
  const Manoeuvre in = manoeuvre_of(kart, kSweep, CornerPhase::entry);
  const Manoeuvre mid = manoeuvre_of(kart, kSweep, CornerPhase::mid);
  const Manoeuvre out = manoeuvre_of(kart, kSweep, CornerPhase::exit);
  EXPECT_DOUBLE_EQ(in.lateral, 0.75 * kGravity);
  EXPECT_DOUBLE_EQ(in.longitudinal, -0.35 * kGravity);
  EXPECT_DOUBLE_EQ(mid.lateral, kGravity);
  EXPECT_DOUBLE_EQ(mid.longitudinal, 0.0);
  EXPECT_DOUBLE_EQ(out.lateral, 0.80 * kGravity);
  EXPECT_DOUBLE_EQ(out.longitudinal, 0.20 * kGravity);
  for (const Manoeuvre& turn : {in, mid, out}) {
    EXPECT_DOUBLE_EQ(turn.side_force, turn.lateral / kGravity);
    EXPECT_DOUBLE_EQ(turn.steer, mid.steer);
  }
}

TEST(Figures, SteerIsTheCornersAngleAndADegreeAndAHalf) {
  const double steer = manoeuvre_of(default_sprint_kart(), kHairpin, CornerPhase::mid).steer;
  EXPECT_NEAR(steer / kDegree, 1.04 / 8.0 / kDegree + 1.5, 1e-12);
}

TEST(Figures, AHairpinReleasesTheInsideRearSooner) {
  const SprintKart kart = default_sprint_kart();
  const Figures hairpin = figures_of(kart, kHairpin);
  const Figures sweep = figures_of(kart, kSweep);
  EXPECT_LT(hairpin.inside_rear, sweep.inside_rear);
  EXPECT_LT(*hairpin.release, *sweep.release);
}

TEST(Figures, BothRearWheelsCarryTheAxle) {
  const SprintKart kart = default_sprint_kart();
  const Figures at = figures_of(kart, kSweep);
  EXPECT_NEAR(at.outside_rear + at.inside_rear, 0.58 * 165.0 * kGravity, 1e-9);
}

TEST(Figures, PastReleaseTheInsideRearCountsBelowNothing) {
  const Figures at = figures_of(default_sprint_kart(), {2.0 * kGravity, 2.1 * kGravity, 15.0});
  EXPECT_LT(at.inside_rear, 0.0);
  EXPECT_GT(at.hop, 0.0);
  EXPECT_LT(at.hop, 1.0);
}

TEST(Figures, AKartThatReleasesAtAStandstillHasNothingToWaitFor) {
  SprintKart kart = default_sprint_kart();
  kart.twist = 3.0 * kDegree;
  EXPECT_EQ(release_of(kart, 20.0 * kDegree), 0.0);
}

TEST(Figures, AKartTooLowToTipIsNeverReleased) {
  SprintKart kart = default_sprint_kart();
  kart.mass_height = 0.10;
  kart.front_mass_height = 0.10;
  EXPECT_FALSE(release_of(kart, 0.0));
  EXPECT_EQ(figures_of(kart, kSweep).release, std::nullopt);
  EXPECT_EQ(figures_of(kart, kSweep).hop, 0.0);
}

/// A frame bent the other way holds the inside rear down until the kart tips.
TEST(Figures, AKartThatLiftsItsInsideFrontFirstIsReleasedWhereItTips) {
  SprintKart kart = default_sprint_kart();
  kart.twist = -3.0 * kDegree;
  const double steer = 3.0 * kDegree;
  ASSERT_TRUE(release_of(kart, steer));
  EXPECT_DOUBLE_EQ(*release_of(kart, steer), tips_at(kart));
  EXPECT_LT(figures_of(kart, kSweep).hop, 0.0);
}

TEST(Figures, TipsAtItsStaticStability) {
  SprintKart kart = default_sprint_kart();
  EXPECT_DOUBLE_EQ(tips_at(kart), static_stability(kart) * kGravity);
  kart.mass_left = 0.010;  // the inside, in a left turn
  EXPECT_NEAR(tips_at(kart), (static_stability(kart) + 0.010 / 0.26) * kGravity, 1e-12);
}

TEST(Figures, AHigherMassAsksForAWiderTrack) {
  EXPECT_DOUBLE_EQ(equivalent_track(1.10, 0.25, 0.25), 1.10);
  EXPECT_DOUBLE_EQ(equivalent_track(1.10, 0.25, 0.30), 1.32);
}

TEST(Figures, TheBarTurnsLaterInAHairpin) {
  const SprintKart kart = default_sprint_kart();
  EXPECT_GT(bar_turns_at(kart, 8.0).value(), bar_turns_at(kart, 25.0).value());
}

TEST(Figures, ABarThatOnlyEverTakesOffNeverTurns) {
  SprintKart kart = default_sprint_kart();
  kart.twist = -3.0 * kDegree;
  EXPECT_FALSE(bar_turns_at(kart, 25.0));
}

}  // namespace
}  // namespace kartwright
