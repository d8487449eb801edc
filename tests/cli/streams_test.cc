// What goes in by standard input and what may come out: nothing that steers a terminal, and the
// same bytes whatever the surroundings.

#include <clocale>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <locale.h>

#include "tests/cli/kartwright.h"
#include "tests/support/scenario_files.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::Not;

Ended with_input(const Words& options, const std::string& input) {
  Command command = kartwright(options);
  command.input = input;
  return run(command);
}

TEST(StandardInput, ADashReadsTheKart) {
  const Ended ended =
      with_input({"advise", "--kart", "-", "--track", "cold"}, "kart: from a pipe\n");
  EXPECT_EQ(ended.exit, 0);
  EXPECT_THAT(ended.out, HasSubstr("from a pipe"));
}

TEST(StandardInput, ADashReadsTheDebrief) {
  const Ended ended =
      with_input({"advise", "--debrief", "-"}, "track: rubbered-in\nsaid: hops in the middle\n");
  EXPECT_EQ(ended.exit, 0);
  EXPECT_THAT(ended.out, HasSubstr("rubbered in"));
  EXPECT_THAT(ended.out, HasSubstr("hops in the middle"));
}

TEST(StandardInput, AMistakeInItHasItsPlace) {
  const Ended ended = with_input({"advise", "--debrief", "-"}, "track: cold\nsiad: hops\n");
  EXPECT_EQ(ended.exit, 65);
  EXPECT_THAT(ended.err, HasSubstr(":2:1:"));
  EXPECT_THAT(ended.err, HasSubstr("`said`"));
}

TEST(StandardInput, TheExampleKartGoesThroughAPipe) {
  const Ended ended = run({.argv = {"/bin/sh", "-c",
                                    "\"$0\" start --example | \"$0\" advise --kart - --track "
                                    "rubbered-in --said 'hops in the middle'",
                                    binary()},
                           .env = {{"LC_ALL", "C.UTF-8"}}});
  EXPECT_EQ(ended.exit, 0);
  EXPECT_EQ(ended.err, "");
  EXPECT_THAT(ended.out, HasSubstr("rear wider"));
}

TEST(StandardInput, TheFileToFillInGoesThroughAPipe) {
  const Ended blank = run_kartwright({"start"});
  EXPECT_EQ(with_input({"advise", "--kart", "-", "--track", "cold"}, blank.out).exit, 0);
}

// --- the same bytes everywhere
// --------------------------------------------------------------------

/// Asks the system's own `locale`, in a process of its own: loading one here stays in memory.
bool has_decimal_comma(const std::string& name) {
  return run({.argv = {"/usr/bin/locale", "decimal_point"}, .env = {{"LC_ALL", name}}}).out ==
         ",\n";
}

class Surroundings : public testing::TestWithParam<std::string> {};

TEST_P(Surroundings, LocaleAndTimeZoneChangeNoByte) {
  if (!has_decimal_comma("de_DE.UTF-8")) {
    GTEST_SKIP() << "no locale with a decimal comma: tests/run.sh compiles one";
  }
  const Words json{"advise", "--debrief", GetParam(), "--format", "json"};
  const Ended plain = run_kartwright(json, {{"LC_ALL", "C"}});
  EXPECT_EQ(plain.exit, 0);
  for (const Environment& env :
       {Environment{{"LC_ALL", "de_DE.UTF-8"}},
        {{"LC_ALL", "C.UTF-8"}},
        {{"LC_ALL", "de_DE.UTF-8"}, {"TZ", "Pacific/Auckland"}},
        {{"LC_ALL", "C"}, {"TZ", "Pacific/Auckland"}, {"COLUMNS", "60"}}}) {
    EXPECT_EQ(run_kartwright(json, env).out, plain.out);
  }
  const Words text{"advise", "--debrief", GetParam(), "--why"};
  EXPECT_EQ(run_kartwright(text, {{"LC_ALL", "de_DE.UTF-8"}}).out, run_kartwright(text).out);
}

INSTANTIATE_TEST_SUITE_P(All, Surroundings, testing::ValuesIn(scenarios_to_run()),
                         [](const testing::TestParamInfo<std::string>& file) {
                           std::string name = scenario_name(file.param);
                           for (char& c : name) c = c == '/' || c == '-' ? '_' : c;
                           return name;
                         });

TEST(SameAnswer, ADecimalCommaIsNotReadEither) {
  const Words words{"advise", "--track", "rubbered-in", "--said", "hops", "--minutes", "7.5"};
  EXPECT_EQ(run_kartwright(words, {{"LC_ALL", "de_DE.UTF-8"}}).out, run_kartwright(words).out);
}

TEST(SameAnswer, TheSameQuestionTwiceHasTheSameAnswer) {
  const Words words{"advise", "--debrief", demo_debrief(), "--format", "json"};
  EXPECT_EQ(run_kartwright(words).out, run_kartwright(words).out);
}

TEST(SameAnswer, TheOrderOfReportsChangesNothingButWhatWasHeard) {
  const Ended one = run_kartwright({"advise", "--track", "green", "--report", "push@entry=2",
                                    "--report", "hop@mid=1", "--fact", "turn-in=brake"});
  const Ended other = run_kartwright({"advise", "--track", "green", "--fact", "turn-in=brake",
                                      "--report", "hop@mid=1", "--report", "push@entry=2"});
  EXPECT_EQ(one.out, other.out);
}

// --- nothing that steers a terminal
// ---------------------------------------------------------------

constexpr const char* kHostile =
    "hops \x1b[31min the middle\x07 \xc2\x9b"
    "31m zz\x7fyy \xe2\x80\xaevv \x08\x08 and the w\x1b]0;owned\x07ibble";

TEST(ControlCharacters, OfTheWordsNeverReachTheOutputRaw) {
  for (const char* format : {"text", "json"}) {
    const Ended ended = run_kartwright(
        {"advise", "--track", "cold", "--said", kHostile, "--format", format, "--why"});
    EXPECT_EQ(ended.exit, 0) << format;
    EXPECT_FALSE(has_control(ended.out)) << format;
    for (const char* steering : {"\xc2\x9b", "\xe2\x80\xae"})
      EXPECT_THAT(ended.out, Not(HasSubstr(steering))) << format;
    EXPECT_THAT(ended.out, HasSubstr("hop")) << format;
  }
}

TEST(ControlCharacters, OfAKartsNameNeverReachTheOutputRaw) {
  const TempFolder folder;
  const std::string kart = folder.write("blue.yaml", "kart: \"blue \\e[31m \\a one\"\n");
  for (const char* format : {"text", "json"}) {
    const Ended ended =
        run_kartwright({"advise", "--kart", kart, "--track", "cold", "--format", format});
    EXPECT_EQ(ended.exit, 0) << format << ended.err;
    EXPECT_FALSE(has_control(ended.out)) << format;
    EXPECT_THAT(ended.out, HasSubstr("blue")) << format;
  }
}

TEST(ControlCharacters, OfAMisspeltNameNeverReachStderrRaw) {
  for (const Words& words : {Words{"advise", "--track", "co\x1b[31mld"},
                             {"advise", "--report", "ho\x1b[31mp"},
                             {"advise", "--fact", "hi\x1b[31mt=yes"},
                             {"explain", "ho\x1b[31mp"},
                             {"adv\x1b[31mise"},
                             {"advise", "--tra\x1b[31mck", "cold"},
                             {"advise", "--format", "js\x1b[31mon"},
                             {"advise", "--minutes", "1\x1b[31m0"},
                             {"advise", "--kart", "no\x1b[31mne.yaml"}}) {
    const Ended ended = run_kartwright(words);
    EXPECT_NE(ended.exit, 0) << words.back();
    EXPECT_FALSE(has_control(ended.err)) << words.back();
  }
}

TEST(ControlCharacters, BytesThatAreNoTextStillGiveJson) {
  const Ended ended = run_kartwright(
      {"advise", "--track", "cold", "--said", "hops \xff\xfe mid \xc3", "--format", "json"});
  EXPECT_EQ(ended.exit, 0);
  EXPECT_THAT(ended.out, HasSubstr("\"hop\""));
}

// --- modest
// ---------------------------------------------------------------------------------------

TEST(Memory, AnAnswerTakesLittle) {
  if (watched()) GTEST_SKIP() << "the sanitizers take their own memory";
  const Ended ended = run_kartwright({"advise", "--debrief", demo_debrief()});
  EXPECT_GT(ended.peak_kib, 0);
  EXPECT_LT(ended.peak_kib, 64 * 1024);
}

}  // namespace
}  // namespace kartwright
