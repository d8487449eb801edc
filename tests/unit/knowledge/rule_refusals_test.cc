// What a crew's own rule file may have wrong, each told once at its place.

#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

class WrongRules : public testing::TestWithParam<WrongInput> {};

TEST_P(WrongRules, AreToldOnceAtTheirPlace) {
  const auto found = found_in_own(GetParam().text);
  expect_the_one_finding(GetParam(), found);
  for (const Diagnostic& each : found) EXPECT_EQ(each.file, "own.yaml");
}

/// A derivation with one line of its own; what it does not say is in order.
std::string derive(const std::string& line, const std::string& left_out = {}) {
  std::string text = "derive:\n  - " + line + "\n";
  for (const std::string key : {"id: own", "when: {track: cold}", "then: {raised-mass: no}",
                                "because: x", "provenance: {practice: common}", "status: test"}) {
    const std::string name = key.substr(0, key.find(':') + 1);
    if (!line.starts_with(name) && name != left_out) text += "    " + key + "\n";
  }
  return text;
}

/// The same for a reading.
std::string reading(const std::string& line, const std::string& left_out = {}) {
  std::string text = "readings:\n  - " + line + "\n";
  for (const std::string key : {"id: own", "row: {response: 1}", "value: +0.4 ± 0.9", "because: x",
                                "provenance: {practice: common}", "status: test"}) {
    const std::string name = key.substr(0, key.find(':') + 1);
    if (!line.starts_with(name) && name != left_out) text += "    " + key + "\n";
  }
  return text;
}

constexpr Code kRule = Code::bad_rule;
constexpr Code kName = Code::unknown_name;
constexpr Code kShape = Code::wrong_shape;
constexpr Code kMissing = Code::missing_key;

const WrongInput kWrong[] = {
    {"not_a_map", "- x", kShape, 1, 1, "a rule file must be a map", ""},
    {"unknown_section", "symtoms: []", Code::unknown_key, 1, 1, "`symtoms`", "`symptoms`"},
    {"section_not_a_list", "cautions: {caution: x, text: y}", kShape, 1, 11, "`cautions`", ""},
    {"readings_not_a_list", "readings: {id: x}", kShape, 1, 11, "`readings` must be a list", ""},
    {"words_not_a_list", "words: {means: filler}", kShape, 1, 8, "`words` must be a list", ""},
    {"axes_not_a_list", "axes: {axis: x}", kShape, 1, 7, "`axes` must be a list", ""},
    {"item_not_a_map", "cautions: [x]", kShape, 1, 12, "a caution must be a map", ""},
    {"no_id", derive("when: {track: cold}", "id:"), kMissing, 2, 5, "needs `id`", ""},
    {"no_because", derive("id: own", "because:"), kMissing, 2, 5, "needs `because`", ""},
    {"no_provenance", derive("id: own", "provenance:"), kMissing, 2, 5, "`provenance`", ""},
    {"no_status", derive("id: own", "status:"), kMissing, 2, 5, "needs `status`", ""},
    {"empty_because", derive("because:"), kMissing, 2, 5, "needs `because`", ""},
    {"unknown_status", derive("status: stabel"), kName, 2, 13, "`stabel`", "`stable`"},
    {"unknown_practice", derive("provenance: {practice: comon}"), kName, 2, 28, "`comon`",
     "`common`"},
    {"nothing_behind_it", derive("provenance: {note: x}"), kRule, 2, 17, "a provenance names",
     "practice: common"},
    {"groups_of_what", derive("provenance: {published: {for: 2 grops}}"), Code::bad_number, 2, 35,
     "a number of groups", "8 groups"},
    {"groups_below_none", derive("provenance: {published: {for: -1 groups}}"), Code::bad_number, 2,
     35, "a number of groups", ""},
    {"unknown_provenance", derive("provenance: {practise: common, practice: common}"),
     Code::unknown_key, 2, 18, "`practise`", "`practice`"},
    {"empty_when", derive("when:"), Code::bad_condition, 2, 5, "a condition must be a map", ""},
    {"unknown_rule_key", derive("wehn: {track: cold}"), Code::unknown_key, 2, 5, "`wehn`",
     "`when`"},
    {"two_conclusions", derive("then: {raised-mass: yes, laps: same}"), kRule, 2, 11,
     "concludes one fact", "such as"},
    {"unknown_conclusion", derive("then: {raised-mas: yes}"), kName, 2, 11, "is not a fact",
     "`raised-mass`"},
    {"unknown_concluded_value", derive("then: {raised-mass: yess}"), kName, 2, 11,
     "`yess` is not a value of it", "`yes`"},

    {"unknown_axis", reading("row: {front-girp: 1}"), kName, 2, 11, "`front-girp` is not an axis",
     "`front-grip`"},
    {"row_of_nothing", reading("row: {}"), kRule, 2, 10, "at least one axis", ""},
    {"factor_not_a_number", reading("row: {response: one}"), Code::bad_number, 2, 21, "`one`", ""},
    {"value_without_spread", reading("value: 0.4"), Code::bad_quantity, 2, 12, "`0.4`", ""},
    {"spread_of_nothing", reading("value: 0.4 ± 0"), Code::bad_quantity, 2, 12, "`0.4 ± 0`", ""},
    {"per_unknown_measure", reading("per: {measure: front-shar, each: 2}"), kName, 2, 10,
     "is not a measure", "`front-share`"},
    {"per_of_another_kind", reading("per: {measure: front-share, each: 2 mm}"), Code::bad_quantity,
     2, 39, "2 mm", ""},
    {"per_nothing", reading("per: {measure: front-share, each: 0 %}"), kRule, 2, 10,
     "`each` must be above zero", ""},

    {"correlation_of_one", "correlations: [{a: response, b: response, value: 0.5}]", kRule, 1, 16,
     "with itself", ""},
    {"correlation_full", "correlations: [{a: response, b: rear-grip, value: 1}]", kRule, 1, 16,
     "between -1 and 1", ""},
    {"correlation_unknown", "correlations: [{a: respons, b: rear-grip, value: 0.1}]", kName, 1, 16,
     "`respons`", "`response`"},
    {"axis_weightless", "axes: [{axis: x, label: x, low: l, high: h, weight: 0, spread: 1}]", kRule,
     1, 8, "an axis that cannot be", "above zero"},
    {"axis_certain", "axes: [{axis: x, label: x, low: l, high: h, weight: 1, spread: 0}]", kRule, 1,
     8, "an axis that cannot be", ""},
    {"axis_phase", "axes: [{axis: x.apex, label: x, low: l, high: h, weight: 1, spread: 1}]", kRule,
     1, 8, "an axis that cannot be", "entry, mid or exit"},
    {"axis_straight", "axes: [{axis: x.straight, label: x, low: l, high: h, weight: 1, spread: 1}]",
     kRule, 1, 8, "an axis that cannot be", ""},
    {"hearing_too_sure",
     "hearing: {sure: 0, fair: 1, unsure: 1, denied: 1, praise: 1, phase-unsaid: 1, laps-faster: "
     "1}",
     kRule, 1, 10, "above zero", ""},
    {"hearing_vague_is_sharper",
     "hearing: {sure: 1, fair: 1, unsure: 1, denied: 1, praise: 1, phase-unsaid: 0.9, "
     "laps-faster: 1}",
     kRule, 1, 10, "at least one", ""},
    {"praise_of_unknown",
     "hearing: {sure: 1, fair: 1, unsure: 1, denied: 1, praise: 1, phase-unsaid: 1, laps-faster: "
     "1, "
     "praise-denies: [psuh]}",
     kName, 1, 10, "`psuh` is not a symptom", "`push`"},

    {"symptom_phase", "symptoms: [{symptom: x, label: x, plain: x, phases: [apex]}]", kRule, 1, 12,
     "`apex` is not a phase", ""},
    {"symptom_against", "symptoms: [{symptom: x, label: x, plain: x, against: psuh}]", kName, 1, 54,
     "`psuh` is not a symptom", "`push`"},
    {"neighbour_unknown",
     "symptoms: [{symptom: x, label: x, plain: x, neighbours: [{symptom: psuh, tell: t}]}]", kName,
     1, 68, "`psuh` is not a symptom", "`push`"},
    {"neighbour_of_itself",
     "symptoms: [{symptom: x, label: x, plain: x, neighbours: [{symptom: x, tell: t}]}]", kRule, 1,
     58, "`x` is named as its own neighbour", ""},
    {"neighbour_twice",
     "symptoms: [{symptom: x, label: x, plain: x, neighbours: [{symptom: push, tell: t}, {symptom: "
     "push, tell: u}]}]",
     kRule, 1, 84, "`push` is named as a neighbour twice", ""},
    {"neighbour_without_tell",
     "symptoms: [{symptom: x, label: x, plain: x, neighbours: [{symptom: push}]}]", kMissing, 1, 58,
     "a neighbour needs `tell`", ""},
    {"neighbour_with_more",
     "symptoms: [{symptom: x, label: x, plain: x, neighbours: [{symptom: push, tel: t, tell: t}]}]",
     Code::unknown_key, 1, 74, "`tel`", "`tell`"},
    {"neighbours_not_a_list",
     "symptoms: [{symptom: x, label: x, plain: x, neighbours: {symptom: push, tell: t}}]", kShape,
     1, 57, "`neighbours` must be a list", ""},
    {"neighbour_of_one_side",
     "symptoms:\n  - {symptom: y, label: y, plain: y}\n  - symptom: x\n    label: x\n    plain: x\n"
     "    neighbours:\n      - {symptom: y, tell: t}\n",
     kRule, 7, 1, "`x` names `y` as its neighbour, but not the other way round", "say at `y`"},
    {"told_apart_as_before", "symptoms: [{symptom: x, label: x, plain: x, apart: y}]",
     Code::unknown_key, 1, 45, "`apart`", ""},
    {"symptom_unsaid",
     "symptoms:\n  - symptom: x\n    label: x\n    plain: x\n    reading: {id: r, row: {response: "
     "1},"
     " value: 1, unsaid: any, because: b, provenance: {practice: common}, status: test}",
     kRule, 5, 14, "`unsaid` is mean, entry, mid or exit", ""},
    {"fact_without_values", "facts: [{fact: x, label: x}]", kRule, 1, 9, "needs its `values`", ""},
    {"prior_unknown_value",
     "facts: [{fact: x, label: x, values: [a, b], prior: [{values: {a: 1, c: 1}}]}]",
     Code::unknown_key, 1, 69, "`c`", "one of a, b"},
    {"prior_of_nothing", "facts: [{fact: x, label: x, values: [a], prior: [{values: {a: 0}}]}]",
     kRule, 1, 50, "weights above zero", ""},
    {"prior_below_nothing",
     "facts: [{fact: x, label: x, values: [a, b], prior: [{values: {a: 2, b: -1}}]}]", kRule, 1, 53,
     "weights above zero", ""},
    {"prior_not_a_list", "facts: [{fact: x, label: x, values: [a], prior: {values: {a: 1}}}]",
     kShape, 1, 49, "`prior` must be a list", ""},
    {"measure_kind",
     "measures: [{measure: x, label: x, kind: lenght, plausible: {from: 0, to: 1}}]", kName, 1, 12,
     "`lenght` is not a kind of number", "length"},
    {"measure_backwards", "measures: [{measure: x, label: x, plausible: {from: 2, to: 1}}]", kRule,
     1, 46, "begins at or beyond its end", ""},
    {"measure_not_plausible", "measures: [{measure: x, label: x}]", kMissing, 1, 12, "`plausible`",
     ""},
    {"ahead_unknown",
     "track: damp\nlabel: d\nplain: x\nahead: {state: gren, shift: {rear-grip: 1}}", kName, 4, 8,
     "`gren` is not a track state", "`green`"},
    {"wet_perhaps", "track: damp\nlabel: d\nplain: x\nwet: perhaps", kRule, 4, 6, "yes or no", ""},

    {"meaning_unknown", "words: [{means: symptm, id: push, phrases: [x]}]", kName, 1, 17,
     "`symptm` is not a meaning", "`symptom`"},
    {"means_unknown_symptom", "words: [{means: symptom, id: psuh, phrases: [x]}]", kName, 1, 9,
     "`psuh` is nothing that a symptom can mean", ""},
    {"means_unknown_value", "words: [{means: fact, id: turn-in=brke, phrases: [x]}]", kName, 1, 9,
     "`turn-in=brke` is nothing that a fact", ""},
    {"means_fact_without_value", "words: [{means: fact, id: turn-in, phrases: [x]}]", kName, 1, 9,
     "`turn-in`", ""},
    {"means_unknown_phase", "words: [{means: phase, id: apex, phrases: [x]}]", kName, 1, 9,
     "`apex`", ""},
    {"means_severity_of_four", "words: [{means: severity, id: 4, phrases: [x]}]", kName, 1, 9,
     "`4`", ""},
    {"filler_with_meaning", "words: [{means: filler, id: push, phrases: [x]}]", kName, 1, 9,
     "`push` is nothing that a filler can mean", ""},
    {"implied_phase", "words: [{means: symptom, id: push, phrases: [x], phase: enrty}]", kName, 1,
     57, "`enrty` is not a phase", "`entry`"},
    {"implied_severity", "words: [{means: symptom, id: push, phrases: [x], severity: 9}]", kName, 1,
     60, "`9` is not a severity", "one of 0, 1, 2, 3"},
    {"no_phrases", "words: [{means: symptom, id: push}]", kRule, 1, 9, "`phrases`", ""},
    {"capital", "words: [{means: symptom, id: push, phrases: [x, Pushes]}]", kRule, 1, 45,
     "`Pushes` has a capital letter", "lower case"},
};

INSTANTIATE_TEST_SUITE_P(Each, WrongRules, testing::ValuesIn(kWrong),
                         [](const auto& each) { return case_name(each); });

TEST(WrongRuleFiles, EveryMistakeOfOneRuleIsToldInOneRun) {
  const auto found = found_in_own(
      "readings:\n"
      "  - idd: own\n"
      "    when: {track: colt}\n"
      "    row: {response: x, rar-grip: 1}\n"
      "    value: lots\n"
      "    provenance: {}\n"
      "    status: fine\n");
  std::vector<std::string> where;
  for (const Diagnostic& each : found) {
    where.push_back(std::string(code_name(each.code)) + " " + std::to_string(each.span.line));
  }
  EXPECT_EQ(where, (std::vector<std::string>{"D011 2", "D011 2", "R005 6", "D013 7", "D013 3",
                                             "D014 4", "D013 4", "Q001 5", "D012 2"}))
      << told(found);
}

}  // namespace
}  // namespace kartwright
