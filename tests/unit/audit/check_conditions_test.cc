// Rules that can never speak, and conditions that tell nothing apart.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/audit/checks.h"
#include "tests/support/small_audit.h"

namespace kartwright {
namespace {

using testing::HasSubstr;

/// What is found of evidence that waits for a condition.
AuditFindings found_of(const char* when) {
  const Pack pack = SmallAudit{.evidence = rule_text("one", when, "decibans: +3")}.pack();
  return check_conditions(pack);
}

struct Judged {
  const char* name;
  const char* when;
  const char* told;
};

void PrintTo(const Judged& judged, std::ostream* out) { *out << judged.name; }

class JudgedCondition : public testing::TestWithParam<Judged> {};

TEST_P(JudgedCondition, IsToldAsItIs) {
  EXPECT_EQ(told(found_of(GetParam().when)), GetParam().told) << GetParam().when;
}

constexpr const char* kNever = "A001 error one\n";
constexpr const char* kAlways = "A002 warning one\n";

INSTANTIATE_TEST_SUITE_P(
    OfFacts, JudgedCondition,
    testing::Values(
        Judged{"two_tracks_at_once", "all: [{track: cold}, {track: wet}]", kNever},
        Judged{"one_of_two_tracks", "track: [cold, wet]", ""},
        Judged{"two_lists_that_share_a_track", "all: [{track: [cold, wet]}, {track: wet}]", ""},
        Judged{"a_fact_and_not", "fact: hit, not: {fact: hit}", kNever},
        Judged{"a_fact_and_not_its_other_value", "fact: hit, not: {fact: {hit: no}}", ""},
        Judged{"a_fact_or_not", "any: [{fact: hit}, {not: {fact: hit}}]", kAlways},
        Judged{"unsaid_facts_are_none_of_the_values", "fact: {hit: [yes, no]}", ""},
        Judged{"not_two_values_that_exclude_each_other",
               "not: {all: [{fact: hit}, {fact: {hit: no}}]}", kAlways}),
    [](const auto& info) { return info.param.name; });

INSTANTIATE_TEST_SUITE_P(
    OfReports, JudgedCondition,
    testing::Values(Judged{"reported_and_denied_at_one_phase",
                           "all: [{report: {symptom: push, phase: mid}}, "
                           "{report: {symptom: push, phase: mid, at-least: 0}}]",
                           kNever},
                    Judged{"reported_and_denied_at_two_phases",
                           "all: [{report: {symptom: push, phase: mid}}, "
                           "{report: {symptom: push, phase: entry, at-least: 0}}]",
                           ""},
                    Judged{"reported_and_denied_somewhere",
                           "all: [{report: push}, {report: {symptom: push, at-least: 0}}]", ""},
                    Judged{"at_a_phase_but_nowhere",
                           "all: [{report: {symptom: push, phase: mid}}, {not: {report: push}}]",
                           kNever},
                    Judged{"severe_but_not_clear",
                           "all: [{report: {symptom: push, phase: mid, at-least: 3}}, "
                           "{not: {report: {symptom: push, at-least: 2}}}]",
                           kNever},
                    Judged{"clear_but_not_severe",
                           "all: [{report: {symptom: push, phase: mid, at-least: 2}}, "
                           "{not: {report: {symptom: push, at-least: 3}}}]",
                           ""},
                    Judged{"severe_somewhere_or_not_clear_at_mid",
                           "any: [{report: {symptom: push, phase: mid, at-least: 2}}, "
                           "{not: {report: {symptom: push, phase: mid, at-least: 3}}}]",
                           kAlways}),
    [](const auto& info) { return info.param.name; });

INSTANTIATE_TEST_SUITE_P(
    OfSettings, JudgedCondition,
    testing::Values(Judged{"two_positions_at_once",
                           "all: [{setting: {axle: soft}}, {setting: {axle: hard}}]", kNever},
                    Judged{"any_position", "setting: {axle: [soft, medium, hard]}",
                           ""},  // or no axle at all
                    Judged{"near_both_ends_of_a_short_travel",
                           "all: [{setting: {rear-width: {within: 10 mm, of: wider}}}, "
                           "{setting: {rear-width: {within: 10 mm, of: narrower}}}]",
                           ""},
                    Judged{"nearer_but_not_near",
                           "all: [{setting: {rear-width: {within: 5 mm, of: wider}}}, "
                           "{not: {setting: {rear-width: {within: 10 mm, of: wider}}}}]",
                           kNever},
                    Judged{"near_but_not_nearer",
                           "all: [{setting: {rear-width: {within: 10 mm, of: wider}}}, "
                           "{not: {setting: {rear-width: {within: 5 mm, of: wider}}}}]",
                           ""},
                    Judged{"no_room_at_the_soft_end",
                           "setting: {axle: soft}, fact: {'room:axle:softer': some}", kNever},
                    Judged{"no_room_in_the_middle_by_the_class",
                           "setting: {axle: medium}, fact: {'room:axle:softer': none}", ""},
                    Judged{"room_and_none",
                           "all: [{fact: {'room:axle:softer': none}}, "
                           "{fact: {'room:axle:softer': some}}]",
                           kNever}),
    [](const auto& info) { return info.param.name; });

INSTANTIATE_TEST_SUITE_P(
    OfMeasures, JudgedCondition,
    testing::Values(
        Judged{"over_and_under_the_band",
               "all: [{measure: {front-share: above-band}}, {measure: {front-share: below-band}}]",
               kNever},
        Judged{"over_the_crews_own_band_and_under_a_limit",
               "all: [{measure: {front-share: above-band}}, "
               "{measure: {front-share: {below: 38 %}}}]",
               ""},
        Judged{"above_and_below_limits_that_leave_nothing",
               "all: [{measure: {front-share: {above: 44 %}}}, "
               "{measure: {front-share: {below: 44 %}}}]",
               kNever},
        Judged{"beyond_what_is_plausible", "measure: {front-share: {above: 60 %}}", kNever},
        Judged{"measured_or_not",
               "any: [{measure: {front-share: {above: 31 %}}}, "
               "{not: {measure: {front-share: {above: 45 %}}}}]",
               kAlways}),
    [](const auto& info) { return info.param.name; });

TEST(NeverSpeaks, NamesThePartsThatExcludeEachOther) {
  const AuditFindings found = found_of("all: [{report: push}, {track: cold}, {track: wet}]");
  ASSERT_EQ(told(found), kNever);
  EXPECT_EQ(found[0].diagnostic.help, "`track:cold` and `track:wet` exclude each other");
}

TEST(NeverSpeaks, SeesThroughDerivedFacts) {
  SmallAudit small{.evidence = rule_text("one", "fact: heavy, not: {track: wet}", "decibans: +3"),
                   .derive = rule_text("wet-is-heavy", "track: wet", "then: {heavy: yes}"),
                   .facts = "  - {fact: heavy, label: x, values: [yes], derived: yes}\n"};
  EXPECT_EQ(told(check_conditions(small.pack())), kNever);
  small.derive += rule_text("hit-is-heavy", "fact: hit", "then: {heavy: yes}");
  EXPECT_EQ(told(check_conditions(small.pack())), "");
}

// A fact may hold twice: as stated, and as a rule concludes.
TEST(NeverSpeaks, NotWhereARuleAddsASecondValue) {
  const SmallAudit small{
      .evidence = rule_text("one", "all: [{fact: hit}, {fact: {hit: no}}]", "decibans: +3"),
      .derive = rule_text("wet-hits", "track: wet", "then: {hit: yes}")};
  EXPECT_EQ(told(check_conditions(small.pack())), "");
}

TEST(NeverSpeaks, AnEffectWhoseCellsOthersTakeInEveryCase) {
  SmallAudit small{.effects = rule_text("when-hit", "fact: hit", "moves: {grip: -0.1 ± 0.1}") +
                              rule_text("else", "not: {fact: hit}", "moves: {grip: -0.2 ± 0.1}")};
  EXPECT_EQ(told(check_conditions(small.pack())), "A001 error wider-frees\n");
  small.effects = rule_text("when-hit", "fact: hit", "moves: {grip: -0.1 ± 0.1}") +
                  rule_text("else", "fact: {hit: no}", "moves: {grip: -0.2 ± 0.1}");
  EXPECT_EQ(told(check_conditions(small.pack())), "");
}

TEST(NeverSpeaks, AnEffectThatWaitsForAKartWithoutItsAdjustment) {
  const char* const gone = "not: {any: [{fact: {'room:rear-width:wider': [none, some]}}]}";
  const SmallAudit small{.effects = rule_text("one", gone, "moves: {grip: -0.1 ± 0.1}")};
  EXPECT_EQ(told(check_conditions(small.pack())), kNever);
  EXPECT_EQ(told(found_of(gone)), "");
}

TEST(TooTangled, IsANoteAndEndsInTime) {
  std::string all;
  for (int i = 0; i < 12; ++i) {
    all += std::string(i == 0 ? "" : ", ") +
           "{any: [{report: {symptom: push, phase: entry, at-least: 2}}, {track: cold}, "
           "{measure: {front-share: {above: " +
           std::to_string(35 + i) +
           " %}}}, {not: {measure: {front-share: {below: " + std::to_string(34 + i) + " %}}}}]}";
  }
  const AuditFindings found = found_of(("all: [" + all + "]").c_str());
  EXPECT_EQ(told(found), "A011 note one\n");
}

}  // namespace
}  // namespace kartwright
