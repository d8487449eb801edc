// compare: the page, the JSON, and how it ends.

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using Json = nlohmann::json;
using testing::HasSubstr;
using testing::Not;

const std::string kHarbourLaps = KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/rear-width-a-b-a.csv";

/// Laps of a pattern of groups, six or so of each, `effect` seconds on B.
std::string laps_csv(const std::string& pattern, int each, double effect) {
  std::string text = "lap,time,group\n";
  int number = 0;
  for (const char group : pattern) {
    for (int i = 0; i < each; ++i) {
      ++number;
      const double seconds =
          31.0 + (group == 'B' ? effect : 0.0) + 0.03 * (number * number % 5 - 2);
      text += std::to_string(number) + "," + std::to_string(seconds) + "," + group + "\n";
    }
  }
  return text;
}

Ended compare_text_of(const std::string& laps, const Words& more = {}) {
  Words words{"compare", "--csv", "-"};
  words.insert(words.end(), more.begin(), more.end());
  Command command = kartwright(words);
  command.input = laps;
  return run(command);
}

Json compare_json_of(const std::string& laps, const Words& more = {}) {
  Words words{"--format", "json"};
  words.insert(words.end(), more.begin(), more.end());
  const Ended ended = compare_text_of(laps, words);
  EXPECT_EQ(ended.exit, 0) << ended.err;
  EXPECT_EQ(ended.err, "");
  return Json::parse(ended.out);
}

TEST(CompareCommand, TheJsonHasTheKeysOfItsContract) {
  const Json json = compare_json_of(laps_csv("ABA", 6, -0.3));
  EXPECT_EQ(json.at("schema"), "kartwright/compare/1");
  ASSERT_EQ(json.at("effects").size(), 1U);
  const Json& effect = json.at("effects").at(0);
  EXPECT_EQ(effect.at("group"), "B");
  EXPECT_NEAR(effect.at("effect").get<double>(), -0.3, 0.1);
  EXPECT_GT(effect.at("se").get<double>(), 0.0);
  EXPECT_EQ(effect.at("df"), 15);
  EXPECT_LT(effect.at("interval").at(0), effect.at("effect"));
  EXPECT_GT(effect.at("interval").at(1), effect.at("effect"));
  EXPECT_TRUE(json.at("drift").is_number());
  EXPECT_EQ(json.at("verdict"), "keep");
  EXPECT_TRUE(json.at("laps_needed").is_number_integer());
  EXPECT_EQ(json.at("first_group"), "A");
  EXPECT_TRUE(json.at("without_wild").is_null());
}

TEST(CompareCommand, SaysKeepRevertAndNotSettled) {
  EXPECT_EQ(compare_json_of(laps_csv("ABA", 6, 0.3)).at("verdict"), "revert");
  const Json nothing = compare_json_of(laps_csv("ABA", 6, 0.0));
  EXPECT_EQ(nothing.at("verdict"), "not-settled");
  EXPECT_EQ(nothing.at("reason"), "spread");
  EXPECT_THAT(compare_text_of(laps_csv("ABA", 6, -0.3)).out, HasSubstr("keep B: 0.29"));
  EXPECT_THAT(compare_text_of(laps_csv("ABA", 6, 0.3)).out, HasSubstr("revert, go back to A"));
}

TEST(CompareCommand, APlainBeforeAndAfterIsSentBackToTheFirstSetting) {
  const std::string laps = laps_csv("AB", 6, -0.5);
  EXPECT_EQ(compare_json_of(laps).at("reason"), "order");
  const std::string page = compare_text_of(laps).out;
  EXPECT_THAT(page, HasSubstr("cannot be told"));
  EXPECT_THAT(page, HasSubstr("back to A for 6 laps"));
}

TEST(CompareCommand, AWildLapThatDecidesIsTold) {
  std::string laps = laps_csv("ABA", 6, -0.2);
  const std::size_t at = laps.find("\n9,30.") + 4;
  laps[at] = '3';  // 33 s: off at the hairpin
  const Json json = compare_json_of(laps);
  EXPECT_EQ(json.at("reason"), "wild-laps");
  EXPECT_EQ(json.at("wild_laps").at(0).at("lap"), 9);
  EXPECT_EQ(json.at("without_wild").at("effects").at(0).at("group"), "B");
  const std::string page = compare_text_of(laps).out;
  EXPECT_THAT(page, HasSubstr("the fits disagree"));
  EXPECT_THAT(page, HasSubstr("without wild"));
  EXPECT_THAT(page, HasSubstr("wild, far off the rest: lap 9"));
}

TEST(CompareCommand, WhatIsWorthHavingSaysHowManyLapsItTakes) {
  const std::string laps = laps_csv("ABA", 6, 0.0);
  const int few = compare_json_of(laps, {"--worth", "0.2s"}).at("laps_needed");
  const int many = compare_json_of(laps, {"--worth", "0.02"}).at("laps_needed");
  EXPECT_LT(few, many);
}

TEST(CompareCommand, TheLastOfThreeGroupsDecidesAndEachIsJudged) {
  const Json json = compare_json_of(laps_csv("ABCA", 6, -0.3));
  EXPECT_EQ(json.at("decides"), "C");
  EXPECT_EQ(json.at("judged").size(), 2U);
  EXPECT_EQ(json.at("judged").at(0).at("verdict"), "keep");
}

TEST(CompareCommand, ThePageKeepsToItsWidthAndItsLetters) {
  for (const std::size_t columns : {80U, 60U, 40U}) {
    for (const char* locale : {"C", "C.UTF-8"}) {
      const Ended ended =
          run_kartwright({"compare", "--csv", kHarbourLaps},
                         {{"COLUMNS", std::to_string(columns)}, {"LC_ALL", locale}});
      EXPECT_EQ(ended.exit, 0) << ended.err;
      EXPECT_EQ(ended.err, "");
      EXPECT_FALSE(has_control(ended.out));
      for (const std::string& line : lines_of(ended.out))
        EXPECT_LE(width_of(line), columns) << line;
      for (const char* section : {"VERDICT", "EFFECT", "DRIFT", "LAPS", "NEXT"})
        EXPECT_THAT(ended.out, HasSubstr(section));
      EXPECT_EQ(is_ascii(ended.out), std::string(locale) == "C");
    }
  }
}

TEST(CompareCommand, GroupsAreNamedAsTheFileWritesThemAndCannotSteerATerminal) {
  std::string laps = laps_csv("ABA", 6, -0.3);
  for (std::size_t at = laps.find(",B\n"); at != std::string::npos; at = laps.find(",B\n"))
    laps.replace(at, 3, ",wid\xC3\xA9 \xE2\x80\xAE\n");
  const Ended page = compare_text_of(laps);
  EXPECT_THAT(page.out, HasSubstr("wid\xC3\xA9"));
  EXPECT_THAT(page.out, Not(HasSubstr("\xE2\x80\xAE")));
  EXPECT_THAT(compare_text_of(laps, {"--format", "json"}).out, HasSubstr("\\u202e"));
}

TEST(CompareCommand, OneKartIsTakenOutOfASessionAndColumnsAreNamed) {
  std::string laps = "Kart;Lap No.;Lap Tm;rear width\n";
  for (int i = 1; i <= 18; ++i) {
    const std::string number = std::to_string(i);
    laps += "27;" + number + ";31," + std::to_string(40 + i % 4) +
            (i % 3 == 0 ? ";wide\n" : ";usual\n");
    laps += "19;" + number + ";none;\n";
  }
  const Json json = compare_json_of(
      laps, {"--only", "Kart=27", "--column", "time=Lap Tm", "--column", "group=rear width"});
  EXPECT_EQ(json.at("groups").at(0).at("group"), "usual");
  EXPECT_EQ(json.at("groups").at(1).at("laps"), 6);
}

TEST(CompareCommand, BadRowsAreSixtyFiveEachWithItsPlace) {
  const TempFolder folder;
  const std::string path =
      folder.write("day.csv", "lap,time,group\n1,31.5,A\nx,31.5,A\n3,slow,B\n");
  const Ended ended = run_kartwright({"compare", "--csv", path});
  EXPECT_EQ(ended.exit, 65);
  EXPECT_EQ(ended.out, "");
  EXPECT_THAT(ended.err, HasSubstr(path + ":3:1: error[L001]"));
  EXPECT_THAT(ended.err, HasSubstr(path + ":4:3: error[L001]"));
  EXPECT_THAT(ended.err, HasSubstr("  3,slow,B\n    ^^^^\n"));
}

TEST(CompareCommand, NothingToCompareIsSixtyFiveAndSlipsAreTwo) {
  const Ended one = compare_text_of(laps_csv("A", 6, 0.0));
  EXPECT_EQ(one.exit, 65);
  EXPECT_THAT(one.err, HasSubstr("error[L005]"));
  EXPECT_EQ(compare_text_of("").exit, 65);
  EXPECT_EQ(run_kartwright({"compare", "--csv", "/nowhere/day.csv"}).exit, 66);
  EXPECT_EQ(run_kartwright({"compare", "--csv", KARTWRIGHT_SOURCE_DIR}).exit, 66);
  EXPECT_EQ(run_kartwright({"compare"}).exit, 2);
  for (const Words& slip : {Words{"--worth", "ten"},
                            {"--worth", "0"},
                            {"--worth", "nan"},
                            {"--only", "27"},
                            {"--column", "tim=Lap Tm"},
                            {"--format", "xml"}}) {
    const Ended ended = compare_text_of(laps_csv("ABA", 6, 0.0), slip);
    EXPECT_EQ(ended.exit, 2) << slip.back();
    EXPECT_EQ(ended.out, "") << slip.back();
  }
}

}  // namespace
}  // namespace kartwright
