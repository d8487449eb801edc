// The kart room against the rules that come with the program.

#include <algorithm>

#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

TEST(BuiltInKart, EveryAdjustmentHasATypicalSettingOnItsGrid) {
  const Kart kart = typical_kart(rules());
  for (const Adjustment& adjustment : rules().adjustments) {
    const Setting* const setting = kart.setting(adjustment.id);
    if (adjustment.typical == "none") {
      EXPECT_EQ(setting, nullptr) << adjustment.id;
      continue;
    }
    ASSERT_NE(setting, nullptr) << adjustment.id;
    EXPECT_EQ(
        std::count(setting->travel.places.begin(), setting->travel.places.end(), setting->now), 1)
        << adjustment.id;
  }
}

TEST(BuiltInKart, WhatIsNoneIsNotFitted) {
  const auto [kart, found] =
      read_kart_text("kart: k\nsettings: {rear-width: 1360 mm, front-bar: none}\n", rules());
  EXPECT_EQ(told(found), "");
  EXPECT_EQ(kart.setting("front-bar"), nullptr);
  EXPECT_NE(kart.setting("rear-width"), nullptr);
}

TEST(BuiltInKart, TheExampleReadsAsTheTypicalKartWithoutAFinding) {
  const auto [kart, found] = read_kart_text(start_kart_file(rules(), true), rules());
  EXPECT_EQ(told(found), "");
  const Kart typical = typical_kart(rules());
  ASSERT_EQ(kart.settings.size(), typical.settings.size());
  for (const auto& [id, setting] : typical.settings) {
    EXPECT_EQ(kart.setting(id)->now, setting.now) << id;
    EXPECT_EQ(kart.setting(id)->travel.places, setting.travel.places) << id;
  }
  EXPECT_DOUBLE_EQ(kart.setting("rear-width")->now, 1.360);
  EXPECT_DOUBLE_EQ(kart.setting("rear-width")->limit.at_most.value(), 1.400);
}

TEST(BuiltInKart, TheFileToFillInReadsAsItIs) {
  const auto [kart, found] = read_kart_text(start_kart_file(rules(), false), rules());
  EXPECT_EQ(told(found), "");
  EXPECT_TRUE(kart.settings.empty());
}

TEST(BuiltInKart, CornerWeightsGiveTheMeasuresThatTheRulesTest) {
  const auto [kart, found] = read_kart_text(R"(measured:
  corner-weights: {left-front: 35 kg, right-front: 36 kg, left-rear: 48 kg, right-rear: 50 kg}
)",
                                            rules());
  EXPECT_EQ(told(found), "");
  EXPECT_DOUBLE_EQ(kart.measures.at("front-share"), 71.0 / 169.0);
  EXPECT_DOUBLE_EQ(kart.measures.at("cross-share"), 84.0 / 169.0);
  EXPECT_DOUBLE_EQ(kart.measures.at("front-pair-difference"), 1.0);
}

TEST(BuiltInKart, PressuresThatContradictAnEndAreToldAndASplitIsNot) {
  const auto split =
      read_kart_text("settings: {front-pressures: 0.7 bar, rear-pressures: 0.75 bar}", rules());
  EXPECT_EQ(told(split.found), "");
  const auto contradicting =
      read_kart_text("settings: {pressures: 0.7 bar, rear-pressures: 0.75 bar}", rules());
  ASSERT_EQ(contradicting.found.size(), 1U) << told(contradicting.found);
  EXPECT_EQ(contradicting.found[0].code, Code::settings_disagree);
}

}  // namespace
}  // namespace kartwright
