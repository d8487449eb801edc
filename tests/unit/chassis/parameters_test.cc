// What the physics takes from a kart file, and what it has to assume.

#include "engine/chassis/parameters.h"

#include <algorithm>
#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/default_sprint_kart.h"
#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::Contains;
using testing::Not;

KnownKart known(const std::string& text) {
  const ReadKart read = read_kart_text(text, rules());
  EXPECT_EQ(told(read.found), "");
  return known_kart(read.kart, rules()).value();
}

TEST(KnownKart, OfNoFileIsTheDefaultKartOfThePhysics) {
  const SprintKart assumed = default_kart(rules()).value().kart;
  const SprintKart expected = default_sprint_kart();
  EXPECT_DOUBLE_EQ(assumed.mass, expected.mass);
  EXPECT_NEAR(assumed.rear_track, expected.rear_track, 1e-12);
  EXPECT_NEAR(assumed.front_track, expected.front_track, 1e-12);
  EXPECT_NEAR(assumed.front_frame, expected.front_frame, 1e-6);
  EXPECT_DOUBLE_EQ(assumed.caster, expected.caster);
  EXPECT_DOUBLE_EQ(assumed.axle_modulus, expected.axle_modulus);
  const CornerClass corner{.lateral = 0.6801 * kGravity, .peak = kGravity, .radius = 15.0};
  const Figures a = figures_of(assumed, corner);
  const Figures b = figures_of(expected, corner);
  EXPECT_NEAR(a.outside_rear, b.outside_rear, 1e-9);
  EXPECT_NEAR(a.hop, b.hop, 1e-12);
}

TEST(KnownKart, TakesSettingsSizesAndScalesBeforeWhatIsAssumed) {
  const KnownKart kart = known(
      "settings: {rear-width: 1360 mm, caster: 12 deg, front-bar: in}\n"
      "dimensions: {mass-height: 0.3 m, rear-tyre-width: 180 mm}\n"
      "measured: {corner-weights: {left-front: 33 kg, right-front: 34 kg, left-rear: 46 kg, "
      "right-rear: 47 kg}}\n");
  EXPECT_NEAR(kart.kart.rear_track, 1.18, 1e-12);
  EXPECT_NEAR(kart.kart.caster, 12.0 * std::numbers::pi / 180.0, 1e-12);
  EXPECT_NEAR(kart.kart.front_bar, 0.35 * kart.kart.front_frame, 1e-9);
  EXPECT_DOUBLE_EQ(kart.kart.mass, 160.0);
  EXPECT_DOUBLE_EQ(kart.kart.front_share, 67.0 / 160.0);
  EXPECT_DOUBLE_EQ(kart.kart.mass_height, 0.3);
  for (const char* given : {"mass-height", "rear-tyre-width", "front-share", "mass-with-driver",
                            "default-rear-width", "default-caster"})
    EXPECT_THAT(kart.assumed, Not(Contains(given)));
  for (const char* assumed : {"wheelbase", "seat-mass", "default-front-width"})
    EXPECT_THAT(kart.assumed, Contains(assumed));
}

TEST(KnownKart, InPoundsAndInchesIsTheSameKart) {
  const KnownKart metric = known(
      "settings: {rear-width: 1371.6 mm}\nranges: {rear-width: {from: 1320.8 mm, to: 1397 mm, "
      "step: 12.7 mm}}\ndimensions: {mass-with-driver: "
      "163.293 kg, mass-height: 254 mm}\n");
  const KnownKart imperial = known(
      "settings: {rear-width: 54 in}\nranges: {rear-width: {from: 52 in, to: 55 in, step: 1/2 "
      "in}}\ndimensions: {mass-with-driver: 360 lb, mass-height: 10 in}\n");
  EXPECT_NEAR(metric.kart.mass, imperial.kart.mass, 1e-3);
  EXPECT_NEAR(metric.kart.rear_track, imperial.kart.rear_track, 1e-12);
  EXPECT_DOUBLE_EQ(metric.kart.mass_height, imperial.kart.mass_height);
}

TEST(KnownKart, OfRulesThatAssumeNothingIsNotKnown) {
  EXPECT_FALSE(known_kart(Kart{}, kart_pack()).has_value());
}

TEST(ChangeSetting, OfTheSeatMovesTheDriversShareOfTheMass) {
  const Kart kart = typical_kart(rules());
  KnownKart forward = known_kart(kart, rules()).value();
  const double before = forward.kart.front_share;
  change_setting(forward, *kart.setting("seat-fore-aft"), 0.02);
  EXPECT_NEAR(forward.kart.front_share - before, 80.0 * 0.02 / (165.0 * 1.04), 1e-12);
  KnownKart higher = known_kart(kart, rules()).value();
  change_setting(higher, *kart.setting("seat-height"), 0.01);
  EXPECT_NEAR(higher.kart.mass_height, 0.26 + 80.0 * 0.01 / 165.0, 1e-12);
}

TEST(ChangeSetting, ClaimsNothingOfAxleGradeHubsToeCamberAndPressures) {
  for (const char* claimed : {"rear-width", "front-width", "caster", "front-bar", "seat-fore-aft",
                              "seat-height", "ballast-fore-aft", "ballast-height"})
    EXPECT_TRUE(moves_loads(claimed)) << claimed;
  for (const char* not_claimed : {"axle", "rear-hubs", "toe", "camber", "pressures", "seat-struts",
                                  "ackermann", "bodywork", "rear-ride-height"})
    EXPECT_FALSE(moves_loads(not_claimed)) << not_claimed;
}

TEST(CornerClassOfATrack, IsHarderOnRubberThanOnAGreenTrackAndSoftestInTheWet) {
  const KnownKart kart = default_kart(rules()).value();
  const auto lateral = [&](const char* track) {
    return corner_class(kart, rules(), track).value().lateral;
  };
  EXPECT_GT(lateral("rubbered-in"), lateral("green"));
  EXPECT_GT(lateral("green"), lateral("wet"));
  EXPECT_FALSE(corner_class(kart, rules(), "unknown").has_value());
}

TEST(KnownKart, OnItsScalesHasItsMassWhereTheMomentsPutIt) {
  Kart kart = typical_kart(rules());
  kart.corner_weights = CornerLoads{40.0, 30.0, 50.0, 40.0};
  const KnownKart weighed = known_kart(kart, rules()).value();
  const double moment = 10.0 * weighed.kart.front_track + 10.0 * weighed.kart.rear_track;
  EXPECT_DOUBLE_EQ(weighed.kart.mass_left, moment / (2.0 * 160.0));
  kart.dimensions["mass-sideways"] = 0.02;  // what the crew says of it stands before
  EXPECT_EQ(known_kart(kart, rules()).value().kart.mass_left, 0.02);
}

TEST(KnownKart, HasAThirdBearingUnlessItHasTwo) {
  Kart kart = typical_kart(rules());
  EXPECT_TRUE(known_kart(kart, rules()).value().kart.middle_bearing);
  kart.dimensions["axle-bearings"] = 2.0;
  EXPECT_FALSE(known_kart(kart, rules()).value().kart.middle_bearing);
  kart.dimensions["axle-bearings"] = 3.0;
  EXPECT_TRUE(known_kart(kart, rules()).value().kart.middle_bearing);
}

TEST(KnownKart, HasTheBarsStiffnessOnlyWhereTheBarIsIn) {
  Kart kart = typical_kart(rules());
  kart.settings.at("front-bar").now = 0.0;
  EXPECT_EQ(known_kart(kart, rules()).value().kart.front_bar, 0.0);
  kart.settings.at("front-bar").now = 1.0;
  const KnownKart in = known_kart(kart, rules()).value();
  EXPECT_DOUBLE_EQ(in.kart.front_bar, in.bar_share * in.kart.front_frame);
  kart.settings.at("front-bar").now = 9.0;  // beyond the list: no position of that name
  EXPECT_EQ(known_kart(kart, rules()).value().kart.front_bar, 0.0);
  kart.settings.erase("front-bar");
  EXPECT_EQ(known_kart(kart, rules()).value().kart.front_bar, 0.0);
}

TEST(KnownKart, CornersAtTheCrewsOwnPeakWhereTheyMeasuredOne) {
  Kart kart = typical_kart(rules());
  const KnownKart usual = known_kart(kart, rules()).value();
  EXPECT_FALSE(usual.peak);
  EXPECT_DOUBLE_EQ(corner_class(usual, rules(), "green")->peak, 1.0 * kGravity);
  EXPECT_DOUBLE_EQ(corner_class(usual, rules(), "green")->lateral, 0.6801 * kGravity);
  kart.dimensions["peak-cornering"] = 1.3;
  const KnownKart measured = known_kart(kart, rules()).value();
  EXPECT_DOUBLE_EQ(corner_class(measured, rules(), "green")->peak, 1.3 * kGravity);
  Pack silent = rules();
  for (TrackState& track : silent.tracks) track.cornering.reset();
  EXPECT_FALSE(corner_class(usual, silent, "green"));
}

TEST(ChangeSetting, OfEveryOtherSettingMovesWhatItIsOf) {
  Kart kart = typical_kart(rules());
  for (const char* ballast : {"ballast-fore-aft", "ballast-height"}) {
    kart.settings[ballast] = {.adjustment = rules().adjustment(ballast),
                              .now = 0.1,
                              .travel = {.places = {0.0, 0.1}, .names = {}},
                              .limit = {}};
  }
  const KnownKart before = known_kart(kart, rules()).value();
  const auto after = [&](const char* setting, double to) {
    KnownKart known = before;
    change_setting(known, *kart.setting(setting), to);
    return known.kart;
  };
  EXPECT_NEAR(after("ballast-fore-aft", 0.3).front_share - before.kart.front_share,
              5.0 * 0.2 / (165.0 * 1.04), 1e-12);
  EXPECT_NEAR(after("ballast-height", 0.3).mass_height - before.kart.mass_height, 5.0 * 0.2 / 165.0,
              1e-12);
  EXPECT_NEAR(after("rear-width", 1.40).rear_track, 1.40 - before.rear_tyre_width, 1e-12);
  EXPECT_NEAR(after("front-width", 1.25).front_track, 1.25 - before.front_tyre_width, 1e-12);
  EXPECT_EQ(after("caster", 0.3).caster, 0.3);
  EXPECT_DOUBLE_EQ(after("front-bar", 1.0).front_bar, before.bar_share * before.kart.front_frame);
  EXPECT_EQ(after("front-bar", 0.0).front_bar, 0.0);
}

}  // namespace
}  // namespace kartwright
