// What of a kart can be moved, between which places, and what such a move is called.

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/chassis/mass_moves.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::ElementsAre;

std::vector<std::string> mount_names(const Movable& movable) {
  std::vector<std::string> names;
  for (const Mount& mount : movable.mounts) names.push_back(mount.name);
  return names;
}

class MassMoves : public testing::Test {
 protected:
  std::vector<Movable> movables() const {
    return movables_of(kart_, known_kart(kart_, rules()).value(), System::metric);
  }
  std::vector<std::string> names() const {
    std::vector<std::string> out;
    for (const Movable& movable : movables()) out.push_back(movable.name);
    return out;
  }
  Movable movable(std::string_view name) const {
    const std::vector<Movable> all = movables();
    return *std::find_if(all.begin(), all.end(), [&](const Movable& m) { return m.name == name; });
  }
  Unbalanced unbalanced(const CornerLoads& on) const {
    return {.on = on,
            .wheelbase = 1.04,
            .front_track = 1.1,
            .rear_track = 1.15,
            .front = {0.41, 0.43},
            .left = {0.49, 0.51}};
  }

  /// The typical kart with a mount of lead.
  static Kart kart_with_lead() {
    Kart kart = typical_kart(rules());
    Setting lead = kart.settings.at("seat-fore-aft");
    lead.adjustment = rules().adjustment("ballast-fore-aft");
    kart.settings["ballast-fore-aft"] = lead;
    return kart;
  }

  Kart kart_ = kart_with_lead();
};

TEST_F(MassMoves, AreOfSeatBallastAndWhatIsCarried) {
  EXPECT_THAT(names(), ElementsAre("seat-fore-aft", "ballast-fore-aft"));
  kart_.seat_sideways = SeatSideways{0.0, {-0.01, 0.0, 0.01}};
  kart_.carried.push_back({"lead", 5.0, {{"floor", 0.1, 0.0, 0.0}, {"seat", 0.4, 0.2, 0.3}}, 0, 4});
  EXPECT_THAT(names(), ElementsAre("seat-fore-aft", "seat sideways", "ballast-fore-aft", "lead"));
  kart_.settings.erase("ballast-fore-aft");
  kart_.settings.erase("seat-fore-aft");
  EXPECT_THAT(names(), ElementsAre("seat sideways", "lead"));
}

TEST_F(MassMoves, TheSeatSidewaysIsNamedByTheSideItStandsOn) {
  kart_.seat_sideways = SeatSideways{0.01, {-0.01, 0.0, 0.01}};
  const Movable seat = movable("seat sideways");
  EXPECT_THAT(mount_names(seat), ElementsAre("10 mm right", "0 mm", "10 mm left"));
  EXPECT_EQ(seat.at, 2U);
  EXPECT_EQ(seat.mounts[2].left, 0.01);
  EXPECT_EQ(seat.minutes, kart_.setting("seat-fore-aft")->minutes);
}

TEST_F(MassMoves, ASeatThatOnlyGoesSidewaysTakesNoMinutesThatAreKnown) {
  kart_.settings.erase("seat-fore-aft");
  kart_.seat_sideways = SeatSideways{0.0, {0.0, 0.01}};
  EXPECT_EQ(movable("seat sideways").minutes, 0.0);
}

TEST_F(MassMoves, WhereTheSeatStandsIsAPlaceEvenOutsideTheSteps) {
  Setting& seat = kart_.settings.at("seat-fore-aft");
  const std::size_t places = movable("seat-fore-aft").mounts.size();
  seat.now = seat.travel.places.front() + seat.travel.step / 3.0;
  const Movable between = movable("seat-fore-aft");
  EXPECT_EQ(between.mounts.size(), places + 1);
  EXPECT_EQ(between.at, 1U);
  EXPECT_EQ(between.mounts[1].forward, seat.now);
  seat.now = seat.travel.places.back() + seat.travel.step;
  const Movable beyond = movable("seat-fore-aft");
  EXPECT_EQ(beyond.at, places);
  EXPECT_EQ(beyond.mounts.back().forward, seat.now);
}

TEST_F(MassMoves, AHeavySideSendsTheSeatToTheOther) {
  kart_.settings.erase("ballast-fore-aft");
  kart_.settings.erase("seat-fore-aft");
  kart_.seat_sideways = SeatSideways{0.0, {-0.04, -0.02, 0.0, 0.02, 0.04}};
  const auto first_step = [&](const CornerLoads& on) {
    const auto plans = move_plans(kart_, unbalanced(on), movables(), 0.1);
    return plans.empty() || plans[0].steps.empty() ? "" : plans[0].steps[0].what;
  };
  EXPECT_EQ(first_step({37.5, 33.0, 51.5, 46.0}), "seat to the right");
  EXPECT_EQ(first_step({33.0, 37.5, 46.0, 51.5}), "seat to the left");
}

TEST_F(MassMoves, APlanIsNotLegalUnderTheClassWeight) {
  const CornerLoads rear_heavy{33.0, 33.0, 50.0, 50.0};
  const auto plans = move_plans(kart_, unbalanced(rear_heavy), movables(), 0.1);
  ASSERT_FALSE(plans.empty());
  EXPECT_TRUE(plans[0].legal);
  EXPECT_EQ(plans[0].steps[0].what, "seat forward");
  kart_.minimum_weight = 167.0;
  EXPECT_FALSE(move_plans(kart_, unbalanced(rear_heavy), movables(), 0.1)[0].legal);
  kart_.minimum_weight = 166.0;
  EXPECT_TRUE(move_plans(kart_, unbalanced(rear_heavy), movables(), 0.1)[0].legal);
}

TEST(MovesTried, AreFewerWhereThePlacesAreMany) {
  const auto with_places = [](std::size_t masses, std::size_t places) {
    std::vector<Movable> movables(masses);
    for (Movable& movable : movables) movable.mounts.resize(places);
    return most_moves_tried(movables);
  };
  EXPECT_EQ(with_places(3, 10), 3);
  EXPECT_EQ(with_places(3, 200), 2);      // 199^3 sets of three
  EXPECT_EQ(with_places(2, 1'000), 1);    // 999^2 pairs
  EXPECT_EQ(with_places(1, 300'000), 1);  // one at the least
  EXPECT_EQ(with_places(0, 0), 3);
}

}  // namespace
}  // namespace kartwright
