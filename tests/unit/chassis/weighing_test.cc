// Four readings of the scales: what is said of them, and which move follows.

#include "engine/chassis/weighing.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/chassis/weighing_input.h"
#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

constexpr double kPound = 0.45359237;

CornerLoads pounds(double lf, double rf, double lr, double rr) {
  return {lf * kPound, rf * kPound, lr * kPound, rr * kPound};
}

Weighing weighed(const CornerLoads& on, double resolution = 0.2) {
  return {.on = on, .resolution = resolution * kPound, .written = System::imperial};
}

WeighingAnswer answer_to(const Weighing& weighing, const Kart& kart) {
  return weigh(kart, weighing, rules(), System::imperial).value();
}

WeighingAnswer answer_to(const Weighing& weighing) {
  return answer_to(weighing, typical_kart(rules()));
}

const WeighingVerdict& verdict(const WeighingAnswer& answer, std::string_view id) {
  return *std::find_if(answer.verdicts.begin(), answer.verdicts.end(),
                       [&](const WeighingVerdict& each) { return each.id == id; });
}

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

TEST(Weighing, AKartInItsBandsIsLeftWhereItIs) {
  const WeighingAnswer answer = answer_to(weighed(pounds(79, 79.5, 109, 109)));
  EXPECT_NEAR(answer.total.value, 376.5 * kPound, 1e-9);
  EXPECT_NEAR(answer.total.sd, 0.4 * kPound, 1e-12);
  for (const WeighingVerdict& each : answer.verdicts) EXPECT_TRUE(each.ok) << each.text;
  EXPECT_TRUE(answer.plans.empty());
  EXPECT_TRUE(answer.next.empty());
  EXPECT_TRUE(has(answer.headline, "are in their bands")) << answer.headline;
}

TEST(Weighing, TooLittleOnTheFrontSendsTheSeatForwardIntoTheBand) {
  const WeighingAnswer answer = answer_to(weighed(pounds(75, 75, 114, 114)));
  EXPECT_FALSE(verdict(answer, "front-share").ok);
  ASSERT_FALSE(answer.plans.empty());
  const MovePlan& plan = answer.plans.front();
  ASSERT_EQ(plan.steps.size(), 1U);
  EXPECT_EQ(plan.steps[0].what, "seat forward");
  EXPECT_TRUE(plan.reaches);
  EXPECT_GE(plan.shares.front.value, 0.41);
  // 80 kg of driver and seat over a wheelbase of 1.04 m, as the pack assumes; three steps.
  const double moved = plan.predicted.left_front + plan.predicted.right_front - 150 * kPound;
  EXPECT_NEAR(moved, 80.0 * 0.030 / 1.04, 1e-9);
  EXPECT_NEAR(plan.predicted.total(), answer.total.value, 1e-9);
}

TEST(Weighing, WhereNoMoveReachesTheBandTheNearestIsGivenAndSaidToBe) {
  const WeighingAnswer answer = answer_to(weighed(pounds(55, 55, 130, 130)));
  ASSERT_EQ(answer.plans.size(), 1U);
  EXPECT_FALSE(answer.plans.front().reaches);
  EXPECT_TRUE(has(answer.headline, "No move reaches it")) << answer.headline;
}

TEST(Weighing, TheClassLimitOfTheSeatIsNotCrossed) {
  Kart kart = typical_kart(rules());
  kart.settings.at("seat-fore-aft").limit.at_most = 0.010;
  for (const MovePlan& plan : answer_to(weighed(pounds(75, 75, 114, 114)), kart).plans) {
    EXPECT_FALSE(plan.reaches);
    EXPECT_EQ(plan.steps.at(0).to, print_quantity(0.010, Kind::length, System::imperial));
  }
}

TEST(Weighing, AHeavySideIsMendedByLeadThatCanGoAcross) {
  Kart kart = typical_kart(rules());
  kart.carried.push_back({.name = "lead plate",
                          .mass = 4.0,
                          .mounts = {{"left pod", 0.0, 0.45, 0.0}, {"right pod", 0.0, -0.45, 0.0}},
                          .at = 0,
                          .minutes = 8.0});
  const WeighingAnswer answer = answer_to(weighed(pounds(81.5, 76.5, 112.5, 107)), kart);
  EXPECT_FALSE(verdict(answer, "left-share").ok);
  ASSERT_FALSE(answer.plans.empty());
  EXPECT_EQ(answer.plans[0].steps.at(0).what, "lead plate");
  EXPECT_EQ(answer.plans[0].steps.at(0).to, "right pod");
  EXPECT_TRUE(answer.plans[0].reaches);
}

TEST(Weighing, TheCrewsOwnBandStandsBeforeThePacks) {
  Kart kart = typical_kart(rules());
  kart.bands["front-share"] = {0.39, 0.41};
  EXPECT_TRUE(verdict(answer_to(weighed(pounds(75, 75, 112, 112)), kart), "front-share").ok);
  EXPECT_FALSE(verdict(answer_to(weighed(pounds(75, 75, 112, 112))), "front-share").ok);
}

TEST(Weighing, UnderTheClassWeightIsTheFirstThingSaid) {
  Kart kart = typical_kart(rules());
  kart.minimum_weight = 175.0;
  const WeighingAnswer answer = answer_to(weighed(pounds(79, 79.5, 109, 109)), kart);
  EXPECT_FALSE(verdict(answer, "minimum-weight").ok);
  EXPECT_EQ(answer.headline.find("Careful: "), 0U) << answer.headline;
}

TEST(Weighing, ADifferenceInsideTheScalesErrorIsCalledThat) {
  const WeighingAnswer fine = answer_to(weighed(pounds(80, 79, 109, 109), 0.2));
  const WeighingAnswer rough = answer_to(weighed(pounds(80, 79, 109, 109), 1.0));
  EXPECT_EQ(fine.figures[3].text, "left heavier, in the band");
  EXPECT_EQ(rough.figures[3].text, "no difference that these scales can see");
}

TEST(Weighing, PairsThatLeanOppositeWaysAreATwistAndTheSameWayASide) {
  const WeighingAnswer twisted = answer_to(weighed(pounds(83, 76, 106, 113)));
  EXPECT_TRUE(has(twisted.twist.at(1), "the front leans to the left and the rear to the right"));
  EXPECT_FALSE(twisted.next.empty());
  const WeighingAnswer sided = answer_to(weighed(pounds(83, 76, 113, 106)));
  EXPECT_TRUE(has(sided.twist.at(1), "both pairs lean to the left")) << sided.twist.at(1);
}

/// A kart twisted by `frame`, on a floor warped by `floor`, on scales wrong by `scales`: warps, kg.
Weighing made_of(double frame, double floor, double scales) {
  const auto on = [](double warp) { return loads_of({.total = 170, .pitch = -28, .warp = warp}); };
  Weighing weighing = weighed(on(frame + floor + scales));
  weighing.swapped = on(frame + floor - scales);
  weighing.turned = on(frame - floor + scales);
  return weighing;
}

TEST(Weighing, BothTestsTakeFrameFloorAndScalesApart) {
  const Weighing weighing = made_of(1.5, -4.0, 2.5);
  const std::vector<WarpPart> parts = warp_parts(weighing);
  ASSERT_EQ(parts.size(), 3U);
  EXPECT_EQ(parts[0].of, (std::vector<std::string_view>{"frame"}));
  EXPECT_NEAR(parts[0].warp.value, 1.5, 1e-12);
  EXPECT_NEAR(parts[1].warp.value, -4.0, 1e-12);
  EXPECT_NEAR(parts[2].warp.value, 2.5, 1e-12);
  EXPECT_NEAR(parts[0].warp.sd, std::sqrt(2.0) * weighing.resolution, 1e-12);
  EXPECT_NEAR(modes_of(best_readings(weighing).on).warp, 1.5, 1e-12);
}

TEST(Weighing, OneTestLeavesTheFrameWithWhatItCannotTake) {
  Weighing weighing = made_of(1.5, -4.0, 2.5);
  weighing.turned.reset();
  const std::vector<WarpPart> parts = warp_parts(weighing);
  ASSERT_EQ(parts.size(), 2U);
  EXPECT_EQ(parts[0].of, (std::vector<std::string_view>{"frame", "floor"}));
  EXPECT_NEAR(parts[0].warp.value, -2.5, 1e-12);
  EXPECT_NEAR(parts[1].warp.value, 2.5, 1e-12);
  EXPECT_NEAR(modes_of(best_readings(weighing).on).warp, -2.5, 1e-12);
}

TEST(Weighing, ASecondWeighingThatWeighsOtherwiseIsNotBelieved) {
  Weighing weighing = made_of(0.0, 0.0, 0.0);
  weighing.swapped->left_rear += 3.0;
  EXPECT_FALSE(verdict(answer_to(weighing), "swapped-weighs-the-same").ok);
}

WeighingWords typed(std::string lf, std::string rf, std::string lr, std::string rr) {
  return {.left_front = std::move(lf),
          .right_front = std::move(rf),
          .left_rear = std::move(lr),
          .right_rear = std::move(rr),
          .swapped = {},
          .turned = {},
          .resolution = {}};
}

std::vector<Diagnostic> slips_of(const WeighingWords& words, const Kart& kart = {}) {
  Findings findings;
  read_weighing(words, kart, rules(), findings);
  return findings.all();
}

TEST(WeighingInput, PoundsAndKilogramsAreOneWeighing) {
  Findings findings;
  const Weighing in_pounds =
      read_weighing(typed("80lb", "80lb", "110lb", "110 lb"), Kart{}, rules(), findings);
  const Weighing in_kilograms =
      read_weighing(typed("36.2873896kg", "36.2873896kg", "49.8951607kg", "49.8951607kg"), Kart{},
                    rules(), findings);
  EXPECT_EQ(told(findings.all()), "");
  EXPECT_DOUBLE_EQ(in_pounds.on.left_front, in_kilograms.on.left_front);
  EXPECT_DOUBLE_EQ(in_pounds.on.right_rear, in_kilograms.on.right_rear);
  EXPECT_DOUBLE_EQ(in_pounds.resolution, kPound);
  EXPECT_DOUBLE_EQ(in_kilograms.resolution, 0.5);
  EXPECT_EQ(in_pounds.resolution_from, ResolutionFrom::assumed);
}

TEST(WeighingInput, AMissingReadingIsNamed) {
  const std::vector<Diagnostic> found = slips_of(typed("80lb", "80lb", "", "110lb"));
  ASSERT_EQ(found.size(), 1U) << told(found);
  EXPECT_EQ(found[0].file, "--lr");
  EXPECT_TRUE(has(found[0].message, "left rear is missing"));
}

TEST(WeighingInput, WhatNoScaleReadsIsRefusedWithTheRange) {
  for (const char* const wrong : {"-80lb", "0 kg", "800lb", "80", "80 mm", "eighty"}) {
    const std::vector<Diagnostic> found = slips_of(typed(wrong, "80lb", "110lb", "110lb"));
    ASSERT_EQ(found.size(), 1U) << wrong << told(found);
    EXPECT_EQ(found[0].file, "--lf") << wrong;
    EXPECT_FALSE(found[0].help.empty()) << wrong;
  }
}

TEST(WeighingInput, FourThatSumToLessThanAKartOrMoreThanAnyAreRefused) {
  EXPECT_EQ(slips_of(typed("10kg", "10kg", "12kg", "12kg")).size(), 1U);
  EXPECT_EQ(slips_of(typed("100kg", "100kg", "110kg", "110kg")).size(), 1U);
  Kart heavy;
  heavy.dimensions["bare-kart-mass"] = 150.0;
  EXPECT_EQ(slips_of(typed("30kg", "30kg", "40kg", "40kg"), heavy).size(), 1U);
  EXPECT_EQ(slips_of(typed("30kg", "30kg", "40kg", "40kg")).size(), 0U);
}

TEST(WeighingInput, TheKartFilesReadingsStandWhereNoneAreTyped) {
  Kart kart;
  kart.corner_weights = CornerLoads{36, 36, 48, 48};
  Findings findings;
  const Weighing read = read_weighing({}, kart, rules(), findings);
  EXPECT_EQ(told(findings.all()), "");
  EXPECT_TRUE(read.from_kart_file);
  EXPECT_EQ(read.on.total(), 168.0);
  EXPECT_EQ(slips_of({}).size(), 4U);
}

TEST(WeighingInput, ThreeReadingsInPlaceOfFourAreCounted) {
  WeighingWords words = typed("80lb", "80lb", "110lb", "110lb");
  words.swapped = "80lb,80lb,110lb";
  const std::vector<Diagnostic> found = slips_of(words);
  ASSERT_EQ(found.size(), 1U) << told(found);
  EXPECT_TRUE(has(found[0].message, "3 of four"));
}

}  // namespace
}  // namespace kartwright
