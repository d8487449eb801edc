#include <cctype>
#include <sstream>

#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"

namespace kartwright {
namespace {

TEST(StartKartFile, TheExampleReadsAsTheTypicalKart) {
  const auto [kart, found] = read_kart_text(start_kart_file(kart_pack(), true));
  EXPECT_EQ(told(found), "");
  const Kart typical = typical_kart(kart_pack());
  ASSERT_EQ(kart.settings.size(), typical.settings.size());
  for (const auto& [id, setting] : typical.settings) {
    EXPECT_EQ(kart.setting(id)->now, setting.now) << id;
    EXPECT_EQ(kart.setting(id)->travel.places, setting.travel.places) << id;
    EXPECT_EQ(kart.setting(id)->in_the_box, setting.in_the_box) << id;
    EXPECT_EQ(kart.setting(id)->minutes, setting.minutes) << id;
  }
}

TEST(StartKartFile, TheExampleHasAClassLimitAtTheEndOfTheUsualWidth) {
  const auto [kart, found] = read_kart_text(start_kart_file(kart_pack(), true));
  EXPECT_DOUBLE_EQ(kart.setting("rear-width")->limit.at_most.value(), 1.400);
}

TEST(StartKartFile, TheExampleSaysThatItIsInvented) {
  EXPECT_EQ(start_kart_file(kart_pack(), true).find("# An invented kart"), 0U);
}

TEST(StartKartFile, ALineSaysHowFarItGoesAndWhichWayIsPlus) {
  const std::string text = start_kart_file(kart_pack(), true);
  EXPECT_NE(text.find("  rear-width: 1360 mm"), std::string::npos);
  EXPECT_NE(text.find("# overall; usual 1300 mm to 1400 mm by 5 mm; + is more\n"),
            std::string::npos)
      << text;
  EXPECT_NE(text.find("# as it stands; soft, medium, hard; + is more\n"), std::string::npos)
      << text;
}

TEST(StartKartFile, TheFileToFillInReadsAsItIs) {
  const auto [kart, found] = read_kart_text(start_kart_file(kart_pack(), false));
  EXPECT_EQ(told(found), "");
  EXPECT_TRUE(kart.settings.empty());
}

bool is_a_line_to_fill_in(const std::string& line) {
  return line.size() > 3 && line.starts_with("#  ") &&
         (line[3] == ' ' || std::islower(static_cast<unsigned char>(line[3])) != 0);
}

/// The file with every line taken in, and a typical value in each one left open.
std::string filled_in(const Pack& pack) {
  std::istringstream lines(start_kart_file(pack, false));
  std::string text;
  for (std::string line; std::getline(lines, line);) {
    if (is_a_line_to_fill_in(line)) line.erase(0, 1);
    const std::size_t colon = line.find(':');
    const std::string key = line.substr(0, colon).erase(0, line.find_first_not_of(' '));
    const Adjustment* const adjustment = pack.adjustment(key);
    const bool open = colon != std::string::npos &&
                      line.find_first_not_of(' ', colon + 1) == line.find(" # ") + 1;
    if (adjustment != nullptr && open) line.insert(colon + 1, " " + adjustment->typical);
    if (key == "minimum-weight") line.insert(colon + 1, " 158 kg");
    text += line + "\n";
  }
  return text;
}

TEST(StartKartFile, TheFileToFillInReadsOnceItIsFilledIn) {
  const std::string text = filled_in(kart_pack());
  const auto [kart, found] = read_kart_text(text);
  EXPECT_EQ(told(found), "") << text;
  EXPECT_EQ(kart.settings.size(), kart_pack().adjustments.size()) << text;
  EXPECT_TRUE(kart.minimum_weight.has_value());
  EXPECT_TRUE(kart.measures.contains("front-share"));
}

TEST(StartKartFile, QuotesNamesThatYamlWouldTakeApart) {
  Pack pack = kart_pack();
  pack.adjustments[0].positions = {"soft: it's 1", "#2"};
  pack.adjustments[0].typical = "soft: it's 1";
  const auto [kart, found] = read_kart_text(start_kart_file(pack, true), pack);
  EXPECT_EQ(told(found), "");
  EXPECT_EQ(kart.setting("axle")->now, 0.0);
  EXPECT_EQ(kart.setting("axle")->in_the_box, pack.adjustments[0].positions);
}

TEST(StartKartFile, IsWrittenForAPackWithoutAdjustments) {
  const Pack empty;
  EXPECT_EQ(told(read_kart_text(start_kart_file(empty, true), empty).found), "");
  EXPECT_EQ(told(read_kart_text(start_kart_file(empty, false), empty).found), "");
}

}  // namespace
}  // namespace kartwright
