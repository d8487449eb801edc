// What must hold of any kart in any corner.

#include <gtest/gtest.h>

#include "engine/chassis/figures.h"
#include "tests/support/sprint_karts.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

const int kPlausibleKarts = throws_of_the_dice(2000);

TEST(CornerProperty, TheLoadsSumToTheWeightAndNoWheelPulls) {
  Random random(65);
  for (int i = 0; i < throws_of_the_dice(5000); ++i) {
    const SprintKart kart = any_sprint_kart(random);
    const Cornering at = corner(kart, any_turn(random));
    ASSERT_NEAR(at.loads.total(), kart.mass * kGravity, 1e-9) << "kart " << i;
    ASSERT_NEAR(at.front_axle, at.loads.left_front + at.loads.right_front, 1e-9) << "kart " << i;
    ASSERT_NEAR(at.rear_axle, at.loads.left_rear + at.loads.right_rear, 1e-9) << "kart " << i;
    for (const double load :
         {at.loads.left_front, at.loads.right_front, at.loads.left_rear, at.loads.right_rear})
      ASSERT_GE(load, 0.0) << "kart " << i;
  }
}

/// Moments about the line under the kart's middle.
TEST(CornerProperty, TheLoadsHoldTheRollUnlessItTips) {
  Random random(66);
  for (int i = 0; i < throws_of_the_dice(5000); ++i) {
    const SprintKart kart = any_sprint_kart(random);
    const Manoeuvre turn = any_turn(random);
    const Cornering at = corner(kart, turn);
    if (at.contact == Contact::tipping) continue;
    const double held = (at.loads.right_front - at.loads.left_front) * kart.front_track / 2.0 +
                        (at.loads.right_rear - at.loads.left_rear) * kart.rear_track / 2.0;
    const double roll = kart.mass * (turn.lateral * kart.mass_height - kGravity * kart.mass_left);
    ASSERT_NEAR(held, roll, 1e-9) << "kart " << i;
  }
}

/// To the last bit: not a sum is taken in another order.
TEST(CornerProperty, AKartInAMirrorCarriesTheSameInTheOtherTurn) {
  Random random(67);
  for (int i = 0; i < throws_of_the_dice(5000); ++i) {
    const SprintKart kart = any_sprint_kart(random);
    const Manoeuvre turn = any_turn(random);
    const Cornering at = corner(kart, turn);
    const Cornering other = corner(mirrored(kart), mirrored(turn));
    ASSERT_EQ(at.contact, other.contact) << "kart " << i;
    ASSERT_EQ(at.loads.left_front, other.loads.right_front) << "kart " << i;
    ASSERT_EQ(at.loads.right_front, other.loads.left_front) << "kart " << i;
    ASSERT_EQ(at.loads.left_rear, other.loads.right_rear) << "kart " << i;
    ASSERT_EQ(at.loads.right_rear, other.loads.left_rear) << "kart " << i;
    ASSERT_EQ(at.front_transfer, -other.front_transfer) << "kart " << i;
    ASSERT_EQ(at.rear_transfer, -other.rear_transfer) << "kart " << i;
    ASSERT_EQ(at.inside_rear_lift, other.inside_rear_lift) << "kart " << i;
  }
}

SprintKart with_other_springs(Random& random, const SprintKart& kart) {
  SprintKart other = any_sprint_kart(random);
  other.mass = kart.mass;
  other.wheelbase = kart.wheelbase;
  other.front_share = kart.front_share;
  other.mass_height = kart.mass_height;
  other.mass_left = kart.mass_left;
  other.front_track = kart.front_track;
  other.rear_track = kart.rear_track;
  return other;
}

TEST(CornerProperty, OnThreeWheelsNoSpringCasterOrAxleMovesLoadAnyMore) {
  Random random(68);
  int compared = 0;
  for (int i = 0; i < throws_of_the_dice(20000); ++i) {
    const SprintKart kart = any_sprint_kart(random);
    const SprintKart other = with_other_springs(random, kart);
    Manoeuvre turn = any_turn(random);
    const Cornering at = corner(kart, turn);
    turn.steer *= 0.9;
    const Cornering then = corner(other, turn);
    if (at.contact != Contact::inside_rear_off || then.contact != Contact::inside_rear_off)
      continue;
    if ((at.rear_transfer > 0.0) != (then.rear_transfer > 0.0)) continue;
    ++compared;
    ASSERT_NEAR(at.loads.left_front, then.loads.left_front, 1e-9) << "kart " << i;
    ASSERT_NEAR(at.loads.right_front, then.loads.right_front, 1e-9) << "kart " << i;
    ASSERT_NEAR(at.loads.left_rear, then.loads.left_rear, 1e-9) << "kart " << i;
    ASSERT_NEAR(at.loads.right_rear, then.loads.right_rear, 1e-9) << "kart " << i;
  }
  EXPECT_GT(compared, throws_of_the_dice(500));
}

/// On 2,000 plausible karts in slow and fast corners with little and much grip.
template <typename Check>
void on_plausible_karts(std::uint64_t seed, const Check& check) {
  Random random(seed);
  for (int i = 0; i < kPlausibleKarts && !testing::Test::HasFatalFailure(); ++i) {
    const SprintKart kart = any_sprint_kart(random);
    const double lateral = any_between(random, 0.5, 1.4) * kGravity;
    const CornerClass in{lateral, 1.2 * lateral, any_between(random, 8.0, 30.0)};
    SCOPED_TRACE("kart " + std::to_string(i));
    check(kart, in, figures_of(kart, in));
  }
}

TEST(CornerProperty, ANarrowerRearBitesMoreAndAWiderOneLess) {
  on_plausible_karts(91, [](SprintKart kart, const CornerClass& in, const Figures& now) {
    kart.rear_track -= 0.010;
    const Figures narrower = figures_of(kart, in);
    kart.rear_track += 0.020;
    const Figures wider = figures_of(kart, in);
    ASSERT_GT(narrower.outside_rear, now.outside_rear);
    ASSERT_LT(narrower.inside_rear, now.inside_rear);
    ASSERT_LT(wider.outside_rear, now.outside_rear);
    ASSERT_GT(wider.inside_rear, now.inside_rear);
  });
}

TEST(CornerProperty, AHigherMassBitesMoreAndLetsTheInsideRearGoEarlier) {
  on_plausible_karts(92, [](SprintKart kart, const CornerClass& in, const Figures& now) {
    kart.mass_height += 0.010;
    const Figures higher = figures_of(kart, in);
    ASSERT_GT(higher.outside_rear, now.outside_rear);
    ASSERT_LT(higher.inside_rear, now.inside_rear);
    ASSERT_TRUE(now.release && higher.release);
    ASSERT_LT(*higher.release, *now.release);
    ASSERT_LT(higher.static_stability, now.static_stability);
  });
}

TEST(CornerProperty, TheSeatForwardTakesWeightForward) {
  on_plausible_karts(93, [](SprintKart kart, const CornerClass& in, const Figures& now) {
    const Manoeuvre mid = manoeuvre_of(kart, in, CornerPhase::mid);
    const Cornering before = corner(kart, mid);
    kart.front_share += 80.0 * 0.010 / (kart.mass * kart.wheelbase);
    const Cornering after = corner(kart, mid);
    const double moved = 80.0 * kGravity * 0.010 / kart.wheelbase;
    ASSERT_NEAR(after.front_axle - before.front_axle, moved, 1e-9);
    ASSERT_NEAR(after.rear_axle - before.rear_axle, -moved, 1e-9);
    const Figures forward = figures_of(kart, in);
    ASSERT_LT(forward.outside_rear, now.outside_rear);
    ASSERT_LT(forward.inside_rear, now.inside_rear);
  });
}

TEST(CornerProperty, MoreCasterLiftsTheInsideRearMore) {
  on_plausible_karts(94, [](SprintKart kart, const CornerClass& in, const Figures& now) {
    kart.caster += 1.0 * kDegree;
    const Figures more = figures_of(kart, in);
    ASSERT_GT(more.outside_rear, now.outside_rear);
    ASSERT_GT(more.response, now.response);
    ASSERT_TRUE(now.release && more.release);
    ASSERT_LT(*more.release, *now.release);
  });
}

TEST(CornerProperty, TheFrontBarAddsBiteBelowItsTurningPointAndTakesItAbove) {
  on_plausible_karts(95, [](SprintKart kart, const CornerClass& in, const Figures&) {
    kart.front_bar = 0.0;
    const std::optional<double> turns = bar_turns_at(kart, in.radius);
    SprintKart barred = kart;
    barred.front_bar = 0.35 * kart.front_frame;
    const auto adds = [&](double lateral) {
      const CornerClass at{lateral, lateral, in.radius};
      return figures_of(barred, at).outside_rear - figures_of(kart, at).outside_rear;
    };
    if (turns) {
      ASSERT_NEAR(adds(*turns), 0.0, 1e-9);
      ASSERT_GT(adds(*turns - 0.1), 0.0);
      ASSERT_LT(adds(*turns + 0.1), 0.0);
      ASSERT_NEAR(*bar_turns_at(barred, in.radius), *turns, 1e-9);
    } else {
      ASSERT_GT(adds(0.0) * adds(4.0 * kGravity), 0.0);
    }
  });
}

TEST(CornerProperty, TheInsideRearLeavesTheGroundWhereItIsSaidTo) {
  on_plausible_karts(96, [](const SprintKart& kart, const CornerClass& in, const Figures& now) {
    ASSERT_TRUE(now.release);
    const double steer = manoeuvre_of(kart, in, CornerPhase::mid).steer;
    const auto at = [&](double lateral) {
      return corner(kart, {.lateral = lateral, .steer = steer, .side_force = lateral / kGravity});
    };
    ASSERT_GT(at(*now.release - 1e-6).loads.left_rear, 0.0);
    const Cornering beyond = at(*now.release + 1e-6);
    ASSERT_EQ(beyond.loads.left_rear, 0.0);
    if (beyond.contact != Contact::inside_rear_off) return;
    ASSERT_GT(beyond.inside_rear_lift, 0.0);
    ASSERT_LT(beyond.inside_rear_lift, 1e-7);
  });
}

TEST(CornerProperty, TheHopIndexRunsFromTheInsideRearOffToBothInsideWheelsOff) {
  on_plausible_karts(97, [](const SprintKart& kart, const CornerClass& in, const Figures& now) {
    ASSERT_TRUE(now.release);
    const auto hop_at = [&](double peak) {
      return figures_of(kart, {in.lateral, peak, in.radius}).hop;
    };
    ASSERT_NEAR(hop_at(*now.release), 0.0, 1e-12);
    ASSERT_LT(hop_at(*now.release - 0.1), 0.0);
    ASSERT_LE(*now.release, tips_at(kart));
    if (*now.release == tips_at(kart)) return;
    ASSERT_NEAR(hop_at(tips_at(kart)), 1.0, 1e-9);
    const Manoeuvre tipping =
        manoeuvre_of(kart, {tips_at(kart) * (1.0 + 1e-9), 0.0, in.radius}, CornerPhase::mid);
    ASSERT_EQ(corner(kart, tipping).contact, Contact::tipping);
  });
}

}  // namespace
}  // namespace kartwright
