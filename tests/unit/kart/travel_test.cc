#include "engine/kart/travel.h"

#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"

namespace kartwright {
namespace {

TEST(Travel, CountsStepsFromTheStartOfTheRange) {
  const Travel travel = travel_over({1.320, 1.400, 0.005});
  ASSERT_EQ(travel.places.size(), 17U);
  EXPECT_DOUBLE_EQ(travel.places.front(), 1.320);
  EXPECT_DOUBLE_EQ(travel.places[3], 1.335);
  EXPECT_DOUBLE_EQ(travel.places.back(), 1.400);
  EXPECT_DOUBLE_EQ(travel.step, 0.005);
}

TEST(Travel, EndOffTheGridIsNoPlace) {
  const Travel travel = travel_over({1.300, 1.303, 0.002});
  ASSERT_EQ(travel.places.size(), 2U);
  EXPECT_DOUBLE_EQ(travel.places.back(), 1.302);
}

TEST(Travel, NeverGoesBeyondTheEndByRounding) {
  // 0.1 three times is a little over 0.3 in binary.
  const Travel travel = travel_over({0.0, 0.3, 0.1});
  ASSERT_EQ(travel.places.size(), 4U);
  EXPECT_EQ(travel.places.back(), 0.3);
}

TEST(Travel, WithoutAStepIsOnePlace) {
  EXPECT_EQ(travel_over({0.2, 0.2, 0.0}).places, std::vector<double>{0.2});
  EXPECT_EQ(travel_over({0.3, 0.2, 0.1}).places, std::vector<double>{0.3});
}

TEST(Travel, HasNoMorePlacesThanARangeMayHave) {
  EXPECT_EQ(travel_over({0.0, 1.0, 1e-300}).places.size(), static_cast<std::size_t>(kMostPlaces));
}

TEST(Travel, NamedPositionsAreCountedFromZero) {
  const Travel travel = usual_travel(*kart_pack().adjustment("axle"));
  EXPECT_EQ(travel.names, (std::vector<std::string>{"soft", "medium", "hard"}));
  EXPECT_EQ(travel.places, (std::vector<double>{0, 1, 2}));
  EXPECT_EQ(place_named(travel, "hard"), 2.0);
  EXPECT_EQ(place_named(travel, "harder"), std::nullopt);
}

TEST(Travel, FindsTheNearestPlaceAndTheLowerOfTwo) {
  const Travel travel = travel_over({0.0, 10.0, 2.0});
  EXPECT_EQ(nearest_place(travel, 4.9), 4.0);
  EXPECT_EQ(nearest_place(travel, 5.0), 4.0);
  EXPECT_EQ(nearest_place(travel, 99.0), 10.0);
}

TEST(SameValue, HoldsWithinABillionth) {
  EXPECT_TRUE(same_value(1.36, 1.36 * (1 + 0.9e-9)));
  EXPECT_FALSE(same_value(1.36, 1.36 * (1 + 1.2e-9)));
}

TEST(SameValue, NearZeroIsMeasuredByTheStep) {
  EXPECT_FALSE(same_value(0.0, 1e-18));
  EXPECT_TRUE(same_value(0.0, 1e-18, 0.001));
  EXPECT_FALSE(same_value(0.0, 1e-6, 0.001));
}

}  // namespace
}  // namespace kartwright
