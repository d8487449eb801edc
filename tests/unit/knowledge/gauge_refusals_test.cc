// What a crew's own gauge may have wrong, each told once at its place.

#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/marked_input.h"

namespace kartwright {
namespace {

class WrongGaugeFile : public testing::TestWithParam<MarkedInput> {};

TEST_P(WrongGaugeFile, IsToldOnceAtItsPlace) {
  const WrongInput wrong = GetParam().wrong();
  expect_the_one_finding(wrong, found_in_own(wrong.text));
}

/// A gauge of one reading, one choice, one figure and one verdict, with one piece exchanged.
std::string gauge_with(const std::string& piece, const std::string& by) {
  std::string text =
      "gauge: axle-swing\n"
      "label: swing of the axle\n"
      "plain: whether it is straight\n"
      "steps: [turn it, read it]\n"
      "amounts:\n"
      "  - {reading: swing, label: swing, kind: length, plausible: {from: 0 mm, to: 9 mm}, "
      "example: 1 mm}\n"
      "choices:\n"
      "  - {choice: where, label: where, values: [{value: mid, label: middle}]}\n"
      "figures:\n"
      "  - {figure: bend, label: bend, kind: length, formula: half, of: [swing]}\n"
      "verdicts:\n"
      "  - {id: swings, of: bend, ok: yes, says: straight, because: it is, do: nothing, "
      "provenance: {practice: common}, status: test}\n";
  const std::size_t at = text.find(piece);
  EXPECT_NE(at, std::string::npos) << piece;
  return text.replace(at, piece.size(), by);
}

const MarkedInput kWrongGauges[] = {
    {"kind_says_nothing", gauge_with("label: swing, kind: length", "label: swing, kind: ^''"),
     Code::unknown_name, "`kind` says nothing", "length, mass, angle"},
    {"kind_misspelt",
     gauge_with("- {reading: swing, label: swing, kind: length",
                "- ^{reading: swing, label: swing, kind: lenght"),
     Code::unknown_name, "`lenght` is not a kind of number", "length"},
    {"no_plausible",
     gauge_with("- {reading: swing, label: swing, kind: length, plausible: {from: "
                "0 mm, to: 9 mm}",
                "- ^{reading: swing, label: swing, kind: length"),
     Code::missing_key, "needs `plausible`"},
    {"plausible_open_below", gauge_with("{from: 0 mm, to: 9 mm}", "^{to: 9 mm}"), Code::bad_rule,
     "`plausible` needs both ends"},
    {"choice_of_none",
     gauge_with("- {choice: where, label: where, values: [{value: mid, label: "
                "middle}]}",
                "- ^{choice: where, label: where}"),
     Code::bad_rule, "a choice needs its `values`"},
    {"no_steps",
     gauge_with("gauge: axle-swing\nlabel: swing of the axle\nplain: whether it is "
                "straight\nsteps: [turn it, read it]\n",
                "^gauge: axle-swing\nlabel: swing of the axle\nplain: whether it is "
                "straight\n"),
     Code::bad_rule, "a gauge needs its `steps` and its `verdicts`"},
    {"figure_of_no_setting",
     gauge_with("- {figure: bend, label: bend, kind: length, formula: "
                "half, of: [swing]}",
                "- ^{figure: bend, label: bend, kind: length, formula: "
                "half, of: ['setting:rear-wdith']}"),
     Code::unknown_name, "`rear-wdith` is not an adjustment", "`rear-width`"},
    {"figure_with_no_reading",
     gauge_with("- {figure: bend,", "- ^{figure: bend, only-with: [swong],"), Code::unknown_name,
     "`swong` is not a reading", "`swing`"},
    {"figure_of_no_measure",
     gauge_with("- {figure: bend,", "- ^{figure: bend, measure: front-shar,"), Code::unknown_name,
     "`front-shar` is not a measure", "`front-share`"},
    {"possible_backwards",
     gauge_with("- {figure: bend,",
                "- {figure: bend, possible: ^{from: 5 mm, to: 2 mm}, impossible: x,"),
     Code::bad_rule, "a range begins at or beyond its end"},
    {"impossible_unsaid",
     gauge_with("- {figure: bend,", "- ^{figure: bend, possible: {from: 5 mm},"), Code::missing_key,
     "needs `impossible`"},
    {"formula_misspelt", gauge_with("formula: half", "formula: ^hlaf"), Code::unknown_name,
     "`hlaf` is not a formula", "`half`"},
    {"where_of_no_choice", gauge_with("ok: yes", "ok: yes, where: {^wher: mid}"), Code::unknown_key,
     "`wher`", "`where`"},
    {"where_of_no_value", gauge_with("ok: yes", "ok: yes, where: ^{where: middel}"),
     Code::unknown_name, "`middel` is not a value of `where`", ""},
    {"states_no_map", gauge_with("ok: yes", "ok: yes, states: ^[turn-in]"), Code::wrong_shape,
     "`states` must be a map", "such as"},
    {"states_no_fact", gauge_with("ok: yes", "ok: yes, states: ^{turn-im: brake}"),
     Code::unknown_name, "`turn-im` is not a fact", "`turn-in`"},
    {"states_no_value", gauge_with("ok: yes", "ok: yes, states: ^{turn-in: brak}"),
     Code::unknown_name, "`brak` is not a value of it", "`brake`"},
    {"side_misspelt", gauge_with("ok: yes", "ok: yes, side: ^ovr"), Code::unknown_name,
     "`ovr` is not a side of a band", "`over`"},
    {"ok_missing", gauge_with("- {id: swings, of: bend, ok: yes", "- ^{id: swings, of: bend"),
     Code::missing_key, "needs `ok`"},
    {"ok_perhaps", gauge_with("ok: yes", "ok: ^perhaps"), Code::bad_rule, "`ok` is yes or no"},
    {"caution_misspelt", gauge_with("ok: yes", "ok: yes, cautions: ^[torqe]"), Code::unknown_name,
     "`torqe` is not a caution", "`torque`"},
    {"care_misspelt", gauge_with("plain:", "cautions: ^[torqe]\nplain:"), Code::unknown_name,
     "`torqe` is not a caution", "`torque`"},
    {"figure_of_verdict", gauge_with("- {id: swings, of: bend", "- ^{id: swings, of: bent"),
     Code::unknown_name, "`bent` is not a figure", "`bend`"},
};

INSTANTIATE_TEST_SUITE_P(Each, WrongGaugeFile, testing::ValuesIn(kWrongGauges),
                         [](const auto& each) { return case_name(each); });

}  // namespace
}  // namespace kartwright
