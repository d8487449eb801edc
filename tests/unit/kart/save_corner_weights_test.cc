// Corner weights written into a kart file: what was there stays, byte for byte.

#include "engine/kart/save_corner_weights.h"

#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

constexpr CornerLoads kOn{35.5, 36.25, 48.0, 50.125};
constexpr const char* kMap =
    "corner-weights: {left-front: 35.5 kg, right-front: 36.25 kg, left-rear: 48 kg, right-rear: "
    "50.125 kg}";

std::optional<std::string> saved(const std::string& text, System units = System::metric) {
  return with_corner_weights(parse_document("kart.yaml", text), kOn, units);
}

TEST(SaveCornerWeights, AFileWithoutAnyGetsThemAtItsEnd) {
  EXPECT_EQ(saved("kart: a  # mine"), "kart: a  # mine\nmeasured:\n  " + std::string(kMap) + "\n");
}

TEST(SaveCornerWeights, AnEmptySectionKeepsItsComments) {
  EXPECT_EQ(
      saved("kart: a\nmeasured:   # not yet\n#  front-share:\ndimensions: {wheelbase: 1 m}\n"),
      "kart: a\nmeasured:\n  " + std::string(kMap) +
          "   # not yet\n#  front-share:\ndimensions: {wheelbase: 1 m}\n");
}

TEST(SaveCornerWeights, OtherMeasuresStay) {
  EXPECT_EQ(saved("measured:\n    # by eye\n    tyre-laps: 40\nkart: a\n"),
            "measured:\n    # by eye\n    " + std::string(kMap) + "\n    tyre-laps: 40\nkart: a\n");
  EXPECT_EQ(saved("kart: a\nmeasured: {tyre-laps: 40}\n"),
            "kart: a\nmeasured: {" + std::string(kMap) + ", tyre-laps: 40}\n");
}

TEST(SaveCornerWeights, OldReadingsAreExchangedWhereTheyStand) {
  EXPECT_EQ(saved("measured:\n  corner-weights:\n    right-rear: 1 kg   # heavy\n"
                  "    left-front: 75 lb\n    left-rear: '3 kg'\n    right-front: 2 kg\nkart: é\n"),
            "measured:\n  corner-weights:\n    right-rear: 50.125 kg   # heavy\n"
            "    left-front: 35.5 kg\n    left-rear: 48 kg\n    right-front: 36.25 kg\nkart: é\n");
}

TEST(SaveCornerWeights, LinesKeepTheEndThatTheFileHas) {
  EXPECT_EQ(saved("kart: a\r\n"), "kart: a\r\nmeasured:\r\n  " + std::string(kMap) + "\r\n");
}

TEST(SaveCornerWeights, PoundsReadBackAsTheSameKilograms) {
  const CornerLoads on{78.5 * 0.45359237, 80 * 0.45359237, 108.3 * 0.45359237, 111.7 * 0.45359237};
  const auto text =
      with_corner_weights(parse_document("k", "kart: a\n"), on, System::imperial).value();
  EXPECT_NE(text.find("left-front: 78.5 lb"), std::string::npos) << text;
  const auto [kart, found] = read_kart_text(text, rules());
  EXPECT_EQ(told(found), "");
  EXPECT_EQ(kart.corner_weights->left_rear, on.left_rear);
  EXPECT_EQ(kart.corner_weights->right_rear, on.right_rear);
}

TEST(SaveCornerWeights, WhatCannotBeEditedSafelyIsLeftAlone) {
  EXPECT_EQ(saved("{kart: a}\n"), std::nullopt);
  EXPECT_EQ(saved("kart: a\n...\n"), std::nullopt);
  EXPECT_EQ(saved("kart: a\nmeasured: {}\n"), std::nullopt);
  EXPECT_EQ(saved("measured: {corner-weights: 4}\n"), std::nullopt);
}

TEST(SaveCornerWeights, TheFilesThatStartWritesCanBeSavedInto) {
  for (const bool example : {false, true}) {
    const auto text = saved(start_kart_file(rules(), example));
    ASSERT_TRUE(text) << example;
    const auto [kart, found] = read_kart_text(*text, rules());
    EXPECT_EQ(told(found), "");
    EXPECT_EQ(kart.corner_weights->right_rear, kOn.right_rear);
  }
}

}  // namespace
}  // namespace kartwright
