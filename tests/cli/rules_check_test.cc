// rules check, list and show: is a rule pack sound, and what is in it.

#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using Json = nlohmann::json;
using testing::EndsWith;
using testing::HasSubstr;
using testing::Not;

constexpr const char* kNeverSpeaks = R"(readings:
  - id: cold-and-wet-at-once
    when: {all: [{track: cold}, {track: wet}]}
    row: {rear-grip: 1}
    value: -2 ± 0.1
    because: it cannot be both
    provenance: {practice: common}
    status: test
)";

constexpr const char* kCasesOfSaidTwice = R"(cases:
  - {case: a cold morning, track: cold, fires: [our-cold-track]}
  - {case: rubber down, track: rubbered-in, silent: [our-cold-track]}
)";

constexpr const char* kSaidTwice = R"(readings:
  - id: our-cold-track
    when: {track: cold}
    row: {rear-grip: 1}
    value: -0.7 ± 0.8
    because: as everybody says
    provenance: {practice: common}
    status: test
)";

TEST(RulesCheck, FindsNoErrorAndNoWarningInTheRulesOfTheProgram) {
  const Ended ended = run_kartwright({"rules", "check"});
  EXPECT_EQ(ended.exit, 0) << ended.out;
  EXPECT_EQ(ended.err, "");
  EXPECT_THAT(lines_of(ended.out).back(), HasSubstr("no errors, no warnings"));
}

TEST(RulesCheck, AnErrorIsSixtyFiveWithItsPlaceLineAndHelp) {
  const TempFolder folder;
  const std::string file = folder.write("ours.yaml", kNeverSpeaks);
  const Ended ended = run_kartwright({"rules", "check", "--rules", folder.path()});
  EXPECT_EQ(ended.exit, 65);
  EXPECT_EQ(ended.err, "");
  EXPECT_THAT(ended.out, HasSubstr(file + ":2:5: error[A001]: `cold-and-wet-at-once`"));
  EXPECT_THAT(ended.out, HasSubstr("  - id: cold-and-wet-at-once\n"));
  EXPECT_THAT(ended.out, HasSubstr("help: `track:cold` and `track:wet` exclude each other"));
  EXPECT_THAT(lines_of(ended.out).back(), HasSubstr("2 errors, no warnings"));
}

TEST(RulesCheck, AWarningDoesNotFail) {
  const TempFolder folder;
  folder.write("ours.yaml", kSaidTwice);
  folder.write("ours.cases.yaml", kCasesOfSaidTwice);
  const Ended ended = run_kartwright({"rules", "check", "--rules", folder.path()});
  EXPECT_EQ(ended.exit, 0);
  EXPECT_THAT(ended.out, HasSubstr("warning[A003]: `cold-track-is-short-of-rear-grip`"));
}

TEST(RulesCheck, QuietlyTellsErrorsAndHowMuchElseThereIs) {
  const TempFolder folder;
  folder.write("ours.yaml", std::string(kNeverSpeaks) + std::string(kSaidTwice).substr(10));
  const Ended ended = run_kartwright({"rules", "check", "-q", "--rules", folder.path()});
  EXPECT_EQ(ended.exit, 65);
  EXPECT_THAT(ended.out, HasSubstr("error[A001]"));
  EXPECT_THAT(ended.out, Not(HasSubstr("warning[")));
  EXPECT_THAT(ended.out, Not(HasSubstr("note[")));
  EXPECT_THAT(lines_of(ended.out).back(), HasSubstr("1 warning, 2 notes"));
}

TEST(RulesCheck, ARuleWithoutOneOfItsTwoCasesFails) {
  const TempFolder folder;
  folder.write("ours.yaml", kSaidTwice);
  folder.write("ours.cases.yaml",
               std::string(kCasesOfSaidTwice)
                   .substr(0, std::string(kCasesOfSaidTwice).find("  - {case: rubber")));
  const Ended ended = run_kartwright({"rules", "check", "--rules", folder.path()});
  EXPECT_EQ(ended.exit, 65) << ended.out;
  EXPECT_THAT(ended.out, HasSubstr("error[C003]"));
}

TEST(RulesCheck, AFolderWithoutRulesIsCheckedAsTheRulesOfTheProgram) {
  const TempFolder folder;
  const Ended ended = run_kartwright({"rules", "check", "--rules", folder.path()});
  EXPECT_EQ(ended.exit, 0) << ended.out;
  EXPECT_THAT(lines_of(ended.out).back(), HasSubstr("no errors, no warnings"));
}

TEST(RulesCheck, WhatDoesNotLoadIsFoundInTheSameForm) {
  const TempFolder folder;
  const std::string file = folder.write("ours.yaml", "readings: [{id: x, whne: {track: cold}}]");
  const Ended ended = run_kartwright({"rules", "check", "--rules", folder.path()});
  EXPECT_EQ(ended.exit, 65);
  EXPECT_THAT(ended.out, HasSubstr(file + ":1:"));
  EXPECT_THAT(ended.out, HasSubstr("error[D012]"));
  EXPECT_EQ(run_kartwright({"rules", "check", "--rules", folder.path() + "/none"}).exit, 66);
}

TEST(RulesCheck, InJsonHasEveryFindingAndTheCounts) {
  const TempFolder folder;
  const std::string file = folder.write("ours.yaml", kNeverSpeaks);
  const Ended ended =
      run_kartwright({"rules", "check", "--rules", folder.path(), "--format", "json"});
  EXPECT_EQ(ended.exit, 65);
  const Json answer = Json::parse(ended.out);
  EXPECT_EQ(answer.at("schema"), "kartwright/rules-check/1");
  EXPECT_EQ(answer.at("errors"), 2);  // and it has no cases
  const Json& first = answer.at("findings").at(0);
  EXPECT_EQ(first.at("code"), "A001");
  EXPECT_EQ(first.at("level"), "error");
  EXPECT_EQ(first.at("file"), file);
  EXPECT_EQ(first.at("line"), 2);
  EXPECT_EQ(first.at("column"), 5);
  EXPECT_EQ(first.at("rules"), Json::array({"cold-and-wet-at-once"}));
  EXPECT_FALSE(first.contains("witness"));
}

TEST(RulesCheck, WritesCasesThatAdviseRunsAgain) {
  const TempFolder folder;
  const std::string cases = folder.path() + "/deep/cases";
  const Ended ended = run_kartwright({"rules", "check", "--witness", cases, "--format", "json"});
  EXPECT_EQ(ended.exit, 0);
  int written = 0;
  const Json answer = Json::parse(ended.out);
  for (const Json& finding : answer.at("findings")) {
    if (!finding.contains("witness")) continue;
    ++written;
    const Ended again =
        run_kartwright({"advise", "--debrief", finding.at("witness"), "--format", "json"});
    EXPECT_EQ(again.exit, 0) << again.err;
    EXPECT_EQ(again.err, "");
  }
  EXPECT_GT(written, 0);
}

TEST(RulesCheck, AFolderThatCannotBeWrittenIsSeventyThree) {
  const TempFolder folder;
  const std::string file = folder.write("a-file", "x");
  const Ended ended = run_kartwright({"rules", "check", "--witness", file});
  EXPECT_EQ(ended.exit, 73);
  EXPECT_EQ(ended.out, "");
  EXPECT_THAT(ended.err, HasSubstr("cannot be written"));
}

TEST(RulesList, HasEveryRuleAndFitsTheWidth) {
  for (const char* columns : {"60", "80", "250"}) {
    const Ended ended = run_kartwright({"rules", "list"}, {{"COLUMNS", columns}});
    EXPECT_EQ(ended.exit, 0);
    EXPECT_THAT(ended.out, HasSubstr("wider-sheds-side-bite"));
    for (const std::string& line : lines_of(ended.out)) {
      EXPECT_LE(width_of(line), static_cast<std::size_t>(std::stoi(columns))) << line;
    }
  }
  const Json answer = Json::parse(run_kartwright({"rules", "list", "--format", "json"}).out);
  EXPECT_EQ(answer.at("schema"), "kartwright/rules-list/1");
  EXPECT_GT(answer.at("rules").size(), 100U);
}

TEST(RulesShow, SaysAllThereIsToSay) {
  const Ended ended = run_kartwright({"rules", "show", "wet-narrow-digs-in"}, {{"COLUMNS", "60"}});
  EXPECT_EQ(ended.exit, 0);
  for (const char* word : {"RULE", "WHERE", "WHEN", "SAYS", "BECAUSE", "FROM", "STATUS", "REPLACES",
                           "rear-width.yaml:", "track:wet", "wider-sheds-side-bite"}) {
    EXPECT_THAT(ended.out, HasSubstr(word));
  }
  for (const std::string& line : lines_of(ended.out)) EXPECT_LE(width_of(line), 60U) << line;
  const Json answer =
      Json::parse(run_kartwright({"rules", "show", "wet-narrow-digs-in", "--format", "json"}).out);
  EXPECT_EQ(answer.at("schema"), "kartwright/rules-show/1");
  EXPECT_EQ(answer.at("replaces").at(0).at("rule"), "wider-sheds-side-bite");
}

TEST(RulesWords, ThatAreWrongAreAnsweredWithTheNearest) {
  const auto told = [](const Words& words, const char* help) {
    const Ended ended = run_kartwright(words);
    EXPECT_EQ(ended.exit, 2) << ended.err;
    EXPECT_EQ(ended.out, "");
    EXPECT_THAT(ended.err, HasSubstr(help));
  };
  told({"rules", "chekc"}, "did you mean `check`?");
  told({"rules"}, "check, list, show, diff");
  told({"rules", "diff", "built-in"}, "rules diff built-in DIR");
  told({"rules", "diff", "built-in", "built-in", "--rules", "x"}, "--rules");
  told({"rules", "show"}, "rules show ID");
  told({"rules", "show", "wider-sheds-side-bit"}, "did you mean `wider-sheds-side-bite`?");
  told({"rules", "check", "more"}, "one word too many");
  told({"rules", "list", "--witness", "x"}, "--witness");
  told({"rules", "check", "--witnes", "x"}, "did you mean `--witness`?");
}

TEST(RulesDiff, NamesTheRuleThatDiffersAndAsksTheScenarios) {
  const TempFolder ours, scenarios;
  ours.write("ours.yaml", kSaidTwice);
  scenarios.write("cold.yaml", "{track: cold, reports: [loose@exit=2]}\n");
  const Ended ended = run_kartwright({"rules", "diff", "built-in", ours.path(), "--scenarios",
                                      scenarios.path(), "--format", "json"});
  EXPECT_EQ(ended.exit, 0) << ended.err;
  EXPECT_EQ(Json::parse(ended.out).at("schema"), "kartwright/rules-diff/1");
  EXPECT_THAT(ended.out, HasSubstr("our-cold-track"));
  EXPECT_THAT(ended.out, HasSubstr("cold.yaml"));
  const Ended page = run_kartwright({"rules", "diff", "built-in", ours.path()});
  EXPECT_EQ(page.exit, 0) << page.err;
  EXPECT_THAT(page.out, HasSubstr("our-cold-track"));
}

TEST(RulesHelp, HasAnExample) {
  const Ended ended = run_kartwright({"rules", "--help"});
  EXPECT_EQ(ended.exit, 0);
  EXPECT_THAT(ended.out, HasSubstr("kartwright rules check"));
}

}  // namespace
}  // namespace kartwright
