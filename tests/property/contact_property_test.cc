// The corner in closed form against the contact problem solved the long way: all sixteen sets of
// wheels on the ground, each as eight equations.

#include <array>
#include <map>

#include <gtest/gtest.h>

#include "tests/support/contact_sets.h"
#include "tests/support/sprint_karts.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

const int kKarts = throws_of_the_dice(5000);
constexpr double kNewton = 1e-9;

std::array<double, 4> wheel_by_wheel(const CornerLoads& on) {
  return {on.left_front, on.right_front, on.left_rear, on.right_rear};
}

Contact contact_of(const std::optional<naive::Stand>& stand) {
  if (!stand) return Contact::tipping;
  const auto& on = stand->on_the_ground;
  if (!on[2] || !on[3]) return Contact::inside_rear_off;
  return on[0] && on[1] ? Contact::all_four : Contact::inside_front_off;
}

void expect_the_same(const Cornering& at, const naive::Stand& stand) {
  const std::array<double, 4> ours = wheel_by_wheel(at.loads);
  const std::array<double, 4> theirs = wheel_by_wheel(stand.loads);
  for (std::size_t wheel = 0; wheel < 4; ++wheel)
    ASSERT_NEAR(ours[wheel], theirs[wheel], kNewton) << "wheel " << wheel;
  ASSERT_NEAR(at.inside_rear_lift, std::max(stand.above[2], stand.above[3]), 1e-12);
}

TEST(ContactProperty, EqualsTheOneOfSixteenSetsThatStands) {
  Random random(61);
  std::map<Contact, int> seen;
  for (int i = 0; i < kKarts; ++i) {
    const SprintKart kart = any_sprint_kart(random);
    const Manoeuvre turn = any_turn(random);
    const Cornering at = corner(kart, turn);
    const std::optional<naive::Stand> stand = naive::stand_of(kart, turn);
    ASSERT_EQ(at.contact, contact_of(stand)) << "kart " << i;
    if (stand) expect_the_same(at, *stand);
    if (HasFatalFailure()) FAIL() << "kart " << i;
    ++seen[at.contact];
  }
  for (const Contact contact :
       {Contact::all_four, Contact::inside_rear_off, Contact::inside_front_off, Contact::tipping})
    EXPECT_GT(seen[contact], kKarts / 100) << static_cast<int>(contact);
}

/// Nothing a kart would do: a frame that was bent by degrees, and any turn.
TEST(ContactProperty, HoldsForBentFramesToo) {
  Random random(62);
  for (int i = 0; i < kKarts; ++i) {
    SprintKart kart = any_sprint_kart(random);
    kart.twist = any_between(random, -8.0, 8.0) * kDegree;
    kart.front_share = any_between(random, 0.3, 0.7);
    const Manoeuvre turn = any_turn(random);
    const Cornering at = corner(kart, turn);
    const std::optional<naive::Stand> stand = naive::stand_of(kart, turn);
    ASSERT_EQ(at.contact, contact_of(stand)) << "kart " << i;
    if (stand) expect_the_same(at, *stand);
    if (HasFatalFailure()) FAIL() << "kart " << i;
  }
}

TEST(ContactProperty, TheAxleIsThatOfVirtualWork) {
  Random random(63);
  for (int i = 0; i < kKarts; ++i) {
    const SprintKart kart = any_sprint_kart(random);
    const double side_force = any_between(random, -2.0, 2.0);
    const AxleCompliance ours = axle_compliance(kart, side_force);
    const AxleCompliance theirs = naive::axle_by_virtual_work(kart, side_force);
    const double close = 1e-11 * theirs.left_left;
    ASSERT_NEAR(ours.left_left, theirs.left_left, close) << "kart " << i;
    ASSERT_NEAR(ours.left_right, theirs.left_right, close) << "kart " << i;
    ASSERT_NEAR(ours.right_left, theirs.right_left, close) << "kart " << i;
    ASSERT_NEAR(ours.right_right, theirs.right_right, close) << "kart " << i;
  }
}

TEST(ContactProperty, TheSteeringIsATurnAboutTheKingpinInSpace) {
  Random random(64);
  for (int i = 0; i < kKarts; ++i) {
    const SprintKart kart = any_sprint_kart(random);
    const double steer = any_between(random, -40.0, 40.0) * kDegree;
    const FrontPush ours = front_push(kart, steer);
    const FrontPush theirs = naive::push_by_rotation(kart, steer);
    ASSERT_NEAR(ours.left, theirs.left, 1e-15) << "kart " << i;
    ASSERT_NEAR(ours.right, theirs.right, 1e-15) << "kart " << i;
  }
}

}  // namespace
}  // namespace kartwright
