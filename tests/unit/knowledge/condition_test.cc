// `when:` of a rule file, in every form it may have.

#include <gtest/gtest.h>

#include "engine/knowledge/condition_reader.h"
#include "tests/support/kart_pack.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

std::string shown(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& text : texts) out += (out.empty() ? "" : "|") + text;
  return out;
}

std::string shown(const FactTest& test) { return test.fact + "=" + shown(test.values); }
std::string shown(const ReportTest& test) {
  return "report " + test.symptom + (test.phase ? "@" + std::string(name_of(*test.phase)) : "") +
         ">=" + std::to_string(test.at_least);
}
std::string shown(const SettingTest& test) {
  if (!test.within) return test.adjustment + " in " + shown(test.positions);
  return test.adjustment + " within " + std::to_string(*test.within) + " of " + test.of_end;
}
std::string shown(const MeasureTest& test) {
  return test.measure + (test.side == MeasureTest::Side::above ? " above " : " below ") +
         (test.limit ? std::to_string(*test.limit) : "band");
}

std::string shown(const Condition& condition) {
  std::string parts;
  for (const Condition& part : condition.parts) parts += (parts.empty() ? "" : ", ") + shown(part);
  switch (condition.op) {
    case Condition::Op::always:
      return "always";
    case Condition::Op::test:
      return std::visit([](const auto& test) { return shown(test); }, condition.test);
    case Condition::Op::all:
      return "all(" + parts + ")";
    case Condition::Op::any:
      return "any(" + parts + ")";
    case Condition::Op::negated:
      return "not(" + parts + ")";
  }
  return "?";
}

struct ReadCondition {
  std::string shown;
  std::vector<Diagnostic> found;
};

/// Reads a condition against the names of the small rules.
ReadCondition read(const std::string& text) {
  const std::vector<Document> rules = small_rules();
  std::vector<const Document*> all;
  for (const Document& each : rules) all.push_back(&each);
  const Document document = parse_document("when.yaml", text);
  Findings findings;
  const Condition condition = read_condition(document, document.root, gather_names(all), findings);
  return {shown(condition), findings.all()};
}

struct Form {
  const char *text, *means;
};

constexpr Form kForms[] = {
    {"track: cold", "track=cold"},
    {"track: [cold, green]", "track=cold|green"},
    {"laps: faster", "laps=faster"},
    {"fact: raised-mass", "raised-mass=yes"},
    {"fact: {turn-in: throttle}", "turn-in=throttle"},
    {"fact: {turn-in: [brake, throttle]}", "turn-in=brake|throttle"},
    {"fact: {turn-in: brake, laps: same}", "all(turn-in=brake, laps=same)"},
    {"fact: {'room:rear-width:wider': none}", "room:rear-width:wider=none"},
    {"report: push", "report push>=1"},
    {"report: {symptom: push}", "report push>=1"},
    {"report: {symptom: push, phase: entry, at-least: 2}", "report push@entry>=2"},
    {"report: {symptom: vibration, phase: straight, at-least: 0}", "report vibration@straight>=0"},
    {"setting: {rear-width: {within: 10 mm, of: narrower}}",
     "rear-width within 0.010000 of narrower"},
    {"setting: {rear-width: {within: 1/2 in, of: wider}}", "rear-width within 0.012700 of wider"},
    {"setting: {axle: soft}", "axle in soft"},
    {"setting: {axle: [soft, hard]}", "axle in soft|hard"},
    {"measure: {front-share: above-band}", "front-share above band"},
    {"measure: {front-share: below-band}", "front-share below band"},
    {"measure: {front-share: {above: 44 %}}", "front-share above 0.440000"},
    {"measure: {front-share: {below: 40 %}}", "front-share below 0.400000"},
    {"all: [{track: cold}, {report: push}]", "all(track=cold, report push>=1)"},
    {"any: [{track: cold}, {report: push}]", "any(track=cold, report push>=1)"},
    {"any: [{track: cold}]", "any(track=cold)"},
    {"not: {track: cold}", "not(track=cold)"},
    {"not: {track: cold, report: push}", "not(all(track=cold, report push>=1))"},
    {"{track: cold, not: {fact: raised-mass}}", "all(track=cold, not(raised-mass=yes))"},
    {"not: {any: [{track: cold}, {all: [{laps: slower}, {not: {report: push}}]}]}",
     "not(any(track=cold, all(laps=slower, not(report push>=1))))"},
};

TEST(Conditions, OfEveryFormAreRead) {
  for (const Form& form : kForms) {
    const auto [shown, found] = read(form.text);
    EXPECT_EQ(shown, form.means) << form.text;
    EXPECT_EQ(told(found), "") << form.text;
  }
}

class WrongCondition : public testing::TestWithParam<WrongInput> {};

TEST_P(WrongCondition, IsToldOnceAtItsPlace) {
  expect_the_one_finding(GetParam(), read(GetParam().text).found);
}

constexpr Code kForm = Code::bad_condition;
constexpr Code kUnknown = Code::unknown_name;

const WrongInput kWrongConditions[] = {
    {"a_word", "cold", kForm, 1, 1, "a map of tests", ""},
    {"a_list", "[{track: cold}]", kForm, 1, 1, "a map of tests", ""},
    {"empty_map", "{}", kForm, 1, 1, "a map of tests", ""},
    {"unknown_test", "trakc: cold", kForm, 1, 1, "`trakc` is not a test", "`track`"},
    {"unknown_track", "track: colt", kUnknown, 1, 8, "`colt` is not a value of `track`", "`cold`"},
    {"unknown_lap_times", "laps: quick", kUnknown, 1, 7, "not a value of `laps`", "one of faster"},
    {"unknown_fact", "fact: raised-mas", kUnknown, 1, 7, "is not a fact", "`raised-mass`"},
    {"unknown_fact_in_map", "fact: {turnin: brake}", kUnknown, 1, 8, "is not a fact", "`turn-in`"},
    {"unknown_value", "fact: {turn-in: brke}", kUnknown, 1, 17, "a value of `turn-in`", "`brake`"},
    {"no_value", "fact: {turn-in: }", Code::wrong_shape, 1, 8, "`turn-in`", ""},
    {"fact_list", "fact: [raised-mass]", kForm, 1, 7, "must be a map", ""},
    {"no_fact", "fact: {}", kForm, 1, 7, "must be a map", ""},
    {"unknown_room", "fact: {'room:rear-width:up': none}", kUnknown, 1, 8, "is not a fact", ""},
    {"unknown_symptom", "report: puhs", kUnknown, 1, 9, "is not a symptom", "`push`"},
    {"unknown_symptom_in_map", "report: {symptom: puhs}", kUnknown, 1, 19, "a symptom", "`push`"},
    {"no_symptom", "report: {phase: mid}", Code::missing_key, 1, 9, "needs `symptom`", ""},
    {"unknown_phase", "report: {symptom: push, phase: apex}", kForm, 1, 32, "`apex`", ""},
    {"severity_too_high", "report: {symptom: push, at-least: 4}", kForm, 1, 35, "`at-least`", ""},
    {"severity_broken", "report: {symptom: push, at-least: 1.5}", kForm, 1, 35, "`at-least`", ""},
    {"severity_huge", "report: {symptom: push, at-least: 1e99}", kForm, 1, 35, "`at-least`", ""},
    {"severity_word", "report: {symptom: push, at-least: two}", kForm, 1, 35, "`at-least`", ""},
    {"unknown_report_key", "report: {symptom: push, phse: mid}", Code::unknown_key, 1, 25, "`phse`",
     "`phase`"},
    {"unknown_adjustment", "setting: {rear-widht: {within: 1 mm, of: wider}}", kUnknown, 1, 11,
     "is not an adjustment", "`rear-width`"},
    {"unknown_end", "setting: {rear-width: {within: 1 mm, of: wide}}", kUnknown, 1, 42,
     "is not a direction of it", "`wider`"},
    {"end_without_distance", "setting: {rear-width: {of: wider}}", Code::missing_key, 1, 23,
     "needs `within`", ""},
    {"distance_without_end", "setting: {rear-width: {within: 1 mm}}", Code::missing_key, 1, 23,
     "needs `of`", ""},
    {"distance_without_unit", "setting: {rear-width: {within: 1, of: wider}}", Code::bad_quantity,
     1, 32, "no unit", "a length"},
    {"unknown_position", "setting: {axle: sofd}", kUnknown, 1, 17, "is not a position of",
     "`soft`"},
    {"range_has_no_positions", "setting: {rear-width: wide}", kUnknown, 1, 23, "a position of", ""},
    {"positions_have_no_range", "setting: {axle: {within: 1, of: stiffer}}", kForm, 1, 17,
     "named positions", ""},
    {"unknown_measure", "measure: {front-shar: above-band}", kUnknown, 1, 11, "is not a measure",
     "`front-share`"},
    {"an_adjustment_is_no_measure", "measure: {rear-width: above-band}", kUnknown, 1, 11,
     "is not a measure", ""},
    {"unknown_side", "measure: {front-share: above}", kForm, 1, 24, "its band or a limit", ""},
    {"two_limits", "measure: {front-share: {above: 44 %, below: 40 %}}", kForm, 1, 24,
     "one of them", ""},
    {"no_limit", "measure: {front-share: {}}", kForm, 1, 24, "one of them", ""},
    {"limit_of_another_kind", "measure: {front-share: {above: 3 mm, below: 1 %}}",
     Code::bad_quantity, 1, 32, "3 mm", ""},
    {"all_of_a_map", "all: {track: cold}", kForm, 1, 6, "a list of conditions", ""},
    {"any_of_none", "any: []", kForm, 1, 6, "a list of conditions", ""},
    {"not_a_list", "not: [{track: cold}]", kForm, 1, 6, "a map of tests", ""},
    {"not_nothing", "not:", kForm, 1, 1, "a map of tests", ""},
    {"deep_inside", "any:\n  - not: {all: [{track: colt}]}", kUnknown, 2, 25, "`colt`", "`cold`"},
};

INSTANTIATE_TEST_SUITE_P(Each, WrongCondition, testing::ValuesIn(kWrongConditions),
                         [](const auto& each) { return case_name(each); });

TEST(WrongConditions, AreToldAllInOneRun) {
  const auto found =
      read("any: [{track: colt}, {fact: x}, {report: y}, {setting: {z: a}}, {w: 1}]").found;
  std::vector<int> columns;
  for (const Diagnostic& each : found) columns.push_back(each.span.column);
  EXPECT_EQ(columns, (std::vector<int>{15, 29, 42, 57, 66})) << told(found);
}

TEST(Conditions, OnLapTimesNeedThatFact) {
  const Document document = parse_document("when.yaml", "laps: faster");
  Findings findings;
  read_condition(document, document.root, Names{}, findings);
  ASSERT_EQ(findings.all().size(), 1U);
  EXPECT_EQ(findings.all()[0].code, kForm);
}

}  // namespace
}  // namespace kartwright
