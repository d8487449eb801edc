// How the program ends, and what it says where it cannot go on.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/cli/kartwright.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

TEST(Exit, AnAnswerIsZeroWithNothingOnStderr) {
  const Ended ended = run_kartwright({"advise", "--track", "cold", "--said", "pushes going in"});
  EXPECT_EQ(ended.exit, 0);
  EXPECT_THAT(ended.out, HasSubstr("CHANGE"));
  EXPECT_EQ(ended.err, "");
}

TEST(Exit, HelpAndVersionAreAnswers) {
  for (const Words& words : {Words{"--help"}, {"--version"}, {"advise", "--help"}}) {
    const Ended ended = run_kartwright(words);
    EXPECT_EQ(ended.exit, 0) << words.back();
    EXPECT_THAT(ended.out, Not(IsEmpty())) << words.back();
    EXPECT_EQ(ended.err, "") << words.back();
  }
}

struct Slip {
  const char* name;
  Words options;
  const char* help;  ///< that stderr must hold: the nearest name, or what was expected
};

void PrintTo(const Slip& slip, std::ostream* out) { *out << slip.name; }

class Usage : public testing::TestWithParam<Slip> {};

TEST_P(Usage, ASlipIsTwoAndTheNearestNameIsGiven) {
  const Ended ended = run_kartwright(GetParam().options);
  EXPECT_EQ(ended.exit, 2);
  EXPECT_EQ(ended.out, "");
  EXPECT_THAT(ended.err, HasSubstr(GetParam().help));
}

INSTANTIATE_TEST_SUITE_P(
    Slips, Usage,
    testing::Values(
        Slip{"no command", {}, "--help"}, Slip{"command", {"advsie"}, "`advise`"},
        Slip{"option", {"advise", "--trak", "cold"}, "`--track`"},
        Slip{"option with =", {"advise", "--trak=cold"}, "`--track`"},
        Slip{"stray word", {"advise", "cold"}, "inputs are named"},
        Slip{"no value", {"advise", "--kart"}, "`--kart` has no value"},
        Slip{"no value but an option",
             {"advise", "--kart", "--track", "wet"},
             "`--kart` has no value"},
        Slip{"units of start", {"start", "--units", "imperial"}, "not an option of start"},
        Slip{"a track half typed", {"advise", "--track", "rubber"}, "`rubbered-in`"},
        Slip{"minutes of a year", {"advise", "--minutes", "500000"}, "from 0 to 10000"},
        Slip{"twice", {"advise", "--track", "cold", "--track", "wet"}, "given 2 times"},
        Slip{"track", {"advise", "--track", "clod"}, "`cold`"},
        Slip{"symptom", {"advise", "--report", "hopp@mid"}, "`hop`"},
        Slip{"phase", {"advise", "--report", "push@entyr"}, "`entry`"},
        Slip{"severity", {"advise", "--report", "push@entry=7"}, "3 severe"},
        Slip{"fact", {"advise", "--fact", "trun-in=brake"}, "`turn-in`"},
        Slip{"value of a fact", {"advise", "--fact", "turn-in=brakes"}, "`brake`"},
        Slip{"laps", {"advise", "--laps", "fster"}, "`faster`"},
        Slip{"format", {"advise", "--format", "jsn"}, "`json`"},
        Slip{"a form of other commands", {"drill", "--format", "html"}, "one of text, json"},
        Slip{"a table of an answer", {"advise", "--format", "csv"}, "one of text, json, html"},
        Slip{"units", {"advise", "--units", "imperail"}, "`imperial`"},
        Slip{"minutes", {"advise", "--minutes", "ten"}, "--minutes"},
        Slip{"minutes below zero", {"advise", "--minutes", "-5"}, "--minutes"},
        Slip{"minutes without end", {"advise", "--minutes", "inf"}, "--minutes"},
        Slip{"hours", {"advise", "--hours", "1,5"}, "--hours"},
        Slip{"two from one input", {"advise", "--kart", "-", "--debrief", "-"}, "standard input"},
        Slip{"explain", {"explain", "hopp"}, "`hop`"},
        Slip{"explain, nothing near", {"explain", "zzzzzzzz"}, "kartwright explain"}));

TEST(Exit, EverySlipOfOneCommandIsTold) {
  const Ended ended =
      run_kartwright({"advise", "--track", "clod", "--report", "hopp", "--fact", "hitt=yes"});
  EXPECT_EQ(ended.exit, 2);
  for (const char* near : {"`cold`", "`hop`", "`hit`"}) EXPECT_THAT(ended.err, HasSubstr(near));
}

TEST(Exit, ABadKartFileIsSixtyFiveWithItsPlace) {
  const TempFolder folder;
  const std::string kart =
      folder.write("blue.yaml", "kart: blue\nsettings:\n  rear-width: 1360 furlongs\n");
  const Ended ended = run_kartwright({"advise", "--kart", kart, "--track", "cold"});
  EXPECT_EQ(ended.exit, 65);
  EXPECT_EQ(ended.out, "");
  EXPECT_THAT(ended.err, HasSubstr(kart + ":3:15: error["));
  EXPECT_THAT(ended.err, HasSubstr("rear-width: 1360 furlongs"));
  EXPECT_THAT(ended.err, HasSubstr("^^^^"));
}

TEST(Exit, EveryMistakeOfAKartFileIsTold) {
  const TempFolder folder;
  const std::string kart = folder.write(
      "blue.yaml", "kart: blue\nsetings: {}\nsettings:\n  rear-widht: 1360 mm\n  toe: 40 in\n");
  const Ended ended = run_kartwright({"advise", "--kart", kart, "--track", "cold"});
  EXPECT_EQ(ended.exit, 65);
  for (const char* place : {":2:1:", ":4:3:", ":5:8:"})
    EXPECT_THAT(ended.err, HasSubstr(kart + place));
  EXPECT_THAT(ended.err, HasSubstr("`settings`"));
  EXPECT_THAT(ended.err, HasSubstr("`rear-width`"));
}

TEST(Exit, ABadDebriefFileIsSixtyFiveWithItsPlace) {
  const TempFolder folder;
  const std::string debrief = folder.write("heat.yaml", "track: cold\nreports: [hopp@mid]\n");
  const Ended ended = run_kartwright({"advise", "--debrief", debrief});
  EXPECT_EQ(ended.exit, 65);
  EXPECT_EQ(ended.out, "");
  EXPECT_THAT(ended.err, HasSubstr(debrief + ":2:11: error["));
  EXPECT_THAT(ended.err, HasSubstr("`hop`"));
}

TEST(Exit, AFileThatIsNotThereIsSixtySix) {
  const TempFolder folder;
  const std::string missing = folder.path() + "/none.yaml";
  for (const char* option : {"--kart", "--debrief"}) {
    const Ended ended = run_kartwright({"advise", option, missing});
    EXPECT_EQ(ended.exit, 66) << option;
    EXPECT_EQ(ended.out, "") << option;
    EXPECT_THAT(ended.err, HasSubstr(missing)) << option;
  }
  EXPECT_EQ(run_kartwright({"advise", "--rules", missing}).exit, 66);
}

TEST(Exit, AKartThatTheDebriefPointsAtIsSoughtBesideIt) {
  const TempFolder folder;
  folder.write("karts/blue.yaml", "kart: blue of the next folder\n");
  const std::string near = folder.write("near.yaml", "kart: karts/blue.yaml\ntrack: cold\n");
  const std::string far = folder.write("far.yaml", "kart: blue.yaml\ntrack: cold\n");
  EXPECT_THAT(run_kartwright({"advise", "--debrief", near}).out,
              HasSubstr("blue of the next folder"));
  const Ended missing = run_kartwright({"advise", "--debrief", far});
  EXPECT_EQ(missing.exit, 66);
  EXPECT_THAT(missing.err, HasSubstr(folder.path() + "/blue.yaml"));
}

TEST(Exit, AFolderIsNoFile) {
  const TempFolder folder;
  const Ended ended = run_kartwright({"advise", "--kart", folder.path()});
  EXPECT_EQ(ended.exit, 66);
  EXPECT_EQ(ended.out, "");
  EXPECT_THAT(ended.err, HasSubstr("folder"));
}

class Unwritable : public testing::TestWithParam<Stdout> {};

TEST_P(Unwritable, OutputIsSeventyFour) {
  for (const Words& words : {Words{"advise", "--track", "cold", "--said", "hops"},
                             {"advise", "--track", "cold", "--said", "hops", "--format", "json"},
                             {"explain"},
                             {"explain", "hop"},
                             {"start"},
                             {"start", "--example"},
                             {"--help"}}) {
    Command command = kartwright(words);
    command.out = GetParam();
    EXPECT_EQ(run(command).exit, 74) << words.front() << " " << words.back();
  }
}

INSTANTIATE_TEST_SUITE_P(Where, Unwritable, testing::Values(Stdout::closed, Stdout::full_disk));

TEST(Exit, AWarningGoesToStderrAndTheAnswerIsGiven) {
  const TempFolder folder;
  const std::string kart =
      folder.write("blue.yaml", "kart: blue\nsettings:\n  rear-width: 1362 mm\n");
  const Words words{"advise", "--kart", kart, "--track", "cold", "--said", "loose off"};
  const Ended loud = run_kartwright(words);
  EXPECT_EQ(loud.exit, 0);
  EXPECT_THAT(loud.err, HasSubstr(kart + ":3:15: warning["));
  Words hushed = words;
  hushed.emplace_back("-q");
  const Ended quiet = run_kartwright(hushed);
  EXPECT_EQ(quiet.err, "");
  EXPECT_EQ(quiet.out, loud.out);
}

TEST(Exit, VerboseSpeaksOnStderrOnly) {
  const Words words{"advise", "--debrief", demo_debrief()};
  Words talkative = words;
  talkative.emplace_back("-v");
  const Ended verbose = run_kartwright(talkative);
  EXPECT_THAT(verbose.err, HasSubstr(demo_debrief()));
  EXPECT_EQ(verbose.out, run_kartwright(words).out);
}

}  // namespace
}  // namespace kartwright
