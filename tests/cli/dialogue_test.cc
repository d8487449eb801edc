// Asking and hearing: lines of any bytes, the end of a script, Ctrl-C.

#include "cli/dialogue.h"

#include <array>
#include <csignal>
#include <cstdlib>
#include <memory>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include "tests/cli/kartwright.h"

namespace kartwright::cli {
namespace {

using testing::Each;
using testing::HasSubstr;
using testing::Le;
using testing::ResultOf;

/// What will be read, and what was written.
class Talk {
 public:
  explicit Talk(const std::string& script) : in_(std::tmpfile()), out_(std::tmpfile()) {
    std::fwrite(script.data(), 1, script.size(), in_);
    std::rewind(in_);
  }
  ~Talk() {
    std::fclose(in_);
    std::fclose(out_);
  }
  Talk(const Talk&) = delete;
  Talk& operator=(const Talk&) = delete;

  int in() const { return fileno(in_); }
  std::FILE* out() const { return out_; }
  std::string written() const {
    std::string all(static_cast<std::size_t>(std::ftell(out_)), '\0');
    std::rewind(out_);
    all.resize(std::fread(all.data(), 1, all.size(), out_));
    return all;
  }

 private:
  std::FILE* in_;
  std::FILE* out_;
};

TEST(Dialogue, ReadsALineForAQuestionAndThenTheEnd) {
  const Talk talk("push\nyes, badly\r\n\nno end of line");
  Dialogue dialogue(talk.in(), talk.out());
  for (const char* line : {"push", "yes, badly", "", "no end of line"}) {
    const Reply reply = dialogue.ask("> ");
    EXPECT_EQ(reply.what, Reply::What::text);
    EXPECT_EQ(reply.text, line);
  }
  EXPECT_EQ(dialogue.ask("> ").what, Reply::What::end);
  EXPECT_EQ(dialogue.ask("> ").what, Reply::What::end);
}

TEST(Dialogue, WritesTheRepliesOfAScriptBehindTheirPrompts) {
  const Talk talk("push\n");
  Dialogue dialogue(talk.in(), talk.out());
  EXPECT_FALSE(dialogue.on_terminal());
  dialogue.say("Push or loose going in?");
  dialogue.ask("> ");
  EXPECT_EQ(talk.written(), "Push or loose going in?\n> push\n");
}

TEST(Dialogue, TakesAnyBytes) {
  const Talk talk(std::string("a\0b\n\xff\xfe!\n\x1b[2Jgone\n", 17));
  Dialogue dialogue(talk.in(), talk.out());
  EXPECT_EQ(dialogue.ask("> ").text, "a b");
  EXPECT_EQ(dialogue.ask("> ").text, "  !");
  EXPECT_EQ(dialogue.ask("> ").text, " [2Jgone");
}

TEST(Dialogue, CutsALineWithoutEndAndSaysSo) {
  const Talk talk(std::string(3000000, 'x') + "\nnext\n");
  Dialogue dialogue(talk.in(), talk.out());
  EXPECT_EQ(dialogue.ask("> ").text, std::string(Dialogue::kLongest, 'x'));
  EXPECT_EQ(dialogue.ask("> ").text, "next");
  EXPECT_THAT(talk.written(), HasSubstr("only its start was read"));
}

TEST(Dialogue, WrapsAtTheWidthAsItIsNow) {
  const Talk talk("an answer that is rather longer than what fits into a narrow window\n");
  setenv("COLUMNS", "40", 1);
  Dialogue dialogue(talk.in(), talk.out());
  dialogue.say("how does the kart behave when you turn it in, and how much of it is there?", 2);
  dialogue.ask("> ");
  unsetenv("COLUMNS");
  EXPECT_THAT(lines_of(talk.written()), Each(ResultOf(width_of, Le(40U))));
}

int caught_outside = 0;

TEST(Dialogue, TakesCtrlCAsAReplyAndGivesItBackAfterwards) {
  const auto before = std::signal(SIGINT, [](int) { ++caught_outside; });
  std::array<int, 2> silent{};
  ASSERT_EQ(pipe(silent.data()), 0);
  {
    const Talk talk("");
    Dialogue dialogue(silent[0], talk.out());
    std::raise(SIGINT);
    EXPECT_EQ(dialogue.ask("> ").what, Reply::What::interrupted);
    EXPECT_EQ(caught_outside, 0);
  }
  std::raise(SIGINT);
  EXPECT_EQ(caught_outside, 1);
  std::signal(SIGINT, before);
  for (const int end : silent) close(end);
}

TEST(Dialogue, LeavesCtrlCIgnoredWhereItWas) {
  const auto before = std::signal(SIGINT, SIG_IGN);
  const Talk talk("push\n");
  {
    Dialogue dialogue(talk.in(), talk.out());
    std::raise(SIGINT);
    EXPECT_EQ(dialogue.ask("> ").text, "push");
  }
  EXPECT_EQ(std::signal(SIGINT, before), SIG_IGN);
}

}  // namespace
}  // namespace kartwright::cli
