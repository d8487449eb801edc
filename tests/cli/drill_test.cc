// The drill through the program: by a script, on paper, with a record, and on a terminal.

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"
#include "tests/support/temp_folder.h"
#include "tests/support/terminal.h"

namespace kartwright {
namespace {

using testing::AllOf;
using testing::Each;
using testing::HasSubstr;
using testing::Le;
using testing::Not;
using testing::ResultOf;

/// A room to practise in, with a state folder of its own.
class DrillRoom : public testing::Test {
 protected:
  Ended drill(Words options, const std::string& script, Environment env = {}) const {
    options.insert(options.begin(), "drill");
    env.try_emplace("XDG_STATE_HOME", state_.path());
    Command command = kartwright(options, env);
    command.input = script;
    return run(command);
  }
  std::string record(const std::string& file) const {
    std::ifstream in(state_.path() + "/kartwright/" + file);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
  }
  TempFolder state_;
};

TEST_F(DrillRoom, AScriptOfAnswersPlaysACaseToItsScore) {
  const Ended ended = drill({"--case", "first-hop"}, "rear\nrear wider 15\n");
  EXPECT_EQ(ended.exit, 0) << ended.err;
  EXPECT_THAT(ended.out, AllOf(HasSubstr("hops in the middle"), HasSubstr("100 of 100"),
                               HasSubstr("nothing was worth more"), HasSubstr("practice on paper"),
                               HasSubstr("CARE")));
  EXPECT_THAT(ended.err, HasSubstr("Which end is at fault"));
}

TEST_F(DrillRoom, WhatCannotBeDoneIsRefusedAndAskedAgain) {
  const Ended ended = drill({"--case", "first-hop", "--format", "json"},
                            "reer\nrear\n?\n? caster\nrear wider 40\nseat forward 10\n"
                            "rear widdr\nrear wider\n10\n");
  EXPECT_EQ(ended.exit, 0) << ended.err;
  EXPECT_THAT(ended.err, AllOf(HasSubstr("did you mean `rear`?"), HasSubstr("at most 15 mm"),
                               HasSubstr("takes 25 min of 15"), HasSubstr("How far: 5 mm"),
                               HasSubstr("quit")));
  const auto json = nlohmann::json::parse(ended.out);
  EXPECT_EQ(json["drills"][0]["refused"], 2);
  EXPECT_EQ(json["drills"][0]["choice"], "rear wider, 1360 mm to 1370 mm");
}

TEST_F(DrillRoom, TheSessionAsJsonHoldsHowTheScoreCameAbout) {
  const Ended ended = drill({"--count", "2", "--seed", "1", "--format", "json"},
                            "rear\nleave it\nfront\nleave it\n");
  EXPECT_EQ(ended.exit, 0) << ended.err;
  const auto json = nlohmann::json::parse(ended.out);
  EXPECT_EQ(json["schema"], "kartwright/drill/1");
  ASSERT_EQ(json["drills"].size(), 2U);
  double mean = 0.0;
  for (const auto& each : json["drills"]) {
    mean += each["mark"].get<double>() / 2.0;
    double sum = 0.0;
    for (const auto& part : each["best-worth"]["parts"]) sum += part["points"].get<double>();
    EXPECT_NEAR(sum, each["best-worth"]["points"].get<double>(), 1e-9);
  }
  EXPECT_NEAR(json["mean"].get<double>(), mean, 1e-9);
  EXPECT_NE(json["drills"][0]["level"], json["drills"][1]["level"]);
}

TEST_F(DrillRoom, TheSameSeedGivesTheSameBytes) {
  const Words options{"--level", "conflict", "--seed", "12"};
  const Ended one = drill(options, "both\nleave it\n");
  EXPECT_EQ(one.out, drill(options, "both\nleave it\n").out);
  EXPECT_NE(one.out, drill({"--level", "conflict", "--seed", "13"}, "both\nleave it\n").out);
}

TEST_F(DrillRoom, ADebriefFileIsADrillOfItsOwn) {
  const Ended ended = drill({"--case", demo_debrief()}, "rear\nrear wider 10\n");
  EXPECT_EQ(ended.exit, 0) << ended.err;
  EXPECT_THAT(ended.out, HasSubstr("a debrief of your own"));
}

TEST_F(DrillRoom, MisspeltCasesAndLevelsAreAnsweredWithTheNearest) {
  EXPECT_EQ(drill({"--case", "frist-hop"}, "").exit, 2);
  EXPECT_THAT(drill({"--case", "frist-hop"}, "").err, HasSubstr("did you mean `first-hop`?"));
  EXPECT_THAT(drill({"--case", "nosuch"}, "").err,
              AllOf(HasSubstr("first-hop"), HasSubstr("smell-of-fuel")));
  EXPECT_THAT(drill({"--level", "conflct"}, "").err, HasSubstr("conflict"));
  EXPECT_EQ(drill({"--case", "nowhere.yaml"}, "").exit, 66);
  EXPECT_EQ(drill({"--seed", "x"}, "").exit, 2);
  EXPECT_EQ(drill({"--progress"}, "").exit, 2);
  EXPECT_EQ(drill({"--print", "0"}, "").exit, 2);
}

TEST_F(DrillRoom, AWorksheetHasItsAnswersBehindTheFormFeedAndNowhereElse) {
  const Ended sheet = drill({"--print", "6"}, "");
  EXPECT_EQ(sheet.exit, 0) << sheet.err;
  const std::size_t feed = sheet.out.find('\f');
  ASSERT_NE(feed, std::string::npos);
  const std::string tasks = sheet.out.substr(0, feed);
  const std::string answers = sheet.out.substr(feed);
  for (int i = 1; i <= 6; ++i) EXPECT_THAT(answers, HasSubstr("TASK " + std::to_string(i)));
  EXPECT_THAT(tasks, AllOf(Not(HasSubstr("TASK 1")), Not(HasSubstr("leave it alone\n")),
                           Not(HasSubstr("check:")), HasSubstr("Change and size: ___")));
  EXPECT_THAT(answers, AllOf(HasSubstr("leave it alone"), HasSubstr("check: ")));
  EXPECT_EQ(sheet.out, drill({"--print", "6", "--seed", "1"}, "").out);
  EXPECT_NE(sheet.out, drill({"--print", "6", "--seed", "2"}, "").out);
  EXPECT_THAT(lines_of(tasks), Each(ResultOf(width_of, Le(80U))));
}

TEST_F(DrillRoom, WithATraineeEveryFinishedDrillIsKeptAndCounted) {
  EXPECT_EQ(drill({"--case", "first-hop", "--trainee", "Ann B"}, "front\nrear narrower 5\n").exit,
            0);
  EXPECT_EQ(drill({"--case", "first-hop", "--trainee", "Ann B"}, "front\nrear narrower 5\n").exit,
            0);
  const auto first = nlohmann::json::parse(lines_of(record("drill-%41nn%20%42.jsonl")).at(0));
  EXPECT_EQ(first["seed"], 1);
  EXPECT_EQ(nlohmann::json::parse(lines_of(record("drill-%41nn%20%42.jsonl")).at(1))["seed"], 2);
  const Ended progress = drill({"--progress", "--trainee", "Ann B"}, "");
  EXPECT_THAT(progress.out, AllOf(HasSubstr("front for rear: 2 x"),
                                  HasSubstr("rear narrower for rear wider: 2 x"),
                                  HasSubstr("--level one-symptom")));
  const auto json = nlohmann::json::parse(
      drill({"--progress", "--trainee", "Ann B", "--format", "json"}, "").out);
  EXPECT_EQ(json["drills"], 2);
}

TEST_F(DrillRoom, WithoutATraineeNothingIsKept) {
  drill({"--case", "first-hop"}, "rear\nleave it\n");
  EXPECT_FALSE(std::filesystem::exists(state_.path() + "/kartwright"));
}

TEST_F(DrillRoom, ADamagedLineIsToldOfLeftOutAndNotLost) {
  drill({"--case", "first-hop", "--trainee", "ben"}, "rear\nleave it\n");
  const std::string path = state_.path() + "/kartwright/drill-ben.jsonl";
  std::ofstream(path, std::ios::app) << "{\"schema\": \"torn";
  const Ended next = drill({"--case", "first-hop", "--trainee", "ben"}, "rear\nleave it\n");
  EXPECT_EQ(next.exit, 0);
  EXPECT_THAT(next.err, HasSubstr("drill-ben.jsonl:2"));
  EXPECT_EQ(lines_of(record("drill-ben.jsonl")).size(), 3U);
  EXPECT_THAT(record("drill-ben.jsonl"), HasSubstr("torn\n"));
  EXPECT_THAT(drill({"--progress", "--trainee", "ben"}, "").out, HasSubstr("2 drills finished"));
}

TEST_F(DrillRoom, EightSessionsThatEndTogetherKeepEightDrills) {
  TempFolder scripts;
  const std::string script = scripts.path() + "/answers.txt";
  std::ofstream(script) << "rear\nleave it\n";
  Command all;
  all.argv = {"/bin/sh", "-c",
              "for i in 1 2 3 4 5 6 7 8; do '" + binary() +
                  "' drill --trainee par --case first-hop --seed $i < '" + script +
                  "' > /dev/null 2>&1 & done; wait"};
  all.env = {{"XDG_STATE_HOME", state_.path()}};
  EXPECT_EQ(run(all).exit, 0);
  const std::vector<std::string> lines = lines_of(record("drill-par.jsonl"));
  std::set<int> seeds;
  for (const std::string& line : lines)
    seeds.insert(nlohmann::json::parse(line)["seed"].get<int>());
  EXPECT_EQ(lines.size(), 8U);
  EXPECT_THAT(seeds, testing::ElementsAre(1, 2, 3, 4, 5, 6, 7, 8));
}

TEST_F(DrillRoom, ARecordIsItsOwnersAlone) {
  drill({"--case", "first-hop", "--trainee", "ben"}, "rear\nleave it\n");
  const auto rights =
      std::filesystem::status(state_.path() + "/kartwright/drill-ben.jsonl").permissions();
  EXPECT_EQ(static_cast<unsigned>(rights), 0600U);
}

TEST_F(DrillRoom, AFolderInThePlaceOfARecordIsToldWithItsPlace) {
  std::filesystem::create_directories(state_.path() + "/kartwright/drill-ben.jsonl");
  for (const Words& options : {Words{"--progress", "--trainee", "ben"},
                               Words{"--case", "first-hop", "--trainee", "ben"}}) {
    const Ended ended = drill(options, "rear\nleave it\n");
    EXPECT_NE(ended.exit, 0);
    EXPECT_EQ(ended.out, "");
    EXPECT_THAT(ended.err, AllOf(HasSubstr("drill-ben.jsonl"), HasSubstr("folder")));
  }
}

TEST_F(DrillRoom, ATraineeWithoutANameIsAMistakeOfUse) {
  EXPECT_EQ(drill({"--trainee", ""}, "rear\nleave it\n").exit, 2);
  EXPECT_FALSE(std::filesystem::exists(state_.path() + "/kartwright"));
}

TEST_F(DrillRoom, AQuestionOrASlipAtTheSizeKeepsTheChange) {
  const Ended ended =
      drill({"--case", "first-hop", "--format", "json"}, "rear\nrear wider\n?\n7\n10\n");
  EXPECT_EQ(ended.exit, 0) << ended.err;
  const auto json = nlohmann::json::parse(ended.out);
  EXPECT_EQ(json["drills"][0]["choice"], "rear wider, 1360 mm to 1370 mm");
}

TEST_F(DrillRoom, TheExampleOfTheHelpWorks) {
  EXPECT_THAT(drill({"--help"}, "").out, HasSubstr("check bent axle"));
  const Ended ended = drill({"--case", "tight-loose-tight"}, "broken\ncheck bent axle\n");
  EXPECT_THAT(ended.out, AllOf(HasSubstr("found it: bent axle"), Not(HasSubstr("nothing found"))));
}

TEST_F(DrillRoom, NoFolderToKeepARecordInIsSaid) {
  const Ended ended = drill({"--trainee", "ann"}, "", {{"XDG_STATE_HOME", ""}, {"HOME", ""}});
  EXPECT_EQ(ended.exit, 73);
  EXPECT_THAT(ended.err, HasSubstr("XDG_STATE_HOME"));
}

TEST_F(DrillRoom, AScriptThatEndsEarlyKeepsWhatWasFinished) {
  const Ended ended = drill({"--count", "3", "--trainee", "cleo"}, "rear\nleave it\nfront\n");
  EXPECT_EQ(ended.exit, 0);
  EXPECT_EQ(lines_of(record("drill-cleo.jsonl")).size(), 1U);
  EXPECT_THAT(ended.err, HasSubstr("1 finished and kept"));
}

TEST_F(DrillRoom, PagesFitNarrowScreensAndAscii) {
  for (const char* width : {"40", "60", "80"}) {
    const Ended ended = drill({"--case", "as-wide-as-the-class"}, "rear\nhubs shorter\n",
                              {{"COLUMNS", width}, {"LC_ALL", "C"}});
    const auto limit = static_cast<std::size_t>(std::stoi(width));
    EXPECT_THAT(lines_of(ended.out), Each(ResultOf(width_of, Le(limit)))) << width;
    EXPECT_TRUE(is_ascii(ended.out));
    EXPECT_FALSE(has_control(ended.out));
  }
}

TEST_F(DrillRoom, UnitsAreThoseThatWereAskedFor) {
  const Ended ended =
      drill({"--case", "first-hop", "--units", "imperial"}, "rear\nrear wider\nquit\n");
  EXPECT_THAT(ended.out, HasSubstr("53.54 in"));
  EXPECT_THAT(ended.err, HasSubstr(" in, "));
}

/// The drill on a terminal of its own.
class DrillTerminal : public DrillRoom {
 protected:
  Command at_the_keys(Words options) const {
    options.insert(options.begin(), "drill");
    return kartwright(options, {{"XDG_STATE_HOME", state_.path()}, {"NO_COLOR", "1"}});
  }
};

TEST_F(DrillTerminal, ADrillIsAnsweredWithKeysAndTheNextPageFitsANewWidth) {
  Terminal terminal(at_the_keys({"--case", "first-hop"}), {.columns = 80, .rows = 40});
  terminal.expect("End: ");
  terminal.answer("rear");
  terminal.expect("Change: ");
  terminal.resize({.columns = 60, .rows = 20});
  terminal.answer("rear wider 15");
  const std::string page = terminal.expect("CARE");
  EXPECT_THAT(page, HasSubstr("100 of 100"));
  for (const std::string& line : lines_of(page.substr(page.find("YOU SAID"))))
    EXPECT_LE(width_of(line), 60U) << line;
  EXPECT_EQ(terminal.finish().exit, 0);
}

TEST_F(DrillTerminal, TwoSessionsOfOneTraineeKeepBothTheirDrills) {
  Terminal slow(at_the_keys({"--case", "first-hop", "--trainee", "fay"}));
  slow.expect("End: ");
  EXPECT_EQ(drill({"--case", "first-hop", "--trainee", "fay"}, "rear\nleave it\n").exit, 0);
  slow.answer("front");
  slow.expect("Change: ");
  slow.answer("leave it");
  EXPECT_EQ(slow.finish().exit, 0);
  EXPECT_EQ(lines_of(record("drill-fay.jsonl")).size(), 2U);
}

TEST_F(DrillTerminal, CtrlCEndsItWith130) {
  Terminal terminal(at_the_keys({"--trainee", "dee", "--count", "2"}));
  terminal.expect("End: ");
  terminal.answer("rear");
  terminal.expect("Change: ");
  terminal.press_ctrl_c();
  EXPECT_EQ(terminal.finish().exit, 130);
  EXPECT_FALSE(std::filesystem::exists(state_.path() + "/kartwright/drill-dee.jsonl"));
}

TEST_F(DrillTerminal, CtrlDEndsItNeatlyAndKeepsWhatWasFinished) {
  Terminal terminal(at_the_keys({"--case", "first-hop", "--trainee", "eve", "--count", "2"}));
  terminal.expect("End: ");
  terminal.answer("rear");
  terminal.expect("Change: ");
  terminal.answer("leave it");
  terminal.expect("2 of 2");
  terminal.expect("End: ");
  terminal.press_ctrl_d();
  EXPECT_EQ(terminal.finish().exit, 0);
  EXPECT_EQ(lines_of(record("drill-eve.jsonl")).size(), 1U);
}

}  // namespace
}  // namespace kartwright
