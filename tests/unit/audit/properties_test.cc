// What a pack claims of its advice, each claim kept by a sound pack and broken by one that is not.

#include "engine/audit/properties.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

constexpr TrialSize kFew{.mixes = 20, .seed = 7};

/// One axis, two states of the track, push and vibration, a rear width, a fault, and facts.
const char* const kPit = R"(hearing: {sure: 0.4, fair: 0.7, unsure: 1.2, denied: 0.5, praise: 0.7,
  phase-unsaid: 1.5, laps-faster: 3}
symptoms:
  - symptom: push
    label: push
    plain: it runs wide
    reading: {id: push-is-short-of-grip, row: {grip: 1}, value: -1, TAIL}
  - {symptom: vibration, label: vibration, plain: it shakes}
facts:
  - {fact: one-direction, label: one direction only, values: [left, right, no]}
  - {fact: seat, label: seat, values: [tight, loose]}
measures:
  - {measure: lean, label: lean, kind: mass, plausible: {from: 0 kg, to: 20 kg},
     band: {from: 0 kg, to: 5 lb}}
)";

const char* const kWidth = R"(adjustment: width
label: width
measured: overall
directions: [wider, narrower]
phrases: [wider, narrower]
kind: length
reference-step: 10 mm
usual: {from: 1300 mm, to: 1350 mm, step: 5 mm}
typical: 1320 mm
most-at-once: 15 mm
minutes: 6
explain: x
plain: x
limits: x
watch: {wider: x, narrower: x}
back-out: {wider: x, narrower: x}
effects:
  - {id: wider-sheds-grip, moves: {grip: -0.5 ± 0.2}, TAIL}
)";

const char* const kFault = R"(fault: bent-axle
label: bent axle
check: spin it
fix: a new one
prior: -17
minutes: 2
loss: 3
provenance: {practice: common}
evidence:
  - {id: shaking-may-be-the-axle, when: {report: vibration}, decibans: +8, TAIL}
)";

std::string with_tails(std::string text) {
  for (std::size_t at = text.find("TAIL"); at != std::string::npos; at = text.find("TAIL")) {
    text.replace(at, 4, kRuleTail);
  }
  return text;
}

/// One property, in the fourth file: file-4.yaml:2.
std::string claim(const std::string& id, const std::string& scope = "") {
  return "properties:\n  - {id: " + id + ", TAIL" + scope + "}\n";
}

/// What else a pack of a claim may hold.
struct More {
  std::string lists = {}, effects = {}, evidence = {};
};

Pack pack_with(const std::string& claimed, const More& more = {}) {
  return pack_of({axes_text({"grip"}) + with_tails(kPit + more.lists),
                  with_tails(kWidth + more.effects), with_tails(kFault + more.evidence),
                  with_tails(claimed), "track: green\nlabel: green\nplain: x\n",
                  "track: wet\nlabel: wet\nplain: x\nwet: yes\n"});
}

std::vector<Diagnostic> broken_in(const std::string& claimed, const More& more = {}) {
  return check_properties(pack_with(claimed, more), kFew);
}

/// The one finding, at the claim's place.
void expect_broken(const std::vector<Diagnostic>& found, Code code, const std::string& words) {
  ASSERT_THAT(found, SizeIs(1)) << told(found);
  EXPECT_EQ(found[0].code, code);
  EXPECT_EQ(found[0].severity, Severity::error);
  EXPECT_EQ(found[0].file, "file-4.yaml");
  EXPECT_EQ(found[0].span.line, 2);
  EXPECT_THAT(found[0].message, HasSubstr(words)) << told(found);
}

TEST(Properties, ASoundPackKeepsThemAll) {
  for (const std::string id :
       {"opposite-moves", "left-and-right", "inches-and-millimetres", "worse-reports"}) {
    EXPECT_EQ(told(broken_in(claim(id))), "") << id;
  }
}

TEST(Properties, WhatIsNotClaimedIsNotChecked) {
  const More crooked{.effects =
                         "  - {id: end-of-it, when: {setting: {width: {within: 10 mm, of: "
                         "wider}}}, moves: {grip: 0 ± 0.2}, TAIL}\n"};
  EXPECT_THAT(broken_in("properties: []", crooked), IsEmpty());
  EXPECT_THAT(broken_in(claim("left-and-right"), crooked), IsEmpty());
}

// Opposite moves.

const char* const kEndOfIt =
    "  - {id: end-of-it, when: {setting: {width: {within: 10 mm, of: wider}}},\n"
    "     moves: {grip: -0.1 ± 0.2}, TAIL}\n";

TEST(OppositeMoves, AStepIntoTheEndAndTheStepBackDoNotCancel) {
  const auto found = broken_in(claim("opposite-moves"), {.effects = kEndOfIt});
  expect_broken(found, Code::moves_not_opposite,
                "`opposite-moves` does not hold: with the track unknown and nothing said, `width` "
                "from 1325 mm to 1340 mm does -0.75 notches to grip, and the way back +0.15");
  EXPECT_THAT(found[0].help, HasSubstr("`except`"));
}

TEST(OppositeMoves, ARuleOnTheRoomLeftBreaksThemToo) {
  const auto found = broken_in(
      claim("opposite-moves"),
      {.effects = "  - {id: no-room, when: {fact: {'room:width:wider': none}}, moves: {grip: 0 ± "
                  "0.2}, TAIL}\n"});
  expect_broken(found, Code::moves_not_opposite, "from 1335 mm to 1350 mm");
}

TEST(OppositeMoves, ACaseThatOnlyAFactOfTheCrewBringsIsFound) {
  const auto found = broken_in(
      claim("opposite-moves"),
      {.effects = "  - {id: loose-seat, when: {fact: {seat: loose}, setting: {width: {within: 10 "
                  "mm, of: narrower}}},\n     moves: {grip: +0.5 ± 0.2}, TAIL}\n"});
  expect_broken(found, Code::moves_not_opposite,
                "with the track unknown and `seat=loose`, `width`");
}

TEST(OppositeMoves, ACaseThatOnlyAReportBringsIsFound) {
  const auto found = broken_in(
      claim("opposite-moves"),
      {.effects = "  - {id: shaking-at-the-end, when: {report: vibration, setting: {width: "
                  "{within: 10 mm, of: wider}}},\n     moves: {grip: +0.5 ± 0.2}, TAIL}\n"});
  expect_broken(found, Code::moves_not_opposite, "`vibration=1`, `width`");
}

TEST(OppositeMoves, ACaseThatOnlyFactsAndAReportTogetherBringIsFoundInAMix) {
  const auto found = broken_in(
      claim("opposite-moves"),
      {.effects = "  - {id: all-at-once, when: {fact: {seat: loose, one-direction: left}, report: "
                  "vibration, setting: {width: {within: 10 mm, of: wider}}},\n"
                  "     moves: {grip: +0.5 ± 0.2}, TAIL}\n"});
  ASSERT_THAT(found, SizeIs(1)) << told(found);
  for (const char* said : {"`seat=loose`", "`one-direction=left`", "`vibration=1`"})
    EXPECT_THAT(found[0].message, HasSubstr(said));
}

TEST(OppositeMoves, AFactThatOnlyAReportConcludesIsFoundByTheReport) {
  const auto found = broken_in(
      claim("opposite-moves"),
      {.lists = "derive:\n  - {id: shaking-loosens, when: {report: vibration}, then: {seat: "
                "loose}, TAIL}\n",
       .effects = "  - {id: loose-seat, when: {fact: {seat: loose}, setting: {width: {within: 10 "
                  "mm, of: wider}}},\n     moves: {grip: +0.5 ± 0.2}, TAIL}\n"});
  expect_broken(found, Code::moves_not_opposite, "`width` from ");
}

TEST(OppositeMoves, ARuleOnAnotherSettingBreaksNothing) {
  const More elsewhere{.effects =
                           "  - {id: on-wet, when: {track: wet}, moves: {grip: +0.5 ± 0.2}, "
                           "TAIL}\n"};
  EXPECT_EQ(told(broken_in(claim("opposite-moves"), elsewhere)), "");
}

TEST(OppositeMoves, AnExceptionWithItsReasonIsLeftAlone) {
  EXPECT_THAT(broken_in(claim("opposite-moves",
                              ", except: [{adjustment: width, because: the end is an end}]"),
                        {.effects = kEndOfIt}),
              IsEmpty());
}

// Left and right.

TEST(LeftAndRight, EvidenceOfOneSideOnlyBreaksThem) {
  const auto found = broken_in(
      claim("left-and-right"),
      {.evidence =
           "  - {id: left-only, when: {fact: {one-direction: left}}, decibans: +5, TAIL}\n"});
  expect_broken(found, Code::sides_differ,
                "with the track unknown and `one-direction=left`, `bent-axle` stands at -12 dB "
                "against -17 with left and right exchanged");
}

TEST(LeftAndRight, EvidenceOfBothSidesKeepsThem) {
  EXPECT_EQ(told(broken_in(claim("left-and-right"),
                           {.evidence = "  - {id: either, when: {fact: {one-direction: [left, "
                                        "right]}}, decibans: +5, TAIL}\n"})),
            "");
}

TEST(LeftAndRight, AReadingOfOneSideOnlyMovesTheBelief) {
  const auto found = broken_in(
      claim("left-and-right"),
      {.lists =
           "readings:\n  - {id: right-hander, when: {fact: {one-direction: right}, track: wet}, "
           "row: {grip: 1}, value: +1 ± 0.5, TAIL}\n"});
  expect_broken(found, Code::sides_differ, "with the track wet and `one-direction=left`, grip is");
}

TEST(LeftAndRight, AnEffectOfOneSideOnlyChangesTheRanking) {
  const auto found = broken_in(
      claim("left-and-right"),
      {.effects = "  - {id: left-hander, when: {fact: {one-direction: left}}, moves: {grip: -2 ± "
                  "0.2}, TAIL}\n"});
  expect_broken(found, Code::sides_differ, "`width` narrower scores");
}

// Inches and millimetres.

/// A rule that counts in an amount finer than any scale, or any figure of a file, can tell.
const char* const kTooFine =
    "readings:\n  - {id: leans, when: {measure: {lean: above-band}}, row: {grip: 1},\n"
    "     value: +0.5 ± 0.7, per: {measure: lean, each: 0.0000000001 kg}, TAIL}\n";

TEST(InchesAndMillimetres, AnAmountTooFineToWriteBreaksThem) {
  const auto found = broken_in(claim("inches-and-millimetres"), {.lists = kTooFine});
  expect_broken(found, Code::units_differ, "`lean` at");
  EXPECT_THAT(found[0].message, HasSubstr("in inches"));
}

TEST(InchesAndMillimetres, AnAmountThatCanBeWeighedKeepsThem) {
  EXPECT_EQ(told(broken_in(claim("inches-and-millimetres"),
                           {.lists = "readings:\n  - {id: leans, when: {measure: {lean: "
                                     "above-band}}, row: {grip: 1},\n     value: +0.5 ± 0.7, per: "
                                     "{measure: lean, each: 1 lb}, TAIL}\n"})),
            "");
}

// Of these, 1, 3, 6, 8, 11, 14, 16 and 29 psi come out a hair apart when they are written in bar.
TEST(InchesAndMillimetres, ALimitInOneSystemHoldsForTheSameNumberInTheOther) {
  for (int psi = 1; psi <= 40; ++psi) {
    const std::string limit = std::to_string(psi) + " psi";
    EXPECT_EQ(told(broken_in(claim("inches-and-millimetres"),
                             {.lists = "  - {measure: hot, label: hot, kind: pressure, plausible: "
                                       "{from: 0 bar, to: 3 bar}}\nreadings:\n  - {id: runs-hot, "
                                       "when: {measure: {hot: {above: " +
                                       limit + "}}}, row: {grip: 1}, value: +0.5 ± 0.7, TAIL}\n"})),
              "")
        << limit;
  }
}

// Worse reports.

const char* const kSurelyPushing =
    "readings:\n  - {id: green-pushes, when: {track: green}, row: {grip: 1}, value: -3 ± 0.2, "
    "TAIL}\n";

TEST(WorseReports, ADenialThatWeighsLessThanASlightReportBreaksThem) {
  Pack pack = pack_with(claim("worse-reports"), {.lists = kSurelyPushing});
  EXPECT_EQ(told(check_properties(pack, kFew)), "");
  pack.hearing.denied = 5.0;
  const auto found = check_properties(pack, kFew);
  expect_broken(found, Code::worse_report_lowers,
                "with the track green and `push=1,sure`, there is less `push`");
  EXPECT_THAT(found[0].message, HasSubstr("than with severity 0"));
}

TEST(WorseReports, AReadingThatTurnsRoundWhenItIsSevereBreaksThem) {
  const auto found = broken_in(
      claim("worse-reports"),
      {.lists = "readings:\n  - {id: turns, when: {report: {symptom: push, at-least: 3}}, row: "
                "{grip: 1}, value: +2 ± 0.3, TAIL}\n"});
  expect_broken(found, Code::worse_report_lowers, "`push=3,sure`, there is less `push`");
}

TEST(WorseReports, EvidenceThatFallsWhenItIsSevereBreaksThem) {
  const auto found = broken_in(
      claim("worse-reports"),
      {.evidence = "  - {id: too-bad, when: {report: {symptom: vibration, at-least: 3}}, decibans: "
                   "-3, TAIL}\n"});
  expect_broken(found, Code::worse_report_lowers,
                "with the track unknown and `vibration=3`, `bent-axle` is less likely (-12 dB) "
                "than with severity 2 (-9 dB)");
}

TEST(WorseReports, EvidenceAgainstAFaultThatAnotherSymptomSpeaksForBreaksNothing) {
  EXPECT_EQ(told(broken_in(claim("worse-reports"),
                           {.evidence = "  - {id: not-that, when: {report: push}, decibans: -3, "
                                        "TAIL}\n"})),
            "");
}

TEST(WorseReports, AnExceptedSymptomIsLeftAlone) {
  EXPECT_THAT(
      broken_in(claim("worse-reports", ", except: [{symptom: vibration, because: so it is}]"),
                {.evidence = "  - {id: too-bad, when: {report: {symptom: vibration, at-least: 3}}, "
                             "decibans: -3, TAIL}\n"}),
      IsEmpty());
}

// All of them.

TEST(Properties, TheSameSeedFindsTheSameCase) {
  const Pack pack = pack_with(claim("opposite-moves"), {.effects = kEndOfIt});
  EXPECT_EQ(told(check_properties(pack, kFew)), told(check_properties(pack, kFew)));
}

TEST(Properties, TheRulesOfTheProgramKeepTheirClaims) {
  EXPECT_THAT(rules().properties, SizeIs(4));
  EXPECT_EQ(told(check_properties(rules(), kFew)), "");
}

TEST(Properties, TheExceptionsOfTheProgramAreNeeded) {
  Pack pack = rules();
  std::size_t excepted = 0;
  for (Property& property : pack.properties) {
    excepted += property.exceptions.size();
    property.only.clear();
    for (const Property::Exception& each : property.exceptions) property.only.push_back(each.id);
    if (property.exceptions.empty()) property.only = {"nothing"};
    property.exceptions.clear();
  }
  const auto found = check_properties(pack, kFew);
  ASSERT_THAT(found, SizeIs(1)) << told(found);
  EXPECT_EQ(excepted, 1U);
  EXPECT_THAT(found[0].message, HasSubstr("`camber`"));
}

}  // namespace
}  // namespace kartwright
