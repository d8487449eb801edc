// What can be asked beside the advice: why not, what it turns on, how sure it is, and the day.

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string page_of(Words options) {
  options.insert(options.begin(), "advise");
  const Ended ended = run_kartwright(options);
  EXPECT_EQ(ended.exit, 0) << ended.err;
  return ended.out;
}

nlohmann::json json_of(Words options) {
  options.insert(options.end(), {"--format", "json"});
  return nlohmann::json::parse(page_of(options));
}

const Words kGreenHop = {"--track", "green", "--report", "hop@mid=2"};

Words with(Words options, const Words& more) {
  options.insert(options.end(), more.begin(), more.end());
  return options;
}

TEST(WhyNot, OfAChangeSaysWhatItWouldWorsen) {
  const std::string text = page_of(with(kGreenHop, {"--why-not", "rear-width:narrower"}));
  EXPECT_THAT(text, HasSubstr("WHY NOT    rear narrower"));
  EXPECT_THAT(text, HasSubstr("rear grip in the middle"));
  EXPECT_THAT(text, Not(HasSubstr("CARE")));
  const nlohmann::json answer = json_of(with(kGreenHop, {"--why-not", "rear-width:narrower"}));
  const nlohmann::json& why = answer.at("why_not").at(0);
  EXPECT_EQ(why.at("kind"), "change");
  EXPECT_EQ(why.at("reason"), "makes-worse");
  double sum = 0.0;
  for (const nlohmann::json& axis : why.at("axes"))
    sum += axis.at("moved").get<double>() + axis.at("doubt").get<double>();
  EXPECT_NEAR(sum, why.at("loss_added").get<double>(), 1e-9);
}

TEST(WhyNot, OfARuleSaysWhichConditionFailedAndHowFarOff) {
  const Words rule{"--why-not", "narrow-rear-on-rubber-has-too-much"};
  EXPECT_THAT(page_of(with(kGreenHop, rule)), HasSubstr("does not speak on this case"));
  const nlohmann::json answer = json_of(with(kGreenHop, rule));
  const nlohmann::json& why = answer.at("why_not").at(0);
  EXPECT_EQ(why.at("kind"), "rule");
  EXPECT_FALSE(why.at("fires").get<bool>());
  // The track is another one, and 1360 mm are 60 mm from the narrow end of 1300, not within 10.
  const nlohmann::json& lacks = why.at("alternatives").at(0).at("lacks");
  ASSERT_EQ(lacks.size(), 2U);
  double off = 0.0;
  for (const nlohmann::json& lack : lacks) off = std::max(off, lack.value("off_by", 0.0));
  EXPECT_NEAR(off, 0.050, 1e-9);
}

TEST(WhyNot, OfWhatIsUnknownIsAnsweredWithTheNearestName) {
  const Ended ended = run_kartwright({"advise", "--why-not", "rear-widht:narrower"});
  EXPECT_EQ(ended.exit, 2);
  EXPECT_THAT(ended.err, HasSubstr("rear-width"));
}

TEST(Turns, NameAnInputThatPutsSomethingElseFirst) {
  const nlohmann::json answer = json_of(with(kGreenHop, {"--turns"}));
  EXPECT_EQ(answer.at("turning").at("now"), "rear wider");
  ASSERT_FALSE(answer.at("turning").at("turns").empty());
  for (const nlohmann::json& turn : answer.at("turning").at("turns"))
    EXPECT_NE(turn.at("then"), "rear wider") << turn;
  EXPECT_THAT(page_of(with(kGreenHop, {"--turns"})), HasSubstr("TURNS ON"));
}

TEST(Draws, AreTheSameForASeedAndSumToOne) {
  const Words some{"--draws", "500", "--seed", "7"};
  const nlohmann::json first = json_of(with(kGreenHop, some)).at("draws");
  EXPECT_EQ(first, json_of(with(kGreenHop, some)).at("draws"));
  EXPECT_EQ(first.at("draws"), 500);
  double sum = first.at("nothing");
  for (const nlohmann::json& share : first.at("first")) sum += share.get<double>();
  EXPECT_NEAR(sum, 1.0, 1e-9);
  EXPECT_NE(first, json_of(with(kGreenHop, {"--draws", "500", "--seed", "8"})).at("draws"));
}

TEST(Ask, ShowsQuestionsThatAreNotAnsweredYet) {
  const Words vague{"--track", "rubbered-in", "--report", "push@entry=2"};
  const std::string text = page_of(vague);
  EXPECT_THAT(text, HasSubstr("ASK"));
  EXPECT_THAT(text, HasSubstr("--report hop@mid=0..3"));
  EXPECT_THAT(page_of(with(vague, {"--report", "hop@mid=0"})), Not(HasSubstr("hop@mid=0..3")));
}

TEST(Ask, IsLeftOutOfABriefAnswer) {
  const nlohmann::json answer = json_of(with(kGreenHop, {"--brief"}));
  EXPECT_FALSE(answer.contains("ask"));
  EXPECT_FALSE(answer.contains("working"));
}

TEST(Hours, ThatAreGoneTakeThePriceOfRoomWithThem) {
  const nlohmann::json morning = json_of(with(kGreenHop, {"--hours", "3"}));
  const nlohmann::json evening = json_of(with(kGreenHop, {"--hours", "0"}));
  EXPECT_GT(morning.at("working").at("forecast").size(), 0U);
  EXPECT_EQ(evening.at("working").at("forecast").size(), 0U);
  for (const nlohmann::json& change : evening.at("changes")) EXPECT_EQ(change.at("room_cost"), 0.0);
}

TEST(Together, NamesAPairWhereOneMoveLeavesMuch) {
  const nlohmann::json answer =
      json_of({"--track", "rubbered-in", "--report", "push=3", "--report", "hop@mid=3", "--report",
               "bog@exit=3", "--minutes", "60", "--together", "3"});
  ASSERT_EQ(answer.at("bundles").size(), 2U);
  EXPECT_EQ(answer.at("bundles").at(0).at("moves").size(), 2U);
  EXPECT_EQ(answer.at("bundles").at(1).at("moves").size(), 3U);
  EXPECT_GT(answer.at("bundles").at(0).at("relief"), answer.at("changes").at(0).at("relief"));
  EXPECT_GT(answer.at("bundles").at(1).at("relief"), answer.at("bundles").at(0).at("relief"));
}

TEST(Options, OfCountsThatCannotBeAreRefused) {
  for (const Words& wrong : std::vector<Words>{{"--together", "4"},
                                               {"--draws", "ten"},
                                               {"--seed", "-1"},
                                               {"--batch", "-", "--threads", "9"},
                                               {"--threads", "2"}}) {
    Words options{"advise"};
    options.insert(options.end(), wrong.begin(), wrong.end());
    const Ended ended = run_kartwright(options);
    EXPECT_EQ(ended.exit, 2) << wrong.front();
    EXPECT_THAT(ended.err, HasSubstr("O001"));
  }
}

}  // namespace
}  // namespace kartwright
