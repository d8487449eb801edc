// `advise --ask` at a terminal, with real keys: answers, back, a window pulled narrow, Ctrl-C and
// what is kept then, Ctrl-D.

#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/cli/kartwright.h"
#include "tests/cli/pit_box.h"
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

namespace fs = std::filesystem;

/// A crew at a terminal, with a folder to remember in.
class AtTheTerminal : public testing::Test {
 protected:
  Command ask(const Words& more = {"--track", "green"}) const {
    Words words{"advise", "--ask"};
    words.insert(words.end(), more.begin(), more.end());
    return kartwright(words, {{"XDG_STATE_HOME", state_.path()}, {"NO_COLOR", "1"}});
  }

  std::vector<std::string> kept() const {
    std::vector<std::string> files;
    const fs::path folder = fs::path(state_.path()) / "kartwright";
    if (!fs::exists(folder)) return files;
    for (const auto& entry : fs::directory_iterator(folder)) files.push_back(entry.path().string());
    return files;
  }

  /// Answers one question and breaks off.
  Ended break_off(const Words& more = {"--track", "green"}) const {
    Terminal terminal(ask(more));
    terminal.expect("hop or bounce?");
    terminal.expect("> ");
    terminal.answer("n");
    terminal.expect("\n> ");
    terminal.press_ctrl_c();
    return terminal.finish();
  }

  TempFolder state_;
};

TEST_F(AtTheTerminal, AnswersLeadToTheAdvice) {
  Terminal terminal(ask());
  terminal.expect("1. In the middle, does it hop or bounce?");
  terminal.expect("> ");
  terminal.answer("n");
  terminal.expect("heard: no hop mid");
  terminal.expect("\n> ");
  terminal.answer("done");
  const Ended ended = terminal.finish();
  EXPECT_EQ(ended.exit, 0);
  EXPECT_THAT(ended.out, HasSubstr("\nCHANGE "));
  EXPECT_THAT(kept(), testing::IsEmpty());
}

TEST_F(AtTheTerminal, BackAsksTheSameQuestionAgain) {
  Terminal terminal(ask());
  terminal.expect("1. In the middle, does it hop or bounce?");
  terminal.expect("> ");
  terminal.answer("n");
  terminal.expect("2. ");
  terminal.expect("\n> ");
  terminal.answer("b");
  terminal.expect("Taken back.");
  terminal.expect("1. In the middle, does it hop or bounce?");
}

TEST_F(AtTheTerminal, AWindowPulledNarrowIsFilledAsItIsThen) {
  Terminal terminal(ask({"--track", "green", "--said", "pushes in the middle"}), {.columns = 100});
  terminal.expect("1. ");
  terminal.expect("> ");
  terminal.resize({.columns = 60, .rows = 20});
  const std::size_t before = terminal.seen().size();
  terminal.answer("?");
  terminal.expect("2. ");
  terminal.expect("\n> ");
  terminal.resize({.columns = 40, .rows = 20});
  const std::size_t narrow = terminal.seen().size();
  terminal.answer("1");
  terminal.expect("3. ");
  terminal.expect("\n> ");
  const std::string& seen = terminal.seen();
  EXPECT_THAT(lines_of(seen.substr(before, narrow - before)), Each(ResultOf(width_of, Le(60U))));
  EXPECT_THAT(lines_of(seen.substr(narrow)), Each(ResultOf(width_of, Le(40U))));
  EXPECT_GT(narrow, before + 100U);
}

TEST_F(AtTheTerminal, CtrlCKeepsWhatWasAnsweredAndSaysHowToGoOn) {
  const Ended ended = break_off();
  EXPECT_EQ(ended.exit, 130);
  EXPECT_THAT(ended.out, AllOf(HasSubstr("1 answer kept"), HasSubstr("kartwright advise --ask"),
                               Not(HasSubstr("CHANGE"))));
  ASSERT_EQ(kept().size(), 1U);
  const Ended from_file = run_kartwright({"advise", "--debrief", kept()[0]});
  EXPECT_EQ(from_file.exit, 0);
  EXPECT_THAT(from_file.out, AllOf(HasSubstr("no hop mid"), HasSubstr("track green")));
}

TEST_F(AtTheTerminal, CtrlCBeforeAnyAnswerKeepsNothing) {
  Terminal terminal(ask());
  terminal.expect("\n> ");
  terminal.press_ctrl_c();
  const Ended ended = terminal.finish();
  EXPECT_EQ(ended.exit, 130);
  EXPECT_THAT(ended.out, HasSubstr("nothing is kept"));
  EXPECT_THAT(kept(), testing::IsEmpty());
}

TEST_F(AtTheTerminal, WhatWasBrokenOffIsOfferedAndTakenUp) {
  break_off();
  Terminal terminal(ask({}));
  terminal.expect("broken off: a typical sprint kart, track green, 1 answer.");
  terminal.expect("> ");
  terminal.answer("maybe");
  terminal.expect("y to go on");
  terminal.expect("> ");
  terminal.answer("y");
  const std::string between = terminal.expect("\n> ");
  EXPECT_THAT(between, Not(HasSubstr("In the middle, does it hop")));
  terminal.press_ctrl_d();
  const Ended ended = terminal.finish();
  EXPECT_EQ(ended.exit, 0);
  EXPECT_THAT(ended.out, HasSubstr("HEARD      no hop mid"));
  EXPECT_THAT(kept(), testing::IsEmpty());
}

TEST_F(AtTheTerminal, WhatWasBrokenOffIsForgottenWhereTheCrewWantsThat) {
  break_off();
  Terminal terminal(ask());
  terminal.expect("Go on with it?");
  terminal.expect("> ");
  terminal.answer("no");
  terminal.expect("1. In the middle, does it hop or bounce?");
  EXPECT_THAT(kept(), testing::IsEmpty());
}

TEST_F(AtTheTerminal, BreakingOffAgainKeepsAllThatWasAnswered) {
  break_off();
  Terminal terminal(ask());
  terminal.expect("Go on with it?");
  terminal.expect("> ");
  terminal.answer("y");
  terminal.expect("\n> ");
  terminal.answer("n");
  terminal.expect("2. ");
  terminal.expect("\n> ");
  terminal.press_ctrl_c();
  EXPECT_THAT(terminal.finish().out, HasSubstr("2 answers kept"));
}

TEST_F(AtTheTerminal, EveryKartHasItsOwn) {
  break_off();
  const PitBox box;
  const Words blue{"--kart", box.kart(), "--track", "green"};
  {
    Terminal terminal(ask(blue));
    EXPECT_THAT(terminal.expect("\n> "), Not(HasSubstr("broken off")));
    terminal.answer("n");
    terminal.expect("2. ");
    terminal.expect("\n> ");
    terminal.press_ctrl_c();
    terminal.expect("--kart");
    EXPECT_EQ(terminal.finish().exit, 130);
  }
  EXPECT_EQ(kept().size(), 2U);
  Terminal terminal(ask(blue));
  terminal.expect("broken off: blue 27, track green, 1 answer.");
}

TEST_F(AtTheTerminal, AScriptLeavesWhatWasBrokenOffAlone) {
  break_off();
  const std::string before = file_text(kept().at(0));
  Command command = ask();
  command.input = "n\n";
  const Ended ended = run(command);
  EXPECT_EQ(ended.exit, 0);
  EXPECT_THAT(ended.err, HasSubstr("It is left alone"));
  EXPECT_EQ(file_text(kept().at(0)), before);
}

TEST_F(AtTheTerminal, ADamagedOneIsToldOfAndDoesNoHarm) {
  break_off();
  for (const char* damage : {"track: [", "reports:\n  - flurb=9\n", "\xff\xfe"}) {
    state_.write(fs::relative(kept().at(0), state_.path()).string(), damage);
    Terminal terminal(ask());
    terminal.expect("cannot be read any more");
    terminal.expect("1. In the middle, does it hop or bounce?");
    terminal.expect("\n> ");
    terminal.press_ctrl_d();
    EXPECT_EQ(terminal.finish().exit, 0);
  }
}

TEST_F(AtTheTerminal, WithoutAFolderToKeepItInThatIsSaidOnceAndTheQuestionsGoOn) {
  const std::string file = state_.write("in-the-way", "");
  Command command = ask();
  command.env["XDG_STATE_HOME"] = file;
  Terminal terminal(command);
  terminal.expect("\n> ");
  terminal.answer("n");
  terminal.expect("cannot be kept");
  terminal.expect("\n> ");
  terminal.answer("n");
  EXPECT_THAT(terminal.expect("\n> "), Not(HasSubstr("cannot be kept")));
  terminal.press_ctrl_c();
  EXPECT_THAT(terminal.finish().out, HasSubstr("nothing is kept"));
}

TEST_F(AtTheTerminal, WithoutAHomeThatIsSaid) {
  Command command = ask();
  command.env["XDG_STATE_HOME"] = "";
  command.env["HOME"] = "";
  Terminal terminal(command);
  terminal.expect("Neither XDG_STATE_HOME nor HOME is set");
  terminal.expect("\n> ");
  terminal.answer("done");
  EXPECT_EQ(terminal.finish().exit, 0);
}

TEST_F(AtTheTerminal, TheAnswerCanGoIntoAFile) {
  const Command command = ask();
  Command shell{.argv = {"/bin/sh", "-c", "\"$0\" \"$@\" > \"$OUT\""}, .env = command.env};
  shell.argv.insert(shell.argv.end(), command.argv.begin(), command.argv.end());
  shell.env["OUT"] = state_.path() + "/answer.txt";
  Terminal terminal(shell);
  terminal.expect("\n> ");
  terminal.press_ctrl_d();
  EXPECT_THAT(terminal.finish().out, Not(HasSubstr("CHANGE")));
  EXPECT_EQ(file_text(state_.path() + "/answer.txt"),
            run_kartwright({"advise", "--track", "green"}).out);
}

}  // namespace
}  // namespace kartwright
