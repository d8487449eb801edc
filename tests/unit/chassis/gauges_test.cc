// The arithmetic of measured checks against numbers worked by hand.

#include "engine/chassis/gauges.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

namespace kartwright {
namespace {

constexpr double kDegreeOfArc = std::numbers::pi / 180.0;
constexpr double kBar = 1e5;

double worked_out(Formula formula, const std::vector<Amounts>& inputs, double by = 1.0) {
  const auto value = work_out(formula, inputs, by);
  EXPECT_TRUE(value.has_value()) << name_of(formula);
  return value.value_or(NAN);
}

Amounts bars(double lf, double rf, double lr, double rr) {
  return {lf * kBar, rf * kBar, lr * kBar, rr * kBar};
}

TEST(ChainGauge, ThirtyFourLessTwentyIsFourteen) {
  EXPECT_NEAR(worked_out(Formula::difference, {{0.034}, {0.020}}), 0.014, 1e-15);
}

TEST(ToeGauge, WiderInFrontIsOutAndPositive) {
  EXPECT_NEAR(worked_out(Formula::difference, {{1.012}, {1.010}}), 0.002, 1e-15);
  EXPECT_LT(worked_out(Formula::difference, {{1.009}, {1.010}}), 0.0);
}

// sin of half the angle is 1 mm in 260 mm: 0.2204 deg a wheel.
TEST(ToeGauge, TwoMillimetresOverATyreOfTwoHundredAndSixtyAreFortyFourHundredthsOfADegree) {
  EXPECT_NEAR(worked_out(Formula::toe_angle, {{1.012}, {1.010}, {0.260}}), 0.4407 * kDegreeOfArc,
              5e-5 * kDegreeOfArc);
}

TEST(ToeGauge, ThreeMillimetresInFiveHundredAndTwentyBothWaysAreMirrorImages) {
  const auto out = toe_angle(1.003, 1.000, 0.52);
  const auto in = toe_angle(1.000, 1.003, 0.52);
  ASSERT_TRUE(out && in);
  EXPECT_DOUBLE_EQ(*out, -*in);
}

TEST(ToeGauge, NoWheelsStandAcross) {
  EXPECT_FALSE(toe_angle(1.6, 1.0, 0.26).has_value());
  EXPECT_FALSE(toe_angle(1.01, 1.0, 0.0).has_value());
}

TEST(RunOutGauge, TheBendIsHalfTheSwing) {
  EXPECT_DOUBLE_EQ(worked_out(Formula::half, {{0.0006}}), 0.0003);
}

// Rises 0.20, 0.18, 0.15, 0.13 bar: mean 0.165; fronts 0.19 against 0.14; lefts 0.175 against
// 0.155.
TEST(PressureGauge, RisesOfFourTyres) {
  const Amounts cold = bars(0.75, 0.75, 0.70, 0.70);
  const Amounts hot = bars(0.95, 0.93, 0.85, 0.83);
  EXPECT_NEAR(worked_out(Formula::mean_rise, {hot, cold}), 0.165 * kBar, 1e-6);
  EXPECT_NEAR(worked_out(Formula::front_over_rear_rise, {hot, cold}), 0.05 * kBar, 1e-6);
  EXPECT_NEAR(worked_out(Formula::left_over_right_rise, {hot, cold}), 0.02 * kBar, 1e-6);
}

TEST(PressureGauge, TheAxleThatIsFartherApartCounts) {
  EXPECT_NEAR(worked_out(Formula::side_difference, {bars(0.75, 0.74, 0.62, 0.70)}), 0.08 * kBar,
              1e-6);
}

// Rises 0.20, -0.05, 0.22, 0.21 bar; the right front is (0.63 / 3 + 0.05) behind the others.
TEST(PressureGauge, ATyreThatLostAirIsTheOneBehind) {
  const std::vector<Amounts> in{bars(0.95, 0.70, 0.92, 0.91), bars(0.75, 0.75, 0.70, 0.70)};
  EXPECT_NEAR(worked_out(Formula::least_rise, in), -0.05 * kBar, 1e-6);
  EXPECT_NEAR(worked_out(Formula::most_rise, in), 0.22 * kBar, 1e-6);
  EXPECT_NEAR(worked_out(Formula::rise_behind, in), 0.26 * kBar, 1e-6);
  const Amounts behind = by_tyre(Formula::rise_behind, in);
  EXPECT_EQ(std::max_element(behind.begin(), behind.end()) - behind.begin(), 1);
  EXPECT_EQ(tyre_at(1), "right front");
}

TEST(PressureGauge, TheLowerTyreOfAnAxleIsTheOneThatFallsShort) {
  const Amounts shorter =
      by_tyre(Formula::side_difference, std::vector<Amounts>{bars(0.75, 0.74, 0.62, 0.70)});
  ASSERT_EQ(shorter.size(), 4U);
  EXPECT_NEAR(shorter[1], 0.01 * kBar, 1e-6);
  EXPECT_NEAR(shorter[2], 0.08 * kBar, 1e-6);
  EXPECT_NEAR(shorter[3], -0.08 * kBar, 1e-6);
  EXPECT_TRUE(by_tyre(Formula::half, std::vector<Amounts>{{1.0}}).empty());
}

// A published example: 20 and 63 teeth, 36 pitches apart, 114.8 pitches; 114 give 35.6.
TEST(ChainLengthGauge, TwentyAndSixtyThreeTeethAtThirtySixPitches) {
  constexpr double kPitch = 0.0127;
  EXPECT_DOUBLE_EQ(worked_out(Formula::chain_links, {{20}, {63}, {kPitch}, {36 * kPitch}}), 114.0);
  EXPECT_NEAR(worked_out(Formula::chain_distance, {{20}, {63}, {kPitch}, {114}}) / kPitch, 35.6,
              0.05);
}

// L - (n + N) / 2 = 64.5, ((N - n) / 2 pi)^2 = 120.60: C = (64.5 + 56.53) / 4 = 30.257 pitches.
TEST(ChainLengthGauge, ElevenAndEightyTeethOnAHundredAndTenLinksOf219) {
  EXPECT_NEAR(worked_out(Formula::chain_distance, {{11}, {80}, {0.007774}, {110}}), 0.2352, 5e-5);
}

TEST(ChainLengthGauge, WhichSprocketIsTheSmallOnePlaysNoPart) {
  EXPECT_DOUBLE_EQ(worked_out(Formula::chain_distance, {{11}, {80}, {0.007774}, {110}}),
                   worked_out(Formula::chain_distance, {{80}, {11}, {0.007774}, {110}}));
}

TEST(ChainLengthGauge, TwoTeethMoreBehindBringTheEngineNearer) {
  const double before = worked_out(Formula::chain_distance, {{11}, {80}, {0.007774}, {110}});
  const double after = worked_out(Formula::chain_distance, {{11}, {82}, {0.007774}, {110}});
  EXPECT_LT(after, before);
}

TEST(ChainLengthGauge, AChainTooShortGoesRoundNothing) {
  EXPECT_FALSE(
      work_out(Formula::chain_distance, std::vector<Amounts>{{11}, {80}, {0.007774}, {50}}, 1.0)
          .has_value());
}

TEST(ChainLengthGauge, OddLinksAreSeen) {
  EXPECT_DOUBLE_EQ(worked_out(Formula::odd, {{109}}), 1.0);
  EXPECT_DOUBLE_EQ(worked_out(Formula::odd, {{110}}), 0.0);
}

TEST(Gauges, ASharePlainlyMultiplies) {
  EXPECT_DOUBLE_EQ(worked_out(Formula::times, {{0.25}}, 0.04), 0.01);
  EXPECT_DOUBLE_EQ(worked_out(Formula::itself, {{0.25}}), 0.25);
}

TEST(Gauges, EveryFormulaIsFoundByItsName) {
  for (int i = 0; i <= static_cast<int>(Formula::odd); ++i) {
    const auto formula = static_cast<Formula>(i);
    EXPECT_EQ(formula_named(name_of(formula)), formula);
  }
  EXPECT_EQ(formula_named("sum"), std::nullopt);
}

TEST(ToeAngle, OfMarksNowhereApartIsNoneAndASquareOneStill) {
  EXPECT_FALSE(toe_angle(0.1, 0.1, 0.0));
  EXPECT_FALSE(toe_angle(0.1, 0.1, -0.5));
  EXPECT_FALSE(toe_angle(1.0, 0.0, 0.4));
  EXPECT_NEAR(toe_angle(0.8, 0.0, 0.4).value(), std::numbers::pi, 1e-12);  // sine of one, twice
}

}  // namespace
}  // namespace kartwright
