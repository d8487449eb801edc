// What an adjustment's or a fault's own file may have wrong. Each case changes one line of a good
// file.

#include <ostream>

#include <gtest/gtest.h>

#include "engine/knowledge/load.h"
#include "tests/support/kart_pack.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

/// The text of one of the small rules with one piece of it exchanged.
std::string changed(const std::string& file, const std::string& piece, const std::string& by) {
  for (const Document& document : small_rules()) {
    if (document.name != file) continue;
    std::string text = document.text;
    const std::size_t at = text.find(piece);
    EXPECT_NE(at, std::string::npos) << piece;
    return text.replace(at, piece.size(), by);
  }
  ADD_FAILURE() << file;
  return {};
}

struct Edit {
  const char *name, *file, *piece, *by;
  Code code;
  int line, column;
  const char *message, *help;
};

// NOLINTNEXTLINE(readability-identifier-naming): the name is GoogleTest's
void PrintTo(const Edit& change, std::ostream* out) { *out << change.name; }

class WrongPart : public testing::TestWithParam<Edit> {};

TEST_P(WrongPart, IsToldOnceAtItsPlace) {
  const Edit& c = GetParam();
  const WrongInput wrong{
      c.name, changed(c.file, c.piece, c.by), c.code, c.line, c.column, c.message, c.help};
  expect_the_one_finding(wrong, found_in_own(wrong.text));
}

constexpr const char* W = "rear-width.yaml";
constexpr const char* A = "axle.yaml";
constexpr const char* F = "bent-axle.yaml";

const Edit kChanges[] = {
    {"one_direction", W, "[wider, narrower]", "[wider, narrower, up]", Code::bad_rule, 1, 1,
     "`directions` needs two entries", "+ direction first"},
    {"one_phrase", W, "[rear wider, rear narrower]", "[rear wider]", Code::bad_rule, 1, 1,
     "`phrases` needs two entries", ""},
    {"no_plain_words", W, "plain: how wide it stands\n", "", Code::missing_key, 1, 1,
     "needs `plain`", ""},
    {"no_limits", W, "limits: the axle ends\n", "", Code::missing_key, 1, 1, "needs `limits`", ""},
    {"limits_misspelt", W, "limits: the axle ends", "limits: the axle ends\nlimit: x",
     Code::unknown_key, 24, 1, "`limit`", "`limits`"},
    {"unknown_kind", W, "kind: length", "kind: lenght", Code::unknown_name, 1, 1, "`lenght`",
     "length"},
    {"no_kind", W, "kind: length\n", "", Code::missing_key, 1, 1, "needs `kind`", ""},
    {"step_of_nothing", W, "reference-step: 10 mm", "reference-step: 0 mm", Code::bad_rule, 1, 1,
     "a range that cannot be moved in", ""},
    {"step_without_unit", W, "reference-step: 10 mm", "reference-step: 10", Code::bad_quantity, 7,
     17, "no unit", "a length"},
    {"grid_backwards", W, "step: 5 mm", "step: -5 mm", Code::bad_rule, 1, 1, "cannot be moved", ""},
    {"range_backwards", W, "from: 1300 mm", "from: 1500 mm", Code::bad_rule, 1, 1, "cannot be", ""},
    {"no_range", W, "usual: ", "# ", Code::missing_key, 1, 1, "needs `usual`", ""},
    {"no_time", W, "minutes: 6", "minutes: 0", Code::bad_rule, 1, 1, "above zero", ""},
    {"no_move_allowed", A, "most-at-once: 1", "most-at-once: 0", Code::bad_rule, 1, 1, "above zero",
     ""},
    {"parts_perhaps", A, "parts: yes", "parts: true", Code::bad_rule, 10, 8, "`parts` is yes or no",
     ""},
    {"unknown_caution", W, "cautions: [torque]", "cautions: [torqe]", Code::unknown_name, 12, 11,
     "`torqe` is not a caution", "`torque`"},
    {"unknown_stand", W, "cautions: [torque]", "shares-stand-with: [axel]\nstand-minutes: 2",
     Code::unknown_name, 12, 20, "`axel` is not an adjustment", "`axle`"},
    {"no_stand_minutes", W, "cautions: [torque]", "shares-stand-with: [axle]", Code::missing_key, 1,
     1, "needs `stand-minutes`", ""},
    {"a_stand_for_nothing", W, "cautions: [torque]", "shares-stand-with: [axle]\nstand-minutes: 0",
     Code::bad_rule, 1, 1, "above zero", ""},
    {"more_stand_than_job", W, "cautions: [torque]", "shares-stand-with: [axle]\nstand-minutes: 7",
     Code::bad_rule, 1, 1, "not more than `minutes`", ""},
    {"unknown_twin", W, "cautions: [torque]", "same-setting-as: axel", Code::unknown_name, 12, 18,
     "`axel` is not an adjustment", "`axle`"},
    {"part_of_unknown", W, "cautions: [torque]", "part-of: axel", Code::unknown_name, 12, 10,
     "`axel` is not an adjustment", "`axle`"},
    {"watch_one_way", W, "watch: {wider: hop fades, narrower: the rear holds}",
     "watch: {wider: hop fades}", Code::missing_key, 20, 8, "needs `narrower`", ""},
    {"watch_another_way", W, "back-out: {wider:", "back-out: {up: x, wider:", Code::unknown_key, 21,
     12, "`up`", ""},
    {"unknown_axis_moved", W, "response: +0.1", "respones: +0.1", Code::unknown_name, 16, 36,
     "`respones` is not an axis", "`response`"},
    {"moved_without_spread", W, "+0.1 ± 0.3", "+0.1", Code::bad_quantity, 16, 46, "`+0.1`", ""},
    {"moved_twice", W, "response: +0.1 ± 0.3", "rear-grip.mid: +0.1 ± 0.3", Code::bad_rule, 16, 12,
     "one axis is moved twice", ""},
    {"moves_nothing", W, "{rear-grip: -0.5 ± 0.2, response: +0.1 ± 0.3}", "{}", Code::bad_rule, 16,
     12, "at least one axis", ""},
    {"effects_not_a_list", A, "effects: []", "effects: {id: x}", Code::wrong_shape, 12, 10,
     "`effects` must be a list", ""},
    {"contested_perhaps", W, "status: stable", "status: stable\n    contested: maybe",
     Code::bad_rule, 20, 16, "`contested` is yes or no", ""},
    {"no_check", F, "check: spin it\n", "", Code::missing_key, 1, 1, "needs `check`", ""},
    {"prior_with_unit", F, "prior: -17", "prior: -17 dB", Code::bad_number, 5, 8, "`-17 dB`", ""},
    {"costs_nothing", F, "loss: 3", "loss: 0", Code::bad_rule, 1, 1, "above zero", ""},
    {"takes_no_time", F, "minutes: 2", "minutes: -2", Code::bad_rule, 1, 1, "above zero", ""},
    {"evidence_of_nothing", F, "    when: {report: vibration}\n", "", Code::missing_key, 12, 5,
     "a piece of evidence needs `when`", ""},
    {"evidence_of_unknown", F, "{report: vibration}", "{report: vibraton}", Code::unknown_name, 13,
     20, "`vibraton` is not a symptom", "`vibration`"},
    {"evidence_not_a_list", F, "  - id: vibration", "    id: vibration", Code::wrong_shape, 12, 5,
     "`evidence` must be a list", ""},
    {"evidence_weight", F, "decibans: +8", "decibans: much", Code::bad_number, 14, 15, "`much`",
     ""},
};

INSTANTIATE_TEST_SUITE_P(Each, WrongPart, testing::ValuesIn(kChanges),
                         [](const auto& each) { return std::string(each.param.name); });

TEST(KartParts, TheGoodFilesThemselvesAreTaken) {
  for (const char* const file : {W, A, F}) {
    EXPECT_EQ(told(found_in_own(changed(file, ":", ":"))), "") << file;
  }
}

TEST(KartParts, AFamilyMovesEveryOneOfItsPhases) {
  const Pack pack = load_pack(small_rules());
  const std::vector<Cell>& cells = pack.adjustment("rear-width")->effects.front().cells;
  ASSERT_EQ(cells.size(), 4U);
  std::vector<std::string> moved;
  for (const Cell& cell : cells) moved.push_back(pack.axes[cell.axis].id);
  EXPECT_EQ(moved, (std::vector<std::string>{"rear-grip.entry", "rear-grip.mid", "rear-grip.exit",
                                             "response"}));
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(cells[i].mean, -0.5);
    EXPECT_EQ(cells[i].sd, 0.2);
  }
  EXPECT_EQ(cells[3].mean, 0.1);
  EXPECT_EQ(cells[3].sd, 0.3);
}

TEST(KartParts, OnePhaseMayBeMovedAlone) {
  const Pack pack = small_pack_with(
      changed(W, "{rear-grip: -0.5 ± 0.2, response: +0.1 ± 0.3}", "{rear-grip.exit: 1 ± 0.25}"));
  const std::vector<Cell>& cells = pack.adjustment("rear-width")->effects.front().cells;
  ASSERT_EQ(cells.size(), 1U);
  EXPECT_EQ(pack.axes[cells[0].axis].id, "rear-grip.exit");
}

TEST(KartParts, AFamilyOfCorrelationsIsEveryPairOfItsPhases) {
  const Pack pack = small_pack_with("correlations: [{a: rear-grip, b: front-grip, value: 0.15}]");
  int across = 0;
  int within = 0;
  for (const Correlation& c : pack.correlations) {
    EXPECT_LT(c.a, c.b);
    across += c.value == 0.15 ? 1 : 0;
    within += c.value == 0.6 ? 1 : 0;
  }
  EXPECT_EQ(across, 9);
  EXPECT_EQ(within, 3);
}

TEST(KartParts, RowsAreSortedAndKeepTheFamily) {
  const Pack pack = load_pack(small_rules());
  const std::vector<RowTerm>& row = pack.symptom("push")->reading->row;
  ASSERT_EQ(row.size(), 2U);
  EXPECT_EQ(row[0].axis, "front-grip");
  EXPECT_EQ(row[0].factor, 1.0);
  EXPECT_EQ(row[1].axis, "rear-grip");
  EXPECT_EQ(row[1].factor, -1.0);
  EXPECT_EQ(pack.symptom("push")->reading->unsaid, std::nullopt);  // the mean of the phases
}

TEST(KartParts, AReadingMayGrowWithAMeasure) {
  const Pack pack = small_pack_with(
      "readings:\n  - {id: own, row: {response: 1}, value: +0.6 ± 0.7, because: x,\n"
      "     provenance: {practice: common}, status: test, per: {measure: front-share, each: 2 %}}");
  const ReadingRule& rule = pack.readings.back();
  EXPECT_EQ(rule.id, "own");
  EXPECT_EQ(rule.per_measure, "front-share");
  EXPECT_NEAR(rule.per_amount, 0.02, 1e-12);
  EXPECT_EQ(rule.when.op, Condition::Op::always);
}

}  // namespace
}  // namespace kartwright
