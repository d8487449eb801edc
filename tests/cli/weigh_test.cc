// weigh: the page, the JSON, the exit codes, and the kart file that is saved into.

#include <filesystem>
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using testing::HasSubstr;

Words weigh_words(const Words& more = {}) {
  Words words{"weigh", "--lf", "75lb", "--rf", "75.5lb", "--lr", "114lb", "--rr", "114.5lb"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

TEST(Weigh, TheAnswerStandsInTheFirstTwentyFiveLinesOfSixtyColumns) {
  const Ended ended =
      run_kartwright(weigh_words({"--resolution", "0.2lb"}), {{"COLUMNS", "60"}, {"LC_ALL", "C"}});
  EXPECT_EQ(ended.exit, 0);
  EXPECT_EQ(ended.err, "");
  EXPECT_TRUE(is_ascii(ended.out));
  const std::vector<std::string> lines = lines_of(ended.out);
  for (const std::string& line : lines) EXPECT_LE(width_of(line), 60U) << line;
  std::string top;
  for (std::size_t i = 0; i < 25 && i < lines.size(); ++i) top += lines[i] + "\n";
  for (const char* const part : {"VERDICT", "seat forward", "WEIGHT", "cross", "MOVE"}) {
    EXPECT_THAT(top, HasSubstr(part));
  }
}

TEST(Weigh, TheJsonHasTheKeysOfItsContract) {
  const Ended ended = run_kartwright(weigh_words({"--format", "json"}));
  ASSERT_EQ(ended.exit, 0) << ended.err;
  const auto json = nlohmann::json::parse(ended.out);
  EXPECT_EQ(json.at("schema"), "kartwright/weigh/1");
  EXPECT_NEAR(json.at("total").get<double>(), 379.0 * 0.45359237, 1e-9);
  for (const char* const share : {"front", "left", "cross"}) {
    EXPECT_GT(json.at("shares").at(share).at("sd").get<double>(), 0.0);
  }
  for (const char* const mode : {"total", "pitch", "roll", "warp"}) {
    EXPECT_TRUE(json.at("modes").at(mode).is_number()) << mode;
  }
  EXPECT_TRUE(json.at("verdicts").at(0).contains("ok"));
  EXPECT_FALSE(json.at("moves").empty());
  EXPECT_EQ(json.at("resolution_from"), "assumed");
}

TEST(Weigh, ALiftedAxleGivesTheHeightAndItsCare) {
  const Ended ended = run_kartwright({"weigh", "--lifted", "--raised", "front", "--lift", "220mm",
                                      "--level", "210lb", "--up", "219lb", "--mass", "364lb"});
  EXPECT_EQ(ended.exit, 0) << ended.err;
  EXPECT_THAT(ended.out, HasSubstr("centre of mass is"));
  EXPECT_THAT(ended.out, HasSubstr("a person aboard"));
}

TEST(Weigh, ASlipIsTwoAndWhatNoKartWeighsSixtyFive) {
  EXPECT_EQ(run_kartwright({"weigh", "--lf", "75lb"}).exit, 2);
  EXPECT_EQ(
      run_kartwright({"weigh", "--lf=-5lb", "--rf", "75lb", "--lr", "9lb", "--rr", "99lb"}).exit,
      2);
  EXPECT_EQ(run_kartwright(weigh_words({"--lift", "220mm"})).exit, 2);
  EXPECT_EQ(run_kartwright(weigh_words({"--save"})).exit, 2);
  const Ended light =
      run_kartwright({"weigh", "--lf", "9kg", "--rf", "9kg", "--lr", "9kg", "--rr", "9kg"});
  EXPECT_EQ(light.exit, 65);
  EXPECT_THAT(light.err, HasSubstr("between"));
}

TEST(Weigh, SavingKeepsTheOldFileAndWritesTheReadingsIntoIt) {
  const TempFolder folder;
  const std::string text = "kart: mine  # the blue one\nsettings: {seat-fore-aft: 0 mm}\n";
  const std::string path = folder.write("blue.yaml", text);
  const Ended ended = run_kartwright(weigh_words({"--kart", path, "--save"}));
  EXPECT_EQ(ended.exit, 0) << ended.err;
  EXPECT_THAT(ended.err, HasSubstr("blue.yaml.before-weighing"));
  EXPECT_EQ(text_of(path + ".before-weighing"), text);
  EXPECT_THAT(text_of(path), HasSubstr("# the blue one"));
  EXPECT_THAT(text_of(path), HasSubstr("left-front: 75 lb"));
  const Ended again = run_kartwright({"weigh", "--kart", path}, {{"COLUMNS", "200"}});
  EXPECT_EQ(again.exit, 0) << again.err;
  EXPECT_THAT(again.out, HasSubstr("from the kart file"));
}

TEST(Weigh, WhereTheKartFileCannotBeExchangedTheReadingsAreShownAllTheSame) {
  const TempFolder folder;
  const std::string text = "kart: mine\nsettings: {seat-fore-aft: 0 mm}\n";
  const std::string path = folder.write(std::string(250, 'k') + ".yaml", text);
  const Ended ended = run_kartwright(weigh_words({"--kart", path, "--save"}));
  EXPECT_EQ(ended.exit, 73);
  EXPECT_THAT(ended.out, HasSubstr("VERDICT"));
  EXPECT_THAT(ended.err, HasSubstr("cannot be"));
  EXPECT_EQ(text_of(path), text);
}

TEST(Weigh, RefusesWhatIsNotFourReadingsOfAKart) {
  struct Refused {
    Words words;
    int exit;
    const char* what;
  };
  const Refused all[] = {
      {{"weigh", "--lf", "75lb", "--rf", "75lb", "--lr", "114lb"}, 2, "right rear"},
      {{"weigh", "--lf", "-5kg", "--rf", "35kg", "--lr", "50kg", "--rr", "50kg"}, 2, "-5kg"},
      {{"weigh", "--lf", "4kg", "--rf", "4kg", "--lr", "6kg", "--rr", "6kg"}, 65, "20 kg"},
      {{"weigh", "--lf", "75mm", "--rf", "75lb", "--lr", "114lb", "--rr", "114lb"}, 2, "mm"},
  };
  for (const Refused& each : all) {
    const Ended ended = run_kartwright(each.words);
    EXPECT_EQ(ended.exit, each.exit) << each.what << ended.err;
    EXPECT_EQ(ended.out, "");
    EXPECT_THAT(ended.err, HasSubstr(each.what));
  }
}

TEST(Weigh, WeighingsThatDisagreeTellNothing) {
  const Ended ended = run_kartwright({"weigh", "--lf", "35kg", "--rf", "36kg", "--lr", "48kg",
                                      "--rr", "49kg", "--swapped", "36kg,35kg,149kg,48kg"},
                                     {{"COLUMNS", "200"}});
  EXPECT_THAT(lines_of(ended.out).at(0), HasSubstr("differs by 100 kg from the first"));
  EXPECT_THAT(ended.out, HasSubstr("none is worked out of weighings that disagree"));
  EXPECT_THAT(ended.out, testing::Not(HasSubstr("should read")));
}

TEST(Weigh, ALiftThatIsTooHighIsTheFirstThingSaid) {
  const Ended ended = run_kartwright({"weigh", "--lifted", "--raised", "front", "--lift", "340mm",
                                      "--level", "205lb", "--up", "219lb", "--mass", "378lb"},
                                     {{"COLUMNS", "200"}});
  EXPECT_THAT(lines_of(ended.out).at(0),
              testing::AllOf(HasSubstr("VERDICT    Careful: lifted 340 mm"),
                             HasSubstr("higher than is safe")));
  EXPECT_THAT(ended.out, HasSubstr("a person aboard"));
}

TEST(Weigh, NoWordIsCutAtEightyColumns) {
  const Words words{"weigh",
                    "--lf",
                    "37kg",
                    "--rf",
                    "34kg",
                    "--lr",
                    "48kg",
                    "--rr",
                    "51kg",
                    "--swapped",
                    "36.8kg,34.2kg,48.1kg,50.9kg"};
  for (const char* const locale : {"C.UTF-8", "C"}) {
    std::string flat;
    for (const std::string& line :
         lines_of(run_kartwright(words, {{"COLUMNS", "80"}, {"LC_ALL", locale}}).out)) {
      EXPECT_LE(width_of(line), 80U) << line;
      const std::size_t start = std::min(line.find_first_not_of(' '), line.size());
      flat += line.substr(start) + " ";
    }
    const std::string sure = "these scales can be sure";
    for (std::size_t at = flat.find(sure); at != std::string::npos; at = flat.find(sure, at + 1))
      EXPECT_EQ(flat.substr(at + sure.size(), 3), " of") << flat.substr(at);
  }
}

TEST(Weigh, OnlyNewReadingsAreSaved) {
  const TempFolder folder;
  const std::string path = folder.write(
      "blue.yaml",
      "kart: blue\nmeasured: {corner-weights: {left-front: 34 kg, right-front: 36 kg, left-rear: "
      "45 kg, right-rear: 53 kg}}\n");
  const Ended ended = run_kartwright({"weigh", "--kart", path, "--save"});
  EXPECT_EQ(ended.exit, 2);
  EXPECT_THAT(ended.err, HasSubstr("no new reading"));
  EXPECT_FALSE(std::filesystem::exists(path + ".before-weighing"));
}

}  // namespace
}  // namespace kartwright
