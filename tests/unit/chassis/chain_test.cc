#include "engine/chassis/chain.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

namespace kartwright {
namespace {

TEST(RollerChain, AroundTwoSprocketsAlikeIsTwoStraightsAndOneSprocket) {
  EXPECT_DOUBLE_EQ(chain_pitches(20, 20, 30.0), 80.0);
}

TEST(RollerChain, ABiggerAxleSprocketNeedsMoreChainOrLessDistance) {
  EXPECT_GT(chain_pitches(11, 82, 30.0), chain_pitches(11, 80, 30.0));
  EXPECT_LT(chain_distance(11, 82, 108.0).value(), chain_distance(11, 80, 108.0).value());
}

TEST(RollerChain, TwoTeethMoreOnTheAxleBringTheEngineBackByAboutHalfAPitch) {
  const double closer =
      chain_distance(11, 80, 108.0).value() - chain_distance(11, 82, 108.0).value();
  EXPECT_NEAR(closer, 0.65, 0.15);
}

TEST(RollerChain, TheDistanceForALengthGivesThatLengthBack) {
  for (double pitches = 90.0; pitches <= 140.0; pitches += 1.7) {
    const std::optional<double> distance = chain_distance(11, 79, pitches);
    ASSERT_TRUE(distance) << pitches;
    EXPECT_NEAR(chain_pitches(11, 79, *distance), pitches, 1e-12 * pitches);
  }
}

TEST(RollerChain, NothingWhereItIsTooShortToGoRound) {
  EXPECT_FALSE(chain_distance(11, 80, 0.0));
  EXPECT_FALSE(chain_distance(11, 80, 45.0));  // half of all teeth is 45.5
  EXPECT_FALSE(chain_distance(11, 80, 76.0));  // goes round no circle of these
  EXPECT_FALSE(chain_distance(11, 80, 80.0));  // would have the sprockets overlap
  EXPECT_TRUE(chain_distance(11, 80, 106.0));
}

TEST(RollerChain, TheShortestThatGoesRoundHasItsSprocketsAllButTouching) {
  double pitches = 80.0;
  while (!chain_distance(11, 80, pitches)) pitches += 0.01;
  const double radii = (11.0 + 80.0) / (2.0 * std::numbers::pi);
  EXPECT_NEAR(chain_distance(11, 80, pitches).value(), radii, 0.02);
}

TEST(RollerChain, LinksAreEven) {
  EXPECT_EQ(nearest_even_links(105.9), 106);
  EXPECT_EQ(nearest_even_links(106.9), 106);
  EXPECT_EQ(nearest_even_links(107.1), 108);
}

TEST(RollerChain, AToothMoreMakesTheSprocketLargerByAPitchOverPi) {
  EXPECT_NEAR(sprocket_diameter(81) - sprocket_diameter(80), 1.0 / std::numbers::pi, 1e-3);
}

}  // namespace
}  // namespace kartwright
