#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"

namespace kartwright {
namespace {

constexpr const char* kHarbour = R"(kart: harbour 27
class:
  name: club senior
  minimum-weight: 158 kg
  limits:
    rear-width: {at-most: 1400 mm}
    axle: {allowed: [medium, hard]}
settings:
  rear-width: 1360 mm
  axle: medium
  front-bar: in
  toe: 0 mm
ranges:
  rear-width: {from: 1320 mm, to: 1400 mm}
  axle: [hard, medium]
parts:
  axle: hard
minutes: {rear-width: 8}
measured:
  front-share: 41.5 %
bands: {front-share: {from: 40 %, to: 42 %}}
dimensions: {wheelbase: 1040 mm}
facts: {roll-structure: yes}
)";

TEST(ReadKart, TakesEverySectionOfAFullFile) {
  const auto [kart, found] = read_kart_text(kHarbour);
  EXPECT_EQ(told(found), "");
  EXPECT_EQ(kart.name, "harbour 27");
  EXPECT_FALSE(kart.typical);
  EXPECT_EQ(kart.class_name, "club senior");
  EXPECT_DOUBLE_EQ(kart.minimum_weight.value(), 158.0);
  EXPECT_DOUBLE_EQ(kart.measures.at("front-share"), 0.415);
  EXPECT_DOUBLE_EQ(kart.bands.at("front-share").first, 0.40);
  EXPECT_DOUBLE_EQ(kart.bands.at("front-share").second, 0.42);
  EXPECT_DOUBLE_EQ(kart.dimensions.at("wheelbase"), 1.040);
  EXPECT_EQ(kart.facts.at("roll-structure"), "yes");
  EXPECT_EQ(kart.units, System::metric);
}

TEST(ReadKart, TheKartsOwnRangeReplacesTheUsual) {
  const auto [kart, found] = read_kart_text(kHarbour);
  const Setting& width = *kart.setting("rear-width");
  ASSERT_EQ(width.travel.places.size(), 17U);
  EXPECT_DOUBLE_EQ(width.travel.places.front(), 1.320);
  EXPECT_DOUBLE_EQ(width.travel.step, 0.005);  // the usual one, left out in the file
  EXPECT_EQ(width.now, width.travel.places[8]);
  EXPECT_DOUBLE_EQ(width.limit.at_most.value(), 1.400);
  EXPECT_EQ(width.limit.at_least, std::nullopt);
  EXPECT_EQ(width.minutes, 8.0);
}

TEST(ReadKart, AShorterListKeepsThePacksOrder) {
  const auto [kart, found] = read_kart_text(kHarbour);
  const Setting& axle = *kart.setting("axle");
  EXPECT_EQ(axle.travel.names, (std::vector<std::string>{"medium", "hard"}));
  EXPECT_EQ(axle.travel.places, (std::vector<double>{0, 1}));
  EXPECT_EQ(axle.now, 0.0);
  EXPECT_EQ(axle.minutes, 5.0);
}

TEST(ReadKart, TheFittedPartIsHereThoughNotListed) {
  const auto [kart, found] = read_kart_text(kHarbour);
  EXPECT_EQ(kart.setting("axle")->in_the_box, (std::vector<std::string>{"medium", "hard"}));
}

TEST(ReadKart, AFileThatListsNoPartsHasThemAll) {
  const auto [kart, found] = read_kart_text("settings: {axle: soft, front-bar: in}");
  EXPECT_EQ(kart.setting("axle")->in_the_box, kart_pack().adjustment("axle")->positions);
  EXPECT_TRUE(kart.setting("front-bar")->in_the_box.empty());
}

TEST(ReadKart, AnEmptyPartsListLeavesTheFittedOne) {
  const auto [kart, found] = read_kart_text("{settings: {axle: soft}, parts: {axle: []}}");
  EXPECT_EQ(told(found), "");
  EXPECT_EQ(kart.setting("axle")->in_the_box, std::vector<std::string>{"soft"});
}

TEST(ReadKart, WhatHasNoSettingIsNotOnTheKart) {
  const auto [kart, found] = read_kart_text("kart: bare\nsettings:\n");
  EXPECT_EQ(told(found), "");
  EXPECT_TRUE(kart.settings.empty());
  EXPECT_EQ(kart.setting("toe"), nullptr);
}

TEST(ReadKart, ZeroOnTheGridIsExactlyThatPlace) {
  const auto [kart, found] = read_kart_text("settings: {toe: 0 mm}");
  EXPECT_EQ(told(found), "");
  EXPECT_EQ(kart.setting("toe")->now, kart.setting("toe")->travel.places[4]);
}

TEST(ReadKart, MostLengthsInInchesMakeItImperial) {
  const char* const two_to_one =
      "{settings: {rear-width: 53 1/2 in, toe: 1 mm}, dimensions: {wheelbase: 41 in}}";
  EXPECT_EQ(read_kart_text(two_to_one).kart.units, System::imperial);
  EXPECT_EQ(read_kart_text("settings: {rear-width: 53 1/2 in, toe: 1 mm}").kart.units,
            System::metric);
}

TEST(ReadKart, MayStandInsideAnotherDocument) {
  const Document document = parse_document("heat.yaml", "kart-here: {settings: {axle: hard}}");
  Findings findings;
  const Kart kart = read_kart(document, *document.root.find("kart-here"), kart_pack(), findings);
  EXPECT_EQ(told(findings.all()), "");
  EXPECT_EQ(kart.setting("axle")->now, 2.0);
}

TEST(ReadKart, CornerWeightsGiveSharesAndPairs) {
  const auto [kart, found] = read_kart_text(R"(measured:
  corner-weights: {left-front: 35 kg, right-front: 37 kg, left-rear: 48 kg, right-rear: 50 kg}
)");
  EXPECT_EQ(told(found), "");
  EXPECT_DOUBLE_EQ(kart.measures.at("front-share"), 72.0 / 170.0);
  EXPECT_DOUBLE_EQ(kart.measures.at("left-share"), 83.0 / 170.0);
  EXPECT_DOUBLE_EQ(kart.measures.at("cross-share"), 85.0 / 170.0);
  EXPECT_DOUBLE_EQ(kart.measures.at("front-pair-difference"), 2.0);
  EXPECT_DOUBLE_EQ(kart.measures.at("rear-pair-difference"), 2.0);
}

TEST(ReadKart, AMeasureOfItsOwnStandsBeforeTheCornerWeights) {
  const auto [kart, found] = read_kart_text(R"(measured:
  corner-weights: {left-front: 35 kg, right-front: 37 kg, left-rear: 48 kg, right-rear: 50 kg}
  front-share: 41 %
)");
  EXPECT_DOUBLE_EQ(kart.measures.at("front-share"), 0.41);
  EXPECT_EQ(kart.measures.size(), 5U);
}

TEST(ReadKart, ABandWithOneEndTakesTheOtherFromThePack) {
  const auto [kart, found] = read_kart_text("bands: {front-share: {from: 42 %}}");
  EXPECT_EQ(told(found), "");
  EXPECT_DOUBLE_EQ(kart.bands.at("front-share").first, 0.42);
  EXPECT_DOUBLE_EQ(kart.bands.at("front-share").second, 0.43);
}

TEST(ReadKart, EndsMayHaveDifferentPressures) {
  const auto [kart, found] =
      read_kart_text("settings: {front-pressures: 0.7 bar, rear-pressures: 0.8 bar}");
  EXPECT_EQ(told(found), "");
}

}  // namespace
}  // namespace kartwright
