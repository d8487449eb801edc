// One setting of a kart file written anew: everything else stays as it is, byte for byte.

#include "engine/kart/change_setting.h"

#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"

namespace kartwright {
namespace {

/// A kart file with a setting at another place; "-" where it cannot be written.
std::string changed(const std::string& text, const std::string& adjustment, double to) {
  const Document document = parse_document("kart.yaml", text);
  const Kart kart = read_kart_text(text, kart_pack()).kart;
  const Setting* const setting = kart.setting(adjustment);
  if (setting == nullptr) return "no such setting";
  return with_setting(document, *setting, to).value_or("-");
}

/// `before` stands once in a text; the text with `after` there.
std::string replaced_in(std::string text, const std::string& before, const std::string& after) {
  return text.replace(text.find(before), before.size(), after);
}

TEST(ChangeSetting, OnlyItsValueIsWritten) {
  const std::string text =
      "# é: ours, rear-width: 1360 mm\r\nkart: \"a: b\"   # 'x'\r\nsettings:\r\n"
      "    toe: 1 mm\r\n    rear-width:   1360 mm   # by the tape\r\n    axle: medium\r\n";
  EXPECT_EQ(changed(text, "rear-width", 1.37), replaced_in(text, "  1360 mm   #", "  1370 mm   #"));
  EXPECT_EQ(changed(text, "toe", -0.002), replaced_in(text, "toe: 1 mm", "toe: -2 mm"));
  EXPECT_EQ(changed(text, "axle", 2), replaced_in(text, "medium", "hard"));
}

TEST(ChangeSetting, InOneLineAndInQuotes) {
  EXPECT_EQ(changed("{kart: ö, settings: {toe: 1 mm, rear-width: '1360 mm', axle: medium}}",
                    "rear-width", 1.355),
            "{kart: ö, settings: {toe: 1 mm, rear-width: 1355 mm, axle: medium}}");
  EXPECT_EQ(changed("settings: {rear-width: \"1360 mm\"}  # '\n", "rear-width", 1.4),
            "settings: {rear-width: 1400 mm}  # '\n");
  EXPECT_EQ(changed("settings:\n  axle: \"soft\"", "axle", 1), "settings:\n  axle: medium");
}

TEST(ChangeSetting, InchesStayInches) {
  const std::string text = "settings:\n  rear-width: 53 1/2 in  # tape\n  toe: 1 mm\n";
  const std::string out = changed(text, "rear-width", 54 * 0.0254);
  EXPECT_EQ(out, "settings:\n  rear-width: 54 in  # tape\n  toe: 1 mm\n");
  // A place of the metric grid is written so that it reads back as itself.
  const std::string odd = changed(text, "rear-width", 1.37);
  EXPECT_NE(odd.find(" in  # tape"), std::string::npos) << odd;
  const Kart kart = read_kart_text(odd, kart_pack()).kart;
  EXPECT_NEAR(kart.setting("rear-width")->now, 1.37, 1e-9);
}

// Toe is small: what is close enough for a width was a step beyond the end of its travel, and the
// file that had just been written was refused.
TEST(ChangeSetting, AnEndOfTheTravelInInchesIsNotBeyondIt) {
  for (const double toe : {-0.004, -0.003, 0.006}) {
    const ReadKart read =
        read_kart_text(changed("settings: {toe: 1/16 in}", "toe", toe), kart_pack());
    EXPECT_TRUE(read.found.empty()) << told(read.found);
    EXPECT_EQ(read.kart.setting("toe")->now, toe);
  }
}

TEST(ChangeSetting, ThereAndBackIsTheSameFile) {
  const std::string text = "settings:\n  rear-width: 1360 mm # a\n  toe: 1 mm\n";
  for (const double width : {1.3, 1.305, 1.345, 1.365, 1.4})
    EXPECT_EQ(changed(changed(text, "rear-width", width), "rear-width", 1.36), text) << width;
}

TEST(ChangeSetting, WhatIsNoPlainValueIsLeftAlone) {
  EXPECT_EQ(changed("settings:\n  rear-width: >\n    1360 mm\n", "rear-width", 1.37), "-");
  EXPECT_EQ(changed("settings:\n  rear-width: 1360\n    mm\n  toe: 1 mm\n", "rear-width", 1.37),
            "-");
  EXPECT_EQ(changed("settings:\n  axle: \"m\\x65dium\"\n", "axle", 0), "settings:\n  axle: soft\n");
}

TEST(ChangeSetting, AValueOfASettingIsReadInAnyUnit) {
  const Kart kart = read_kart_text("settings: {rear-width: 1360 mm, axle: soft}", kart_pack()).kart;
  const Setting& width = *kart.setting("rear-width");
  EXPECT_NEAR(setting_value(width, "136 cm").value(), 1.36, 1e-12);
  EXPECT_NEAR(setting_value(width, "53 1/2 in").value(), 1.3589, 1e-12);
  EXPECT_EQ(setting_value(width, "wide"), std::nullopt);
  EXPECT_EQ(setting_value(width, "1360"), std::nullopt);
  EXPECT_EQ(setting_value(*kart.setting("axle"), "hard"), 2.0);
  EXPECT_EQ(setting_value(*kart.setting("axle"), "Hard"), std::nullopt);
}

TEST(ChangeSetting, AFileWithoutTheSettingHasNoPlaceForIt) {
  const Document document = parse_document("kart.yaml", "settings: {toe: 1 mm}\n");
  EXPECT_EQ(setting_node(document, "axle"), nullptr);
  EXPECT_EQ(setting_node(parse_document("kart.yaml", "kart: a\n"), "axle"), nullptr);
  const Kart kart = read_kart_text("settings: {axle: soft}", kart_pack()).kart;
  EXPECT_EQ(with_setting(document, *kart.setting("axle"), 1), std::nullopt);
}

}  // namespace
}  // namespace kartwright
