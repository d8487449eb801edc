// A change on paper in the words of the pits, and the classes of corner it is tried in.

#include "engine/chassis/on_paper.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "tests/support/pit.h"

namespace kartwright {
namespace {

Figures loads(double outside, double inside, std::optional<double> release = {}) {
  Figures figures;
  figures.outside_rear = outside;
  figures.inside_rear = inside;
  figures.release = release;
  return figures;
}

TEST(PatchLine, OfAMassAsHighAsTheTyreIsFarOutStandsAtHalfARightAngle) {
  const PatchLine line = patch_line(0.6, 0.3);
  EXPECT_DOUBLE_EQ(line.angle, std::numbers::pi / 4.0);
  EXPECT_DOUBLE_EQ(line.upright, std::sqrt(0.5));
  EXPECT_DOUBLE_EQ(line.sideways, std::sqrt(0.5));
}

TEST(PatchLine, OfAWiderRearLiesFlatterAndPushesMoreSideways) {
  const PatchLine line = patch_line(0.8, 0.3);  // three, four and five
  EXPECT_DOUBLE_EQ(line.angle, std::atan2(3.0, 4.0));
  EXPECT_DOUBLE_EQ(line.upright, 0.6);
  EXPECT_DOUBLE_EQ(line.sideways, 0.8);
}

TEST(RearLoads, WithTheInsideRearOffTheOutsideCarriesTheAxleAndNoMore) {
  const RearLoads on = rear_loads(loads(900.0, 40.0));
  EXPECT_EQ(on.outside, 900.0);
  EXPECT_EQ(on.inside, 40.0);
  const RearLoads off = rear_loads(loads(980.0, -40.0));
  EXPECT_EQ(off.outside, 940.0);
  EXPECT_EQ(off.inside, 0.0);
}

TEST(LoadChange, IsToldWheelByWheelWithTheRelease) {
  EXPECT_EQ(load_change(loads(700.0, 240.0, 1.68 * kGravity), loads(695.4, 244.6, 1.70 * kGravity)),
            "4.6 N less on the outside rear, 4.6 N more on the inside rear, released at 1.70 g "
            "instead of 1.68");
  EXPECT_EQ(load_change(loads(700.0, 240.0), loads(725.2, 240.0)), "25 N more on the outside rear");
}

TEST(LoadChange, OfTwentyNewtonsAndMoreHasNoTenths) {
  EXPECT_EQ(load_change(loads(700.0, 240.0), loads(719.875, 240.0)),
            "19.9 N more on the outside rear");
  EXPECT_EQ(load_change(loads(700.0, 240.0), loads(720.0, 240.0)), "20 N more on the outside rear");
}

TEST(LoadChange, TooSmallToBeFeltStaysAsItIs) {
  EXPECT_EQ(load_change(loads(700.0, 240.0), loads(700.04, 239.96)), "the loads stay as they are");
  EXPECT_EQ(load_change(loads(700.0, 240.0, 16.0), loads(700.0, 240.0, 16.0)),
            "the loads stay as they are");
  EXPECT_EQ(load_change(loads(700.0, 240.0, 16.0), loads(701.0, 240.0, 16.0)),
            "1.0 N more on the outside rear, released at 1.63 g as before");
  EXPECT_EQ(load_change(loads(700.0, 240.0, 1.6 * kGravity), loads(700.0, 240.0, 1.7 * kGravity)),
            "the loads stay as they are, released at 1.70 g instead of 1.60");
}

TEST(LoadChange, SaysWhereTheInsideRearLeavesTheGroundOrComesBack) {
  EXPECT_EQ(load_change(loads(900.0, 40.0), loads(945.0, -5.0)),
            "40 N more on the outside rear, 40 N less on the inside rear, the inside rear off the "
            "ground");
  EXPECT_EQ(load_change(loads(945.0, -5.0), loads(900.0, 40.0)),
            "40 N less on the outside rear, 40 N more on the inside rear, the inside rear back on "
            "the ground");
  EXPECT_EQ(load_change(loads(945.0, -5.0), loads(950.0, -10.0)), "the loads stay as they are");
}

TEST(LoadChange, OfAKartThatIsNeverReleasedSaysNothingOfRelease) {
  EXPECT_EQ(load_change(loads(700.0, 240.0), loads(701.0, 240.0, 16.0)),
            "1.0 N more on the outside rear");
  EXPECT_EQ(load_change(loads(700.0, 240.0, 16.0), loads(701.0, 240.0)),
            "1.0 N more on the outside rear");
}

TrackState cornered(std::string id, double middle, bool wet = false) {
  TrackState state;
  state.id = std::move(id);
  state.wet = wet;
  state.cornering = TrackState::Cornering{middle, 0.0};
  return state;
}

TEST(ClassesOfCorner, OfAnUnknownTrackAreTheDryOnesOfLeastAndMostGrip) {
  Pack pack;
  pack.tracks = {cornered("rubber", 1.3), cornered("middling", 1.0), cornered("dusty", 0.6),
                 cornered("puddles", 0.4, true), TrackState{}};
  pack.tracks.back().id = "unheard-of";
  EXPECT_EQ(classes_of(pack, "unknown"), (std::vector<std::string>{"dusty", "rubber"}));
  EXPECT_EQ(classes_of(pack, "puddles"), (std::vector<std::string>{"puddles"}));
  EXPECT_EQ(classes_of(pack, "unheard-of"), (std::vector<std::string>{}));
}

TEST(ClassesOfCorner, OfStatesThatCornerAlikeTheFirstStandsForAll) {
  Pack pack;
  pack.tracks = {cornered("one", 1.0), cornered("other", 1.0)};
  EXPECT_EQ(classes_of(pack, "unknown"), (std::vector<std::string>{"one"}));
  pack.tracks = {cornered("puddles", 0.4, true)};
  EXPECT_EQ(classes_of(pack, "unknown"), (std::vector<std::string>{}));
}

TEST(OnPaper, EverySideHoldsItsPhasesItsBarAndItsLine) {
  const KnownKart known = default_kart(rules()).value();
  const CornerClass sweep = corner_class(known, rules(), "rubbered-in").value();
  const PaperSide side = paper_side(known, sweep);
  const CornerPhase phases[] = {CornerPhase::entry, CornerPhase::mid, CornerPhase::exit};
  for (std::size_t i = 0; i < 3; ++i) {
    const Cornering at = corner(known.kart, manoeuvre_of(known.kart, sweep, phases[i]));
    EXPECT_DOUBLE_EQ(side.phases[i].loads.right_rear, at.loads.right_rear) << i;
    EXPECT_DOUBLE_EQ(side.phases[i].loads.left_front, at.loads.left_front) << i;
  }
  EXPECT_EQ(side.bar_turns, bar_turns_at(known.kart, sweep.radius));
  EXPECT_DOUBLE_EQ(side.line.angle,
                   patch_line(known.kart.rear_track, known.kart.mass_height).angle);
}

std::optional<OnPaper> seat_up(const Kart& kart, const std::string& track) {
  Findings findings;
  const auto change = parse_paper_change("seat-height=10mm", kart, rules(), {}, findings);
  return on_paper(kart, rules(), track, {change.value()});
}

TEST(OnPaper, AKartThatLeansIsTurnedBothWaysAndAnEvenOneOnce) {
  Kart kart = typical_kart(rules());
  const OnPaper even = seat_up(kart, "green").value();
  ASSERT_EQ(even.classes.size(), 1U);
  EXPECT_FALSE(even.classes[0].right);
  EXPECT_FALSE(even.classes[0].right_after);

  kart.dimensions["mass-sideways"] = 0.012;
  const OnPaper leaning = seat_up(kart, "green").value();
  const PaperClass& both = leaning.classes.at(0);
  ASSERT_TRUE(both.right && both.right_after);
  // More stands on the left: in a right turn that is the outside.
  EXPECT_GT(both.right->outside_rear, both.before.figures.outside_rear);
  EXPECT_GT(both.right_after->outside_rear, both.right->outside_rear);  // and higher
}

TEST(OnPaper, OfATrackWithoutFiguresThereIsNothing) {
  Pack pack = rules();
  for (TrackState& track : pack.tracks) track.cornering.reset();
  const Kart kart = typical_kart(pack);
  EXPECT_FALSE(on_paper(kart, pack, "green", {}));
  EXPECT_FALSE(on_paper(kart, Pack{}, "green", {}));
}

}  // namespace
}  // namespace kartwright
