// The terminal of the tests is one: keys, signals and sizes arrive as they do from a real one.

#include "tests/support/terminal.h"

#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace kartwright {
namespace {

using testing::HasSubstr;

Command shell(const std::string& script) { return {.argv = {"/bin/sh", "-c", script}}; }

TEST(Terminal, IsATerminalOfTheSizeItWasGiven) {
  Terminal terminal(shell("test -t 0 && test -t 1 && test -t 2 && stty size"),
                    {.columns = 61, .rows = 20});
  const Ended ended = terminal.finish();
  EXPECT_EQ(ended.exit, 0);
  EXPECT_EQ(ended.out, "20 61\n");
}

TEST(Terminal, TypesKeysAndWaitsForWhatComes) {
  Terminal terminal(shell("printf 'who? '; read a; echo \"hello $a\"; exit 7"));
  terminal.expect("who? ");
  terminal.answer("chief");
  EXPECT_THAT(terminal.expect("hello chief"), HasSubstr("chief\n"));
  EXPECT_EQ(terminal.finish().exit, 7);
}

TEST(Terminal, SendsCtrlCAndCtrlD) {
  Terminal interrupted(shell("trap 'echo caught; exit 130' INT; echo ready; read a"));
  interrupted.expect("ready");
  interrupted.press_ctrl_c();
  interrupted.expect("caught");
  EXPECT_EQ(interrupted.finish().exit, 130);
  Terminal ended(shell("echo ready; read a || echo over"));
  ended.expect("ready");
  ended.press_ctrl_d();
  ended.expect("over");
}

TEST(Terminal, TellsOfANewSize) {
  Terminal terminal(shell("echo ready; read a; stty size"));
  terminal.expect("ready");
  terminal.resize({.columns = 40, .rows = 10});
  terminal.answer("");
  terminal.expect("10 40");
}

TEST(Terminal, SaysWhatWasSeenWhereSomethingDoesNotCome) {
  Terminal terminal(shell("echo here; read a"));
  try {
    terminal.expect("there", Terminal::Seconds(0.2));
    ADD_FAILURE() << "it came";
  } catch (const std::runtime_error& error) {
    EXPECT_THAT(error.what(), HasSubstr("here"));
  }
  EXPECT_THROW(terminal.finish(Terminal::Seconds(0.1)), std::runtime_error);
}

}  // namespace
}  // namespace kartwright
