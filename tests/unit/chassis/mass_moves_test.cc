// What of a kart can be moved, and the moves that bring its weight into the bands.

#include "engine/chassis/mass_moves.h"

#include <gtest/gtest.h>

#include "tests/support/pit.h"

namespace kartwright {
namespace {

std::vector<Movable> movable(const Kart& kart) {
  return movables_of(kart, known_kart(kart, rules()).value(), System::metric);
}

const Movable& named(const std::vector<Movable>& all, std::string_view name) {
  for (const Movable& each : all) {
    if (each.name == name) return each;
  }
  throw std::out_of_range(std::string(name));
}

/// So many places, a metre apart, the mass on the first.
Movable with_places(std::size_t many) {
  Movable movable{.name = "lead", .mass = 1.0, .mounts = {}};
  for (std::size_t i = 0; i < many; ++i)
    movable.mounts.push_back({.name = "here", .forward = static_cast<double>(i)});
  return movable;
}

TEST(Movables, AreTheSeatWithItsDriverTheBallastAndWhatIsCarried) {
  Kart kart = typical_kart(rules());
  kart.seat_sideways = SeatSideways{.at = 0.0, .places = {-0.02, 0.0, 0.02}};
  kart.carried.push_back({"lead plate", 4.0, {{"front", 0.5, 0.1, 0.2}, {"rear", 0, 0, 0}}, 1, 8});
  const std::vector<Movable> all = movable(kart);

  const Movable& along = named(all, "seat-fore-aft");
  EXPECT_EQ(along.mass, 80.0);
  EXPECT_EQ(along.mounts.at(along.at).forward, kart.setting("seat-fore-aft")->now);
  EXPECT_EQ(along.minutes, kart.setting("seat-fore-aft")->minutes);

  const Movable& across = named(all, "seat sideways");
  EXPECT_EQ(across.mass, 80.0);
  EXPECT_EQ(across.at, 1U);
  EXPECT_EQ(across.minutes, along.minutes);
  ASSERT_EQ(across.mounts.size(), 3U);
  EXPECT_EQ(across.mounts[0].name, "20 mm right");
  EXPECT_EQ(across.mounts[1].name, "0 mm");
  EXPECT_EQ(across.mounts[2].name, "20 mm left");
  EXPECT_EQ(across.mounts[2].left, 0.02);
  EXPECT_EQ(across.mounts[2].forward, 0.0);

  const Movable& plate = named(all, "lead plate");
  EXPECT_EQ(plate.mass, 4.0);
  EXPECT_EQ(plate.at, 1U);
  EXPECT_EQ(plate.minutes, 8.0);
  EXPECT_EQ(plate.mounts.at(0).forward, 0.5);
  EXPECT_EQ(plate.mounts.at(0).left, 0.1);
  EXPECT_EQ(plate.mounts.at(0).up, 0.2);
}

TEST(Movables, OfAKartWithoutSeatOrBallastAreNone) {
  Kart kart = typical_kart(rules());
  kart.settings.erase("seat-fore-aft");
  kart.settings.erase("ballast-fore-aft");
  EXPECT_TRUE(movable(kart).empty());
  // A seat that only goes across has no time of its own.
  kart.seat_sideways = SeatSideways{.at = 0.0, .places = {0.0, 0.01}};
  EXPECT_EQ(movable(kart).at(0).minutes, 0.0);
}

TEST(Movables, StandAmongTheirLegalPlacesEvenWhereTheyAreOnNone) {
  Kart kart = typical_kart(rules());
  Setting& seat = kart.settings.at("seat-fore-aft");
  seat.travel.places = {-0.02, -0.01, 0.0, 0.01, 0.02};
  seat.limit.at_most = 0.01;
  seat.now = 0.004;  // between two steps
  const Movable between = named(movable(kart), "seat-fore-aft");
  ASSERT_EQ(between.mounts.size(), 5U);
  EXPECT_EQ(between.at, 3U);
  EXPECT_EQ(between.mounts[3].forward, 0.004);
  EXPECT_EQ(between.mounts[4].forward, 0.01);
  seat.now = 0.02;  // beyond what the class allows: it stands there all the same
  const Movable beyond = named(movable(kart), "seat-fore-aft");
  ASSERT_EQ(beyond.mounts.size(), 5U);
  EXPECT_EQ(beyond.at, 4U);
}

TEST(MovesTried, AreThreeAtOnceUnlessThePlacesAreTooMany) {
  EXPECT_EQ(most_moves_tried({with_places(2)}), 3);
  EXPECT_EQ(most_moves_tried({}), 3);
  // 3 * 100 + 3 * 100^2 + 100^3 ways: more than two hundred thousand only with the third.
  EXPECT_EQ(most_moves_tried({with_places(101), with_places(101), with_places(101)}), 2);
  // 600 + 120,000 with two; 450^2 alone is over.
  EXPECT_EQ(most_moves_tried({with_places(301), with_places(301)}), 3);
  EXPECT_EQ(most_moves_tried({with_places(451), with_places(451)}), 1);
  // One at a time is always tried.
  EXPECT_EQ(most_moves_tried({with_places(300'001)}), 1);
}

TEST(MovePlans, NameWhatIsMovedWhichWayAndWhetherTheClassStillAllowsTheWeight) {
  Kart kart = typical_kart(rules());
  kart.seat_sideways = SeatSideways{.at = 0.0, .places = {-0.02, 0.0, 0.02}};
  kart.minimum_weight = 160.0;
  const Unbalanced leaning{.on = {35.0, 33.0, 47.0, 45.0},
                           .wheelbase = 1.04,
                           .front_track = 1.1,
                           .rear_track = 1.18,
                           .front = {0.42, 0.43},
                           .left = {0.49, 0.51}};
  const std::vector<MovePlan> plans = move_plans(kart, leaning, movable(kart), 0.1);
  ASSERT_FALSE(plans.empty());
  EXPECT_LE(plans.size(), 3U);
  const MovePlan& best = plans.front();
  ASSERT_EQ(best.steps.size(), 1U);
  EXPECT_EQ(best.steps[0].id, "seat sideways");
  EXPECT_EQ(best.steps[0].what, "seat to the right");
  EXPECT_EQ(best.steps[0].from, "0 mm");
  EXPECT_EQ(best.steps[0].to, "20 mm right");
  EXPECT_EQ(best.steps[0].mass, 80.0);
  EXPECT_TRUE(best.reaches);
  EXPECT_TRUE(best.legal);
  EXPECT_GT(best.shares.left.sd, 0.0);

  kart.minimum_weight = 160.5;  // the kart weighs 160
  EXPECT_FALSE(move_plans(kart, leaning, movable(kart), 0.1).front().legal);
  const Unbalanced other{.on = {33.0, 35.0, 45.0, 47.0},
                         .wheelbase = 1.04,
                         .front_track = 1.1,
                         .rear_track = 1.18,
                         .front = {0.42, 0.43},
                         .left = {0.49, 0.51}};
  EXPECT_EQ(move_plans(kart, other, movable(kart), 0.1).front().steps[0].what, "seat to the left");
}

TEST(MovePlans, SayHowMuchHigherTheMassComes) {
  Kart kart = typical_kart(rules());
  kart.settings.erase("seat-fore-aft");
  kart.settings.erase("ballast-fore-aft");
  kart.carried.push_back({"lead", 8.0, {{"low", 0, 0.3, 0.1}, {"high", 0, -0.3, 0.4}}, 0, 5});
  const Unbalanced leaning{.on = {36.0, 32.0, 48.0, 44.0},
                           .wheelbase = 1.04,
                           .front_track = 1.1,
                           .rear_track = 1.18,
                           .front = {0.42, 0.43},
                           .left = {0.49, 0.51}};
  const std::vector<MovePlan> plans = move_plans(kart, leaning, movable(kart), 0.1);
  ASSERT_EQ(plans.size(), 1U);
  EXPECT_EQ(plans[0].steps.at(0).what, "lead");
  EXPECT_DOUBLE_EQ(plans[0].higher, 8.0 * 0.3 / 160.0);
  EXPECT_EQ(plans[0].minutes, 5.0);
}

}  // namespace
}  // namespace kartwright
