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

TEST(WeighingInput, ThreeReadingsOrFourTypedBesideTheKartFilesOwnCountAsTyped) {
  Kart kart;
  kart.corner_weights = CornerLoads{36, 36, 48, 48};
  Findings findings;
  const Weighing read =
      read_weighing(typed("40kg", "40kg", "50kg", "50kg"), kart, rules(), findings);
  EXPECT_FALSE(read.from_kart_file);
  EXPECT_EQ(read.on.total(), 180.0);
}

TEST(WeighingInput, ASecondWeighingIsReadWheelByWheel) {
  WeighingWords words = typed("36kg", "37kg", "48kg", "49kg");
  words.turned = "37kg,36kg,49kg,48kg";
  Findings findings;
  const Weighing read = read_weighing(words, Kart{}, rules(), findings);
  EXPECT_EQ(told(findings.all()), "");
  ASSERT_TRUE(read.turned);
  EXPECT_FALSE(read.swapped);
  EXPECT_EQ(read.turned->left_front, 37.0);
  EXPECT_EQ(read.turned->right_front, 36.0);
  EXPECT_EQ(read.turned->left_rear, 49.0);
  EXPECT_EQ(read.turned->right_rear, 48.0);
  words.turned = "37kg,much,49kg,48kg";
  EXPECT_EQ(slips_of(words).size(), 1U);
}

TEST(WeighingInput, TheEndsOfWhatAScaleReadsAreStillRead) {
  EXPECT_TRUE(slips_of(typed("2 kg", "80 kg", "20 kg", "20 kg")).empty());
  EXPECT_EQ(slips_of(typed("1.99 kg", "80 kg", "20 kg", "20 kg")).size(), 1U);
}

TEST(WeighingInput, MostOfWhatIsTypedDecidesTheUnitsAndATieTheKart) {
  Findings findings;
  const auto written = [&](const WeighingWords& words, System of_kart) {
    Kart kart;
    kart.units = of_kart;
    return read_weighing(words, kart, rules(), findings).written;
  };
  const WeighingWords even = typed("36kg", "36kg", "110lb", "110lb");
  EXPECT_EQ(written(even, System::imperial), System::imperial);
  EXPECT_EQ(written(even, System::metric), System::metric);
  EXPECT_EQ(written(typed("80lb", "36kg", "110lb", "110lb"), System::metric), System::imperial);
  EXPECT_EQ(written(typed("36kg", "36kg", "48kg", "110lb"), System::imperial), System::metric);
}

TEST(WeighingInput, TheResolutionIsTheCrewsTheKartFilesOrAssumed) {
  Kart kart;
  kart.dimensions["scale-resolution"] = 0.05;
  Findings findings;
  WeighingWords words = typed("36kg", "36kg", "48kg", "48kg");
  const Weighing own = read_weighing(words, kart, rules(), findings);
  EXPECT_EQ(own.resolution, 0.05);
  EXPECT_EQ(own.resolution_from, ResolutionFrom::kart_file);
  words.resolution = "0.1 kg";
  const Weighing crews = read_weighing(words, kart, rules(), findings);
  EXPECT_EQ(crews.resolution, 0.1);
  EXPECT_EQ(crews.resolution_from, ResolutionFrom::crew);
}

/// A class weight against what the scales can tell of 160 kg, each of them to 100 g.
TEST(Weighing, TheClassWeightIsSureFromTwoStandardDeviationsOn) {
  const Weighing weighing{.on = {34.0, 34.0, 46.0, 46.0}, .resolution = 0.1};
  const auto minimum = [&](double kg) {
    Kart kart = typical_kart(rules());
    kart.minimum_weight = kg;
    return verdict(weigh(kart, weighing, rules(), System::metric).value(), "minimum-weight");
  };
  EXPECT_TRUE(minimum(160.0).ok);
  EXPECT_FALSE(minimum(160.0).sure);
  EXPECT_EQ(minimum(158.0).text, "2 kg over the class's minimum of 158 kg");
  EXPECT_TRUE(minimum(158.0).sure);
  EXPECT_EQ(minimum(160.2).text,
            "0.2 kg under the class's minimum of 160.2 kg, nearer than these scales can tell");
  EXPECT_FALSE(minimum(160.2).ok);
}

TEST(Weighing, ASecondWeighingMayDifferByThreeStandardDeviationsOfADifference) {
  // Each weighing sums four scales of 100 g: 0.2 kg; their difference 0.28 kg, three times 0.85 kg.
  Weighing weighing{.on = {34.0, 34.0, 46.0, 46.0}, .resolution = 0.1};
  const auto same = [&](double more) {
    weighing.swapped = CornerLoads{34.0 + more, 34.0, 46.0, 46.0};
    return verdict(answer_to(weighing), "swapped-weighs-the-same");
  };
  EXPECT_TRUE(same(0.84).ok);
  EXPECT_TRUE(has(same(0.84).text, "is within")) << same(0.84).text;
  EXPECT_FALSE(same(0.86).ok);
  EXPECT_TRUE(has(same(0.86).text, "differs by")) << same(0.86).text;
  EXPECT_FALSE(same(-0.86).ok);
}

TEST(Weighing, TheTwistIsHeldAgainstWhatAPairMayDiffer) {
  Kart kart = typical_kart(rules());
  kart.bands["front-pair-difference"] = {0.0, 1.0};
  const auto twist = [&](double warp) {
    const Weighing weighing{.on = loads_of({.total = 160.0, .pitch = -26.0, .warp = warp}),
                            .resolution = 0.05};
    return verdict(answer_to(weighing, kart), "twist");
  };
  EXPECT_TRUE(twist(1.9).ok);  // a warp of 1.9 kg puts 0.95 kg between the wheels of a pair
  EXPECT_FALSE(twist(2.1).ok);
  EXPECT_FALSE(twist(-2.1).ok);
  EXPECT_FALSE(twist(1.9).sure);  // the end is 0.05 kg off, and the scales know it to 0.05
  EXPECT_TRUE(twist(1.7).sure);
}

TEST(Weighing, AFigureNearAnEndOfItsBandIsNotSure) {
  Kart kart = typical_kart(rules());
  kart.bands["front-share"] = {0.41, 0.50};
  const auto front = [&](double share) {
    const Weighing weighing{.on = loads_of({.total = 160.0, .pitch = (2.0 * share - 1.0) * 160.0}),
                            .resolution = 0.1};
    return answer_to(weighing, kart).figures.at(0);
  };
  EXPECT_FALSE(front(0.4105).sure);
  EXPECT_TRUE(front(0.4105).ok);
  EXPECT_TRUE(front(0.45).sure);
  EXPECT_FALSE(front(0.4995).sure);
  EXPECT_TRUE(front(0.40).sure);
  EXPECT_FALSE(front(0.40).ok);
}

TEST(Weighing, NamesWhatTheMovesRestOn) {
  const auto assumed = [](const Kart& kart) {
    const Weighing weighing{.on = {34.0, 34.0, 46.0, 46.0}, .resolution = 0.1};
    return weigh(kart, weighing, rules(), System::metric).value().assumed;
  };
  Kart kart = typical_kart(rules());
  const auto all = assumed(kart);
  EXPECT_EQ(std::count(all.begin(), all.end(), "how far a typical kart's seat goes"), 1);
  EXPECT_EQ(std::count(all.begin(), all.end(), "wheelbase 1040 mm"), 1);
  const auto ballast = [](const std::vector<std::string>& texts) {
    return std::any_of(texts.begin(), texts.end(),
                       [](const std::string& text) { return has(text, "ballast"); });
  };
  EXPECT_FALSE(ballast(all));  // none is on the kart
  kart.typical = false;
  kart.dimensions["wheelbase"] = 1.05;
  kart.settings["ballast-fore-aft"] = {.adjustment = rules().adjustment("ballast-fore-aft"),
                                       .now = 0.0,
                                       .travel = {.places = {0.0, 0.1}, .names = {}},
                                       .limit = {}};
  const auto fewer = assumed(kart);
  EXPECT_EQ(std::count(fewer.begin(), fewer.end(), "how far a typical kart's seat goes"), 0);
  EXPECT_EQ(std::count(fewer.begin(), fewer.end(), "wheelbase 1040 mm"), 0);
  EXPECT_TRUE(ballast(fewer));
}

TEST(PrintMeasured, HasOneUnitBehindBothAndLengthsToTheMillimetre) {
  EXPECT_EQ(print_measured({0.4188, 0.0006}, Kind::ratio, System::metric), "41.88 ± 0.06 %");
  EXPECT_EQ(print_measured({0.26049, 0.0002}, Kind::length, System::metric), "260 ± 1 mm");
  EXPECT_EQ(print_measured({0.26049, 0.0124}, Kind::length, System::metric), "260 ± 12 mm");
  EXPECT_EQ(print_measured({0.254, 0.0127}, Kind::length, System::imperial), "10 ± 1/2 in");
}

}  // namespace
}  // namespace kartwright
