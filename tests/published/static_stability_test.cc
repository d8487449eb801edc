// The static stability factor: its definition, and what it says of a rigid car.

#include <cmath>

#include <gtest/gtest.h>

#include "engine/chassis/figures.h"
#include "tests/support/sprint_karts.h"

namespace kartwright {
namespace {

SprintKart on_even_tracks(SprintKart kart, double track) {
  kart.front_track = kart.rear_track = track;
  return kart;
}

/// Both ends alike and no steering: half the weight, half the springs, an axle without overhang.
SprintKart alike_at_both_ends(double track, double height) {
  SprintKart kart = on_even_tracks(default_sprint_kart(), track);
  kart.mass_height = kart.front_mass_height = height;
  kart.front_share = kart.front_mass_share = 0.5;
  kart.rear_tyre = kart.front_tyre;
  kart.carrier = kart.spindle;
  kart.bearing_half_distance = track / 2.0;
  return kart;
}

// NHTSA, nhtsa.dot.gov/cars/rules/rulings/Rollover/Chapt05.html (verified): track over twice the
// height of the centre of mass. The number is ours: 1.5 m and 0.5 m make 1.5.
TEST(PublishedStaticStability, IsTrackOverTwiceTheHeight) {
  EXPECT_NEAR(static_stability(alike_at_both_ends(1.5, 0.5)), 1.5, 1e-12);
}

// isdacenter.org/vehicle-static-stability-factor (verified): cars lie between 1.30 and 1.50, all
// vehicles between 1.00 and 1.50. A kart lies far above: no table for cars is for it.
TEST(PublishedStaticStability, OfAKartIsBeyondAnyCar) {
  EXPECT_GT(static_stability(default_sprint_kart()), 2.0);
}

// The same page of NHTSA (verified): it is the lateral acceleration, in g, at which a rigid vehicle
// begins to tip. Tracks alike and both ends alike, so that no end lifts before the other: 1e-12.
TEST(PublishedStaticStability, IsWhereARigidVehicleLiftsItsInsideWheels) {
  Random random(81);
  for (int i = 0; i < 200; ++i) {
    const SprintKart car =
        alike_at_both_ends(any_between(random, 1.0, 1.6), any_between(random, 0.3, 0.7));
    const double factor = static_stability(car);
    const std::optional<double> release = release_of(car, 0.0);
    ASSERT_TRUE(release) << "car " << i;
    ASSERT_NEAR(*release / kGravity, factor, 1e-12) << "car " << i;
    const Cornering at = corner(car, {.lateral = *release});
    ASSERT_NEAR(at.loads.left_front + at.loads.left_rear, 0.0, 1e-9) << "car " << i;
  }
}

/// However it springs, and whichever end lifts first: moments about the outside wheels.
TEST(PublishedStaticStability, IsWhereAnyKartOnEvenTracksTips) {
  Random random(82);
  for (int i = 0; i < 1000; ++i) {
    SprintKart kart = on_even_tracks(any_sprint_kart(random), any_between(random, 1.0, 1.3));
    kart.mass_left = 0.0;
    const double tips = static_stability(kart) * kGravity;
    const double steer = any_between(random, 0.0, 10.0) * kDegree;
    const Cornering before = corner(kart, {.lateral = tips * (1.0 - 1e-9), .steer = steer});
    ASSERT_NE(before.contact, Contact::tipping) << "kart " << i;
    ASSERT_NEAR(before.loads.left_front + before.loads.left_rear, 0.0, 1e-5) << "kart " << i;
    const Cornering after = corner(kart, {.lateral = tips * (1.0 + 1e-9), .steer = steer});
    ASSERT_EQ(after.contact, Contact::tipping) << "kart " << i;
  }
}

// jiskha.com/questions/458604 (formula and inputs verified, the number ours, g = 9.81): radius 20
// m, height 1 m, track 1.8 m; v = sqrt(R g L / 2h) = 13.29 m/s, the factor 0.9.
TEST(PublishedStaticStability, GivesTheSpeedOfRollover) {
  const double factor = static_stability(alike_at_both_ends(1.8, 1.0));
  EXPECT_NEAR(factor, 0.9, 1e-12);
  EXPECT_NEAR(std::sqrt(20.0 * 9.81 * factor), 13.29, 0.005);
}

}  // namespace
}  // namespace kartwright
