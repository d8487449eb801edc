// `advise --ask` with a script of answers: questions on stderr, the usual advice on stdout.

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"
#include "tests/cli/pit_box.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::Each;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Le;
using testing::Not;
using testing::ResultOf;

Ended ask(const std::string& answers, Words more = {"--track", "green"}, Environment env = {}) {
  more.insert(more.begin(), {"advise", "--ask"});
  Command command = kartwright(more, env);
  command.input = answers;
  return run(command);
}

TEST(Ask, QuestionsOnStderrAndGivesTheUsualAdviceOnStdout) {
  const Ended asked = ask("y3\ndone\n");
  EXPECT_EQ(asked.exit, 0);
  EXPECT_THAT(asked.err, AllOf(HasSubstr("1. In the middle, does it hop or bounce? (worth "),
                               HasSubstr("\n> y3\n"), HasSubstr("heard: hop mid, severe"),
                               HasSubstr("First is now: "), HasSubstr("(was: ")));
  const Ended told = run_kartwright({"advise", "--track", "green", "--report", "hop@mid=3"});
  EXPECT_EQ(asked.out, told.out);
}

TEST(Ask, GivesTheSameJsonAsTheReportsWrittenOut) {
  const Ended asked = ask("3\n1\np2\n", {"--format", "json", "--brief"});
  const Ended told =
      run_kartwright({"advise", "--format", "json", "--brief", "--track", "rubbered-in"});
  EXPECT_THAT(asked.err, HasSubstr("Is the track cold, green, rubbered in"));
  const auto heard = nlohmann::json::parse(asked.out).at("heard");
  Words words{"advise", "--format", "json", "--brief", "--track", "rubbered-in"};
  for (const auto& report : heard.at("reports")) {
    words.emplace_back("--report");
    words.push_back(report.at("symptom").get<std::string>() + "@" +
                    report.at("phase").get<std::string>() + "=" +
                    std::to_string(report.at("severity").get<int>()));
  }
  EXPECT_GE(words.size(), 8U);
  EXPECT_EQ(asked.out, run_kartwright(words).out);
  EXPECT_NE(asked.out, told.out);
}

TEST(Ask, StopsWhenNoQuestionIsWorthAPoint) {
  std::string answers;
  for (int i = 0; i < 60; ++i) answers += "n\n";
  const Ended asked = ask(answers);
  EXPECT_THAT(asked.err, HasSubstr("No further question is worth a point."));
  EXPECT_THAT(asked.out, HasSubstr("READING"));
}

TEST(Ask, TakesTheEndOfTheScriptAsTheEndOfTheQuestions) {
  const Ended asked = ask("y3");
  EXPECT_EQ(asked.exit, 0);
  EXPECT_THAT(asked.out, HasSubstr("hop mid, severe"));
  EXPECT_EQ(ask("").out, run_kartwright({"advise", "--track", "green"}).out);
}

TEST(Ask, GoesBackAndTellsWhatComesFirstAgain) {
  const Words begun{"--track", "green", "--said", "pushes in the middle"};
  const Ended asked = ask("t\nback\ndone\n", begun);
  EXPECT_THAT(asked.err, HasSubstr("Taken back. Moved: "));
  EXPECT_EQ(asked.out, ask("", begun).out);
  EXPECT_THAT(ask("b\n").err, HasSubstr("There is no question before this one."));
}

TEST(Ask, SaysWhatItDoesNotUnderstandAndAsksAgain) {
  const Ended asked = ask("\nflurb\nyes\n");
  EXPECT_THAT(asked.err,
              AllOf(HasSubstr("Type y, n, or how much"), HasSubstr("not understood: \"flurb\""),
                    HasSubstr("heard: hop mid, clear")));
}

TEST(Ask, DoesNotGoOnForEverWithAScriptThatSaysNothing) {
  std::string answers;
  for (int i = 0; i < 5000; ++i) answers += "flurb\n";
  const Ended asked = ask(answers);
  EXPECT_EQ(asked.exit, 0);
  EXPECT_THAT(asked.err, HasSubstr("The script does not answer"));
  EXPECT_LT(asked.err.size(), 20000U);
}

TEST(Ask, TakesAnyBytesForAnAnswer) {
  const Ended asked =
      ask(std::string("\xff\xfe\0\x1b[2J\r\n", 9) + std::string(100000, 'y') + "\ny3\r\n");
  EXPECT_EQ(asked.exit, 0);
  EXPECT_FALSE(has_control(asked.err));
  EXPECT_THAT(asked.out, HasSubstr("hop mid, severe"));
}

TEST(Ask, FitsANarrowPageAndAscii) {
  for (const char* columns : {"80", "60", "40"}) {
    const Ended asked =
        ask("3\n\nt\nhops like mad in the middle and it pushes going in\nb\nflurb\n", {},
            {{"COLUMNS", columns}, {"LC_ALL", "C"}});
    EXPECT_TRUE(is_ascii(asked.err));
    EXPECT_THAT(lines_of(asked.err),
                Each(ResultOf(width_of, Le(static_cast<std::size_t>(std::stoi(columns))))));
  }
}

TEST(Ask, HoldsItsKeysInOneLineOfSixtyColumns) {
  const Ended asked =
      ask("3\nn\n?\n?\n?\n?\n?\n", {"--said", "pushes in the middle"}, {{"COLUMNS", "60"}});
  EXPECT_THAT(lines_of(asked.err),
              AllOf(Contains("1 cold, 2 green, 3 rubbered-in, 4 greasy, 5 wet, ? skip"),
                    Contains("t twitchy, l lazy, n neither, 1-3 amount, ? skip, b back"),
                    Contains("p push, l loose, n neither, 1-3 amount, ? skip, b back"),
                    Contains("y yes, n no, 1 slight to 3 severe, ? skip, b back")));
}

TEST(Ask, IsRefusedWithABatchAndWithFilesOnStandardInput) {
  for (const Words& words : {Words{"--batch", "x"}, {"--kart", "-"}, {"--debrief", "-"}}) {
    const Ended asked = ask("", words);
    EXPECT_EQ(asked.exit, 2) << words[0];
    EXPECT_THAT(asked.err, HasSubstr("--ask")) << words[0];
  }
}

TEST(Ask, RemembersItsAdviceInTheLogForApply) {
  const PitBox box;
  ASSERT_EQ(box.add({"--track", "green"}).exit, 0);
  const Ended asked = ask("n\nn\n", {"--kart", box.kart(), "--log", box.log(), "--track", "green",
                                     "--said", "hops hard in the middle"});
  ASSERT_EQ(asked.exit, 0);
  EXPECT_EQ(box.apply({"--change", "1", "--dry-run"}).exit, 0);
}

TEST(Ask, KeepsNothingOfAScript) {
  const TempFolder state;
  const Ended asked = ask("y3\n", {"--track", "green"}, {{"XDG_STATE_HOME", state.path()}});
  EXPECT_EQ(asked.exit, 0);
  EXPECT_TRUE(std::filesystem::is_empty(state.path()));
}

}  // namespace
}  // namespace kartwright
