// Readings of the second and third weighing, of the scales themselves, and what stands in where
// nothing was typed.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/chassis/weighing_input.h"
#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

WeighingWords four_typed() {
  return {.left_front = "36kg",
          .right_front = "36kg",
          .left_rear = "48kg",
          .right_rear = "48kg",
          .swapped = {},
          .turned = {},
          .resolution = {}};
}

Weighing read_in_order(const WeighingWords& words, const Kart& kart = {}) {
  Findings findings;
  const Weighing out = read_weighing(words, kart, rules(), findings);
  EXPECT_EQ(told(findings.all()), "");
  return out;
}

TEST(SecondWeighing, IsReadByWheel) {
  WeighingWords words = four_typed();
  words.swapped = "36.5kg,35.5kg,48kg,48kg";
  words.turned = "36kg,36kg,47kg,49kg";
  const Weighing read = read_in_order(words);
  ASSERT_TRUE(read.swapped);
  EXPECT_DOUBLE_EQ(read.swapped->left_front, 36.5);
  EXPECT_DOUBLE_EQ(read.swapped->right_front, 35.5);
  ASSERT_TRUE(read.turned);
  EXPECT_DOUBLE_EQ(read.turned->left_rear, 47.0);
  EXPECT_DOUBLE_EQ(read.turned->right_rear, 49.0);
}

TEST(SecondWeighing, NotTypedIsNotThere) {
  EXPECT_FALSE(read_in_order(four_typed()).swapped);
  EXPECT_FALSE(read_in_order(four_typed()).turned);
}

TEST(SecondWeighing, WithAReadingThatIsNoneIsRefusedAtItsOption) {
  WeighingWords words = four_typed();
  words.turned = "36kg,36kg,lots,49kg";
  Findings findings;
  const Weighing read = read_weighing(words, Kart{}, rules(), findings);
  ASSERT_THAT(findings.all(), SizeIs(1));
  EXPECT_EQ(findings.all()[0].file, "--turned");
  EXPECT_THAT(findings.all()[0].message, HasSubstr("`lots`"));
  EXPECT_FALSE(read.turned);
}

TEST(SecondWeighing, ThatNoKartWeighsIsRefusedAtItsOption) {
  WeighingWords words = four_typed();
  words.swapped = "10kg,10kg,10kg,10kg";
  Findings findings;
  read_weighing(words, Kart{}, rules(), findings);
  ASSERT_THAT(findings.all(), SizeIs(1));
  EXPECT_EQ(findings.all()[0].file, "--swapped");
  EXPECT_THAT(findings.all()[0].message, HasSubstr("sum to 40 kg"));
}

TEST(ScaleResolution, IsTheCrewsThenTheKartFilesThenThePacks) {
  WeighingWords words = four_typed();
  Kart kart;
  kart.dimensions["scale-resolution"] = 0.3;
  EXPECT_EQ(read_in_order(words, kart).resolution_from, ResolutionFrom::kart_file);
  EXPECT_DOUBLE_EQ(read_in_order(words, kart).resolution, 0.3);
  words.resolution = "0.2kg";
  EXPECT_EQ(read_in_order(words, kart).resolution_from, ResolutionFrom::crew);
  EXPECT_DOUBLE_EQ(read_in_order(words, kart).resolution, 0.2);
}

TEST(ScaleReadings, InBothSystemsAlikeAreTakenAsTheKartHasThem) {
  WeighingWords words = four_typed();
  words.left_front = "80lb";
  words.right_front = "80lb";
  Kart kart;
  kart.units = System::imperial;
  EXPECT_EQ(read_in_order(words, kart).written, System::imperial);
  kart.units = System::metric;
  EXPECT_EQ(read_in_order(words, kart).written, System::metric);
  words.left_rear = "107lb";
  EXPECT_EQ(read_in_order(words, kart).written, System::imperial);
}

TEST(ScaleReadings, WithoutLimitsInThePackAnyWeightIsTaken) {
  Pack bare = rules();
  bare.dimensions.clear();
  WeighingWords words = four_typed();
  words.left_front = "800kg";
  Findings findings;
  EXPECT_EQ(read_weighing(words, Kart{}, bare, findings).on.left_front, 800.0);
  EXPECT_EQ(told(findings.all()), "");
}

/// A front axle lifted by 220 mm on a kart of 168 kg.
LiftWords axle_lifted(std::string raised = "front") {
  return {.raised = std::move(raised),
          .lift = "220mm",
          .level = "96kg",
          .up = "99kg",
          .mass = "168kg",
          .wheelbase = "1040mm",
          .resolution = "0.1kg"};
}

TEST(AxleLifted, WhatTheKartFileKnowsIsNotAssumed) {
  LiftWords words = axle_lifted();
  words.wheelbase.clear();
  words.mass.clear();
  Findings findings;
  const LiftedWeighing assumed = read_lift(words, Kart{}, rules(), findings);
  Kart kart;
  kart.dimensions["wheelbase"] = 1.05;
  kart.corner_weights = CornerLoads{36, 36, 48, 48};
  const LiftedWeighing known = read_lift(words, kart, rules(), findings);
  EXPECT_DOUBLE_EQ(known.test.wheelbase, 1.05);
  EXPECT_DOUBLE_EQ(known.test.mass, 168.0);
  EXPECT_EQ(assumed.assumed.size(), known.assumed.size() + 2);
}

TEST(AxleLifted, TheTyreThatStaysDownIsOfTheOtherAxle) {
  Kart kart;
  kart.dimensions["tyre-radius-front"] = 0.128;
  kart.dimensions["tyre-radius-rear"] = 0.139;
  Findings findings;
  const LiftedWeighing front = read_lift(axle_lifted("front"), kart, rules(), findings);
  EXPECT_TRUE(front.front_raised);
  EXPECT_DOUBLE_EQ(front.test.radius_down, 0.139);
  EXPECT_DOUBLE_EQ(front.test.radius_up, 0.128);
  LiftWords words = axle_lifted("rear");
  words.level = "72kg";
  words.up = "75kg";
  const LiftedWeighing rear = read_lift(words, kart, rules(), findings);
  EXPECT_FALSE(rear.front_raised);
  EXPECT_DOUBLE_EQ(rear.test.radius_down, 0.128);
  EXPECT_DOUBLE_EQ(rear.test.radius_up, 0.139);
  EXPECT_EQ(told(findings.all()), "");
}

TEST(AxleLifted, AnAxleThatIsNoneAndOneThatIsMissingAreToldApart) {
  const auto wrong = [](std::string raised) {
    Findings findings;
    read_lift(axle_lifted(std::move(raised)), Kart{}, rules(), findings);
    return told(findings.all());
  };
  EXPECT_THAT(wrong("middle"), HasSubstr("`middle` is no axle"));
  EXPECT_THAT(wrong(""), HasSubstr("which axle is raised is missing"));
}

}  // namespace
}  // namespace kartwright
