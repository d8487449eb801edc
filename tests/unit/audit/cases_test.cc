#include "engine/audit/cases.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"
#include "engine/knowledge/every_rule.h"
#include "engine/knowledge/load.h"
#include "tests/support/kart_pack.h"
#include "tests/support/small_rules.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

TEST(BuiltInCases, EveryRuleFiresAndStaysSilentWhereItsCasesSay) {
  EXPECT_EQ(told(check_cases(built_in_pack(), built_in_cases())), "");
}

TEST(BuiltInCases, AreTheFilesBesideTheRulesOfThisTree) {
  const std::string root = std::string(KARTWRIGHT_SOURCE_DIR) + "/";
  std::vector<std::string> files, built_in;
  for (const Document& each : read_case_folder(root + "rules")) files.push_back(each.name);
  for (const Document& each : built_in_cases()) built_in.push_back(root + each.name);
  EXPECT_EQ(built_in, files);
  EXPECT_GT(files.size(), 50U);
}

void turn_round(Condition& when) {
  Condition turned{.op = Condition::Op::negated, .test = {}, .parts = {when}};
  when = std::move(turned);
}

/// The rules that something is found about.
std::set<std::string> rules_told(const std::vector<Diagnostic>& found) {
  std::set<std::string> rules;
  for (const Diagnostic& each : found)
    rules.insert(each.message.substr(1, each.message.find('`', 1) - 1));
  return rules;
}

TEST(BuiltInCases, NoticeEveryReadingAndEvidenceWhoseConditionIsTurnedRound) {
  Pack pack = built_in_pack();
  std::set<std::string> turned;
  for (ReadingRule& rule : pack.readings) {
    turn_round(rule.when);
    turned.insert(rule.id);
  }
  for (Fault& fault : pack.faults) {
    for (EvidenceRule& rule : fault.evidence) {
      turn_round(rule.when);
      turned.insert(rule.id);
    }
  }
  EXPECT_EQ(rules_told(check_cases(pack, built_in_cases())), turned);
  EXPECT_GT(turned.size(), 90U);
}

/// A rule may take over the cells of another, so others are noticed beside it.
TEST(BuiltInCases, NoticeEveryEffectAndDerivationWhoseConditionIsTurnedRound) {
  Pack pack = built_in_pack();
  std::set<std::string> turned;
  for (Adjustment& adjustment : pack.adjustments) {
    for (EffectRule& rule : adjustment.effects) {
      turn_round(rule.when);
      turned.insert(rule.id);
    }
  }
  for (DeriveRule& rule : pack.derives) {
    turn_round(rule.when);
    turned.insert(rule.id);
  }
  EXPECT_THAT(rules_told(check_cases(pack, built_in_cases())), testing::IsSupersetOf(turned));
  EXPECT_GT(turned.size(), 35U);
}

TEST(ReadCaseFolder, TakesCasesOnlyAndRulesTakeTheRest) {
  const TempFolder folder;
  folder.write("track/a.yaml", "cautions: []\n");
  folder.write("track/a.cases.yaml", "cases: []\n");
  folder.write("b.cases.yaml", "cases: []\n");
  folder.write("cases.yaml", "cautions: []\n");
  const auto names = [&](const std::vector<Document>& documents) {
    std::vector<std::string> short_names;
    for (const Document& each : documents)
      short_names.push_back(each.name.substr(folder.path().size() + 1));
    return short_names;
  };
  EXPECT_THAT(names(read_case_folder(folder.path())),
              ElementsAre("b.cases.yaml", "track/a.cases.yaml"));
  EXPECT_THAT(names(read_rule_folder(folder.path())), ElementsAre("cases.yaml", "track/a.yaml"));
}

TEST(RuleFileBeside, HasTheSameNameWithoutCases) {
  EXPECT_EQ(rule_file_beside("rules/track/cold.cases.yaml"), "rules/track/cold.yaml");
}

Document cases_of(const std::string& name, const std::string& text) {
  return parse_document(name, "cases:\n" + text);
}

const Pack& small_pack() {
  static const Pack pack = small_pack_with("");
  return pack;
}

/// What is found in the cases beside green.yaml, whose one rule waits for a green track.
std::vector<Diagnostic> found_beside_green(const std::string& text) {
  return check_cases(small_pack(), {cases_of("green.cases.yaml", text)}, {"green.yaml"});
}

constexpr const char* kGreenRule = "green-track-is-short-of-rear-grip";
const std::string kFires = std::string(
                               "  - case: no rubber yet\n"
                               "    track: green\n"
                               "    fires: ") +
                           kGreenRule + "\n";
const std::string kSilent = std::string(
                                "  - case: no sun yet\n"
                                "    track: cold\n"
                                "    silent: [") +
                            kGreenRule + "]\n";

TEST(CheckCases, AFiringAndASilentCaseAreEnough) {
  EXPECT_EQ(told(found_beside_green(kFires + kSilent)), "");
}

TEST(CheckCases, AFreshFactOrKartMakesTheCase) {
  const std::string rule = "roll-structure-raises-the-mass";
  const std::string text = "  - {case: one fitted, facts: {roll-structure: yes}, fires: " + rule +
                           "}\n  - {case: the file says so, kart: {facts: {roll-structure: yes}},"
                           " fires: " +
                           rule + "}\n  - {case: nobody said, silent: " + rule + "}\n";
  EXPECT_EQ(told(check_cases(small_pack(), {cases_of("facts.cases.yaml", text)}, {"facts.yaml"})),
            "");
}

TEST(CheckCases, WithoutAKartTheTypicalOneStands) {
  const std::string rule = "wider-sheds-side-bite";
  const std::string text =
      "  - {case: any kart, fires: " + rule +
      "}\n  - {case: no spacers, kart: {settings: {axle: hard}}, silent: " + rule + "}\n";
  EXPECT_EQ(told(check_cases(small_pack(), {cases_of("rear-width.cases.yaml", text)},
                             {"rear-width.yaml"})),
            "");
}

class WrongCases : public testing::TestWithParam<WrongInput> {};

TEST_P(WrongCases, AreToldWithTheirPlace) {
  expect_the_one_finding(GetParam(), found_beside_green(GetParam().text));
}

std::vector<WrongInput> wrong_cases() {
  const std::string both = kFires + kSilent;
  const std::string rule = kGreenRule;
  return {
      {"a_rule_that_does_not_fire",
       "  - {case: one off, track: cold, fires: [" + rule + "]}\n" + both, Code::rule_silent, 2, 42,
       "`" + rule + "` stays silent on `one off`", "the rule stands at green.yaml:5"},
      {"a_rule_that_fires", "  - {case: no sun, track: green, silent: [" + rule + "]}\n" + both,
       Code::rule_fires, 2, 43, "`" + rule + "` fires on `no sun`", "green.yaml:5"},
      {"no_firing_case", kSilent, Code::rule_without_case, 5, 1,
       "`" + rule + "` has no case where it fires", "green.cases.yaml"},
      {"no_silent_case", kFires, Code::rule_without_case, 5, 1,
       "`" + rule + "` has no case where it stays silent", "green.cases.yaml"},
      {"a_misspelt_rule", both + "  - {case: x, silent: [green-track-is-short-of-raer-grip]}\n",
       Code::unknown_name, 8, 24, "is not a rule", "did you mean `" + rule + "`"},
      {"a_rule_of_another_file", both + "  - {case: x, silent: push-is-front-short-of-rear}\n",
       Code::foreign_rule, 8, 23, "`push-is-front-short-of-rear` is not a rule of green.yaml",
       "its cases in symptoms.cases.yaml"},
      {"no_rule_at_all", both + "  - {case: x, track: cold}\n", Code::missing_key, 8, 12,
       "at least one rule", ""},
      {"no_name", both + "  - {track: cold, silent: " + rule + "}\n", Code::missing_key, 8, 5,
       "a case needs `case`", ""},
      {"a_name_used_before", both + "  - {case: no sun yet, track: cold, silent: " + rule + "}\n",
       Code::duplicate_id, 8, 12, "two cases are called `no sun yet`", "line 5"},
      {"a_rule_in_both_lists",
       both + "  - {case: x, track: cold, fires: " + rule + ", silent: " + rule + "}\n",
       Code::duplicate_id, 8, 78, "the case names `" + rule + "` twice", ""},
      {"words", both + "  - {case: x, said: it hops, silent: " + rule + "}\n", Code::unknown_key, 8,
       15, "`said` is not a key of a case", ""},
      {"a_kart_of_another_file", both + "  - {case: x, kart: k.yaml, silent: " + rule + "}\n",
       Code::wrong_shape, 8, 21, "a case holds its kart itself", ""},
      {"a_kart_that_cannot_be",
       both + "  - {case: x, kart: {settings: {axle: stone}}, silent: " + rule + "}\n",
       Code::setting_out_of_range, 8, 39, "no position `stone`", ""},
      {"a_report_that_cannot_be", both + "  - {case: x, reports: [hopp], silent: " + rule + "}\n",
       Code::unknown_name, 8, 25, "`hopp`", ""},
      {"rules_in_a_map", both + "  - {case: x, fires: {a: b}, silent: " + rule + "}\n",
       Code::wrong_shape, 8, 22, "`fires` must be a list of rules", ""},
      {"a_case_that_is_no_map", both + "  - dry\n", Code::wrong_shape, 8, 5, "a case must be a map",
       ""},
      {"a_key_beside_cases", both + "notes: none\n", Code::unknown_key, 8, 1,
       "`notes` is not a key of a cases file", ""},
  };
}

INSTANTIATE_TEST_SUITE_P(All, WrongCases, testing::ValuesIn(wrong_cases()),
                         case_name<testing::TestParamInfo<WrongInput>>);

TEST(CheckCases, ARuleWithoutAnyCaseIsToldOnce) {
  const auto found = check_cases(small_pack(), {}, {"green.yaml"});
  ASSERT_EQ(found.size(), 1U) << told(found);
  EXPECT_EQ(found[0].message, std::string("`") + kGreenRule +
                                  "` has no case where it fires, and none where it stays silent");
  EXPECT_EQ(found[0].file, "green.yaml");
  EXPECT_EQ(found[0].severity, Severity::error);
}

TEST(CheckCases, AsksForEveryRuleOfThePackUnlessFilesAreNamed) {
  const auto found = check_cases(small_pack(), {});
  EXPECT_EQ(found.size(), every_rule(small_pack()).size());
  for (const Diagnostic& each : found) EXPECT_EQ(each.code, Code::rule_without_case);
}

TEST(CheckCases, FindsAllMistakesAtOnce) {
  const std::string first = "  - {case: x, tarck: cold, silent: y}\n  - {case: x, fires: y}\n";
  const std::string second = std::string("  - {case: x, track: cold, fires: ") + kGreenRule + "}\n";
  const auto found = check_cases(
      small_pack(), {cases_of("cold.cases.yaml", first), cases_of("green.cases.yaml", second)},
      {"green.yaml"});
  std::vector<Code> codes;
  for (const Diagnostic& each : found) codes.push_back(each.code);
  EXPECT_THAT(codes, ElementsAre(Code::unknown_key, Code::duplicate_id, Code::rule_silent,
                                 Code::rule_without_case))
      << told(found);
}

TEST(CheckCases, AHostileFileEndsInFindingsToo) {
  std::string text;
  for (int i = 0; i < 500; ++i) text += "  - dry\n";
  EXPECT_EQ(found_beside_green(text).size(), Findings::kMost + 1);
}

TEST(ReadCases, GivesThemAsValues) {
  Findings findings;
  const auto cases =
      read_cases(cases_of("green.cases.yaml",
                          "  - case: slides\n    track: green\n    reports: ['push@mid=1']\n"
                          "    kart: {settings: {axle: hard}}\n    fires: [a, b]\n"
                          "    silent: c\n"),
                 small_pack(), findings);
  EXPECT_THAT(findings.all(), IsEmpty());
  ASSERT_EQ(cases.size(), 1U);
  EXPECT_EQ(cases[0].name, "slides");
  EXPECT_EQ(cases[0].span.line, 2);
  EXPECT_EQ(cases[0].debrief.track, "green");
  ASSERT_EQ(cases[0].debrief.heard.reports.size(), 1U);
  EXPECT_EQ(cases[0].debrief.heard.reports[0].symptom, "push");
  ASSERT_TRUE(cases[0].kart.has_value());
  EXPECT_NE(cases[0].kart->setting("axle"), nullptr);
  ASSERT_EQ(cases[0].fires.size(), 2U);
  EXPECT_EQ(cases[0].fires[1].id, "b");
  ASSERT_EQ(cases[0].silent.size(), 1U);
  EXPECT_EQ(cases[0].silent[0].id, "c");
}

}  // namespace
}  // namespace kartwright
