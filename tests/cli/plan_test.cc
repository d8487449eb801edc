// The plan of a day, and what comes after the first change, through the program.

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/pit_box.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string harbour(const std::string& kart) {
  return KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/" + kart;
}

Words plan_of_41(const Words& more = {}) {
  Words words{"plan", "--kart", harbour("harbour-41.yaml")};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

TEST(Plan, ReadsAsAPageToHangInTheTent) {
  const Ended ended = run_kartwright(plan_of_41());
  EXPECT_EQ(ended.exit, 0);
  EXPECT_EQ(ended.err, "");
  for (const char* said :
       {"harbour 41, 5 stages, by the rules", "the best of all plans that move up to 3",
        "rear narrower, 1380 mm → 1375 mm (7 min)", "8 min more on the same stand",
        "rear width stands at 1380 mm", "strut pair off, 1 → 0, takes over",
        "if the rubber comes one stage early", "if the rubber never comes", "Two people lift it",
        "no track state was given"}) {
    EXPECT_THAT(ended.out, HasSubstr(said)) << ended.out;
  }
}

TEST(Plan, FitsNarrowPagesAndPlainLetters) {
  for (const char* width : {"40", "60", "80"}) {
    const Ended ended = run_kartwright(plan_of_41(), {{"COLUMNS", width}, {"LC_ALL", "C"}});
    EXPECT_EQ(ended.exit, 0);
    EXPECT_TRUE(is_ascii(ended.out));
    for (const std::string& line : lines_of(ended.out))
      EXPECT_LE(line.size(), static_cast<std::size_t>(std::stoi(width))) << line;
  }
}

TEST(Plan, OfABrokenKartPutsTheStopOnTop) {
  const Ended ended = run_kartwright({"plan", "--track", "green", "--fact", "axle-spun=wobbles"});
  EXPECT_EQ(ended.exit, 0);
  EXPECT_THAT(ended.out, HasSubstr("FIRST      STOP: bent axle"));
  EXPECT_THAT(ended.out, HasSubstr("bent axle"));
}

TEST(Plan, IsTheSameEveryTime) {
  EXPECT_EQ(run_kartwright(plan_of_41({"--format", "json"})).out,
            run_kartwright(plan_of_41({"--format", "json"})).out);
}

TEST(Plan, AsJsonHoldsTheWholeDay) {
  const Ended ended = run_kartwright(plan_of_41({"--format", "json"}));
  const nlohmann::json plan = nlohmann::json::parse(ended.out);
  EXPECT_EQ(plan["schema"], "kartwright/plan/1");
  ASSERT_EQ(plan["stages"].size(), 5U);
  EXPECT_EQ(plan["stages"][0]["stage"], "cold");
  EXPECT_EQ(plan["stages"][0]["moves"][0]["to"], "1375 mm");
  EXPECT_EQ(plan["stages"][0]["settings"]["rear-width"], "1375 mm");
  EXPECT_EQ(plan["best"], true);
  EXPECT_EQ(plan["if"][1]["rubber"], "never");
  EXPECT_EQ(plan["runs_out"][0]["reason"], "class-limit");
  EXPECT_GT(plan["gain_of_looking_ahead"].get<double>(), 0.0);
}

TEST(Plan, TakesTheStagesAndTheirHours) {
  const Ended ended =
      run_kartwright({"plan", "--stages", "green = 2h, rubbered-in=0.5", "--format", "json"});
  const nlohmann::json plan = nlohmann::json::parse(ended.out);
  ASSERT_EQ(plan["stages"].size(), 2U);
  EXPECT_EQ(plan["stages"][0]["hours"], 2.0);
  EXPECT_EQ(plan["stages"][1]["hours"], 0.5);
}

TEST(Plan, TellsEveryMistakeOfItsOptionsAtOnce) {
  const Ended ended = run_kartwright(
      {"plan", "--stages", "cold,gren=2h,late=x", "--minutes", "0", "--changes", "five"});
  EXPECT_EQ(ended.exit, 2);
  for (const char* said :
       {"--stages:1:6", "did you mean `green`?", "--stages:1:14", "no number of hours",
        "`0` is not a number from 1 to 600", "`five` is not a number from 1 to 3"}) {
    EXPECT_THAT(ended.err, HasSubstr(said)) << ended.err;
  }
  EXPECT_EQ(ended.out, "");
}

TEST(Plan, OfADayThatTheRulesDoNotKnowSaysSo) {
  const Ended wet = run_kartwright({"plan", "--track", "wet"});
  EXPECT_EQ(wet.exit, 2);
  EXPECT_THAT(wet.err, HasSubstr("do not know how a day goes on that starts `wet`"));
  const Ended back = run_kartwright({"plan", "--stages", "green,cold"});
  EXPECT_EQ(back.exit, 2);
  EXPECT_THAT(back.err, HasSubstr("not known to go from green to cold"));
  const Ended other = run_kartwright({"plan", "--track", "green", "--stages", "cold,green"});
  EXPECT_EQ(other.exit, 2);
  EXPECT_THAT(other.err, HasSubstr("the first stage is the track as it is now"));
}

TEST(Plan, SaysWhatItDidNotUnderstandOfTheDriver) {
  const Ended ended =
      run_kartwright({"plan", "--track", "green", "--said", "the flumox wobbulates"});
  EXPECT_EQ(ended.exit, 0);
  EXPECT_THAT(ended.out, HasSubstr("not understood"));
}

TEST(Plan, WithTheLogGoesByTheCrewsOwnNumbers) {
  const PitBox box;
  ASSERT_EQ(import_into(box.log(), harbour("weekend.json")).exit, 0);
  const Words plan{"plan", "--kart", harbour("harbour-27-sunday.yaml"), "--track", "green"};
  const Ended rules = run_kartwright(plan);
  const Ended log = box.with_log(plan);
  EXPECT_EQ(log.exit, 0) << log.err;
  EXPECT_THAT(rules.out, HasSubstr("by the rules"));
  EXPECT_THAT(log.out, HasSubstr("with 44 runs of its log"));
  EXPECT_NE(log.out.substr(log.out.find("DAY")), rules.out.substr(rules.out.find("DAY")));
}

// --- after the first change ---------------------------------------------------------------------

TEST(AfterTheChange, TellsWhatToDoByWhatTheDriverSays) {
  const Ended ended = run_kartwright({"advise", "--debrief", demo_debrief(), "--after"});
  EXPECT_EQ(ended.exit, 0);
  for (const char* said : {"AFTER", "then listen for: hop mid", "gone, ", "look for something"})
    EXPECT_THAT(ended.out, HasSubstr(said)) << ended.out;
  EXPECT_THAT(run_kartwright({"advise", "--debrief", demo_debrief()}).out, Not(HasSubstr("AFTER")));
}

TEST(AfterTheChange, AsJsonIsATreeTwoDeep) {
  const Ended ended = run_kartwright(
      {"advise", "--debrief", demo_debrief(), "--after", "--format", "json", "--brief"});
  const nlohmann::json after = nlohmann::json::parse(ended.out)["after"];
  EXPECT_EQ(after["listen_for"], "hop mid");
  EXPECT_EQ(after["first"]["adjustment"], "rear-width");
  ASSERT_EQ(after["first"]["if"].size(), 4U);
  EXPECT_EQ(after["first"]["if"][2]["complaint"], "as-before");
  EXPECT_EQ(after["first"]["if"][2]["then"]["if"].size(), 4U);
  EXPECT_EQ(after["first"]["if"][3]["then"]["do"], "look-for-a-fault");
}

TEST(AfterTheChange, DoesNotGoWithABatch) {
  const Ended ended = run_kartwright({"advise", "--batch", "-", "--after"});
  EXPECT_EQ(ended.exit, 2);
  EXPECT_THAT(ended.err, HasSubstr("`--after` does not go with --batch"));
}

TEST(ChangesOfOneStop, AreToldInTheOrderToMakeAndTestThem) {
  const Ended ended =
      run_kartwright({"advise", "--track", "cold", "--said", "loose coming off badly"});
  EXPECT_THAT(ended.out, HasSubstr("two in one stop"));
  EXPECT_THAT(ended.out, HasSubstr("where there is time"));
}

}  // namespace
}  // namespace kartwright
