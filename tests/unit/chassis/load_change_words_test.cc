// A change made on paper: on which tracks, in which turns, and in which words.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/chassis/on_paper.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Figures rear_of(double outside, double inside, std::optional<double> release = std::nullopt) {
  Figures figures;
  figures.outside_rear = outside;
  figures.inside_rear = inside;
  if (release) figures.release = *release * kGravity;
  return figures;
}

TEST(LoadChange, SaysWhatIsMoreAndWhatIsLess) {
  EXPECT_EQ(load_change(rear_of(900, 100), rear_of(895.4, 104.6)),
            "4.6 N less on the outside rear, 4.6 N more on the inside rear");
  EXPECT_EQ(load_change(rear_of(900, 100), rear_of(925, 100)), "25 N more on the outside rear");
  EXPECT_EQ(load_change(rear_of(900, 100), rear_of(900.04, 99.96)), "the loads stay as they are");
}

TEST(LoadChange, SaysWhenTheInsideRearComesOffAndBack) {
  EXPECT_EQ(load_change(rear_of(900, 10), rear_of(910, -5)),
            "5.0 N more on the outside rear, 10.0 N less on the inside rear, the inside rear off "
            "the ground");
  EXPECT_EQ(load_change(rear_of(910, -5), rear_of(900, 10)),
            "5.0 N less on the outside rear, 10.0 N more on the inside rear, the inside rear back "
            "on the ground");
}

TEST(LoadChange, SaysWhenItIsReleasedWhereThatIsWorthAWord) {
  EXPECT_EQ(load_change(rear_of(900, 10, 1.68), rear_of(905, 10, 1.70)),
            "5.0 N more on the outside rear, released at 1.70 g instead of 1.68");
  EXPECT_EQ(load_change(rear_of(900, 10, 1.7), rear_of(905, 10, 1.7)),
            "5.0 N more on the outside rear, released at 1.70 g as before");
  EXPECT_EQ(load_change(rear_of(900, 10, 1.7), rear_of(900, 10, 1.7)),
            "the loads stay as they are");
  EXPECT_EQ(load_change(rear_of(900, 10, 1.6), rear_of(900, 10, 1.7)),
            "the loads stay as they are, released at 1.70 g instead of 1.60");
  EXPECT_EQ(load_change(rear_of(900, 10, 1.6), rear_of(900, 10)), "the loads stay as they are");
  EXPECT_EQ(load_change(rear_of(900, 10), rear_of(900, 10, 1.6)), "the loads stay as they are");
}

TrackState track_of(std::string id, std::optional<double> middle, bool wet = false) {
  TrackState track;
  track.id = std::move(id);
  track.wet = wet;
  if (middle) track.cornering = TrackState::Cornering{*middle, *middle + 0.3};
  return track;
}

TEST(CornerClasses, OfAKnownTrackAreItsOwn) {
  Pack pack;
  pack.tracks = {track_of("cold", 1.2), track_of("gravel", std::nullopt)};
  EXPECT_THAT(classes_of(pack, "cold"), ElementsAre("cold"));
  EXPECT_THAT(classes_of(pack, "gravel"), IsEmpty());
}

TEST(CornerClasses, OfAnUnknownTrackAreThoseOfLeastAndMostGripInTheDry) {
  Pack pack;
  pack.tracks = {track_of("green", 1.5), track_of("cold", 1.2), track_of("rubber", 2.0),
                 track_of("gravel", std::nullopt), track_of("wet", 0.8, true)};
  EXPECT_THAT(classes_of(pack, "unknown"), ElementsAre("cold", "rubber"));
  pack.tracks = {track_of("cold", 1.2), track_of("wet", 0.8, true)};
  EXPECT_THAT(classes_of(pack, "unknown"), ElementsAre("cold"));
  pack.tracks = {track_of("wet", 0.8, true)};
  EXPECT_THAT(classes_of(pack, "unknown"), IsEmpty());
}

TEST(OnPaper, AKartThatLeansTurnsRightOtherwise) {
  Kart kart = typical_kart(rules());
  const auto level = on_paper(kart, rules(), "cold", {});
  ASSERT_TRUE(level);
  EXPECT_FALSE(level->classes.at(0).right);
  EXPECT_FALSE(level->classes.at(0).right_after);
  kart.corner_weights = CornerLoads{37.0, 34.0, 49.0, 46.0};
  const auto leaning = on_paper(kart, rules(), "cold", {});
  ASSERT_TRUE(leaning);
  const PaperClass& one = leaning->classes.at(0);
  ASSERT_TRUE(one.right);
  ASSERT_TRUE(one.right_after);
  EXPECT_NE(one.right->outside_rear, one.before.figures.outside_rear);
  EXPECT_DOUBLE_EQ(one.right->outside_rear, one.right_after->outside_rear);  // nothing was changed
}

TEST(OnPaper, TheRightTurnOfAKartIsTheLeftTurnOfItsMirrorImage) {
  Kart kart = typical_kart(rules());
  kart.corner_weights = CornerLoads{37.0, 34.0, 49.0, 46.0};
  const auto one = on_paper(kart, rules(), "cold", {});
  kart.corner_weights = CornerLoads{34.0, 37.0, 46.0, 49.0};
  const auto other = on_paper(kart, rules(), "cold", {});
  EXPECT_NEAR(one->classes.at(0).right->outside_rear,
              other->classes.at(0).before.figures.outside_rear, 1e-6);
}

TEST(OnPaper, WithoutFiguresOrCornersThereIsNothing) {
  const Kart kart = typical_kart(rules());
  Pack bare = rules();
  bare.dimensions.clear();
  EXPECT_FALSE(on_paper(kart, bare, "cold", {}));
  Pack flat = rules();
  for (TrackState& track : flat.tracks) track.cornering.reset();
  EXPECT_FALSE(on_paper(kart, flat, "cold", {}));
  EXPECT_FALSE(on_paper(kart, flat, "unknown", {}));
}

}  // namespace
}  // namespace kartwright
