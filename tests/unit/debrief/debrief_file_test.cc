// A debrief as a file: what is read, and what is refused at its place.

#include "engine/debrief/debrief_file.h"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/debrief/report_grammar.h"
#include "tests/support/kart_pack.h"
#include "tests/support/marked_input.h"
#include "tests/support/pit.h"
#include "tests/support/small_words.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

/// A file that must be in order.
DebriefFile debrief_of(const std::string& text) {
  Findings findings;
  DebriefFile file = read_debrief(parse_document("day/one.yaml", text), rules(), findings);
  EXPECT_THAT(findings.all(), IsEmpty()) << told(findings.all());
  return file;
}

std::vector<std::string> reports_in(const std::string& text) {
  return shown(debrief_of(text).debrief.heard.reports);
}

class WrongDebrief : public testing::TestWithParam<MarkedInput> {};

TEST_P(WrongDebrief, IsToldOnceAtItsPlace) {
  const WrongInput wrong = GetParam().wrong();
  Findings findings;
  read_debrief(parse_document("own.yaml", wrong.text), rules(), findings);
  expect_the_one_finding(wrong, findings.all());
}

const MarkedInput kWrongDebriefs[] = {
    {"not_a_map", "^- push", Code::wrong_shape, "a debrief must be a map"},
    {"key_misspelt", "^trak: cold", Code::unknown_key, "`trak`", "`track`"},
    {"track_misspelt", "track: ^gren", Code::unknown_name, "`gren` is not a track state",
     "`green`"},
    {"reports_not_a_list", "reports: ^{push: 2}", Code::wrong_shape, "`reports` must be a list",
     "- push@entry=2"},
    {"report_is_a_list", "reports:\n  - ^[push]\n", Code::wrong_shape, "a report"},
    {"symptom_misspelt", "reports: [^psuh@entry=2]", Code::unknown_name, "`psuh` is not a symptom",
     "`push`"},
    {"symptom_of_nowhere", "reports: [^qqqqqqqqqqqq]", Code::unknown_name, "is not a symptom",
     "`kartwright explain` lists the symptoms"},
    {"phase_misspelt", "reports: [push@^enrty=2]", Code::bad_report, "`enrty` is not a phase",
     "`entry`"},
    {"severity_of_four", "reports: [push@entry=^4]", Code::bad_report, "`4` is not a severity",
     "0 denied, 1 slight, 2 clear, 3 severe"},
    {"severity_of_ten", "reports: [push@entry=^10]", Code::bad_report, "`10` is not a severity"},
    {"severity_below_none", "reports: [push=^/]", Code::bad_report, "`/` is not a severity"},
    {"said_of_a_report", "reports: ['push=2,^lft']", Code::bad_report,
     "`lft` says nothing about a report", "left, right, early, late, sure, fair, unsure"},
    {"phase_of_a_map", "reports: [{symptom: push, phase: ^2}]", Code::bad_report,
     "`2` cannot stand under `phase`"},
    {"severity_of_a_map", "reports: [{symptom: push, severity: ^left}]", Code::bad_report,
     "`left` cannot stand under `severity`"},
    {"confidence_of_a_map", "reports: [{symptom: push, confidence: ^sur}]", Code::bad_report,
     "`sur` cannot stand under `confidence`", "`sure`"},
    {"side_of_a_map", "reports: [{symptom: push, side: ^late}]", Code::bad_report,
     "`late` cannot stand under `side`"},
    {"when_of_a_map", "reports: [{symptom: push, when: ^left}]", Code::bad_report,
     "`left` cannot stand under `when`"},
    {"line_in_a_map", "reports: [{symptom: ^push@entry}]", Code::bad_report,
     "`push@entry` is not a symptom", "have keys of their own"},
    {"report_key_misspelt", "reports: [{symptom: push, ^sid: left}]", Code::unknown_key, "`sid`",
     "`side`"},
    {"facts_not_a_map", "facts: ^[hit]", Code::wrong_shape, "`facts` must be a map",
     "{turn-in: brake}"},
    {"fact_misspelt", "facts: {^turn-im: brake}", Code::unknown_name, "`turn-im` is not a fact",
     "`turn-in`"},
    {"fact_value", "facts: {^turn-in: brak}", Code::bad_fact, "`brak` is not a value of `turn-in`",
     "`brake`"},
    {"laps_misspelt", "laps: ^fastr", Code::bad_fact, "`fastr` is not a value of `laps`",
     "`faster`"},
    {"minutes_below_none", "minutes: ^-1", Code::implausible, "`minutes` cannot be negative"},
    {"hours_below_none", "hours: ^-1", Code::implausible, "`hours` cannot be negative"},
    {"kart_is_a_list", "kart: ^[x]", Code::wrong_shape, "kart"},
};

INSTANTIATE_TEST_SUITE_P(Each, WrongDebrief, testing::ValuesIn(kWrongDebriefs),
                         [](const auto& each) { return case_name(each); });

TEST(DebriefFile, HoldsTheTrackTheClockAndTheFacts) {
  const Debrief debrief =
      debrief_of("track: unknown\nminutes: 0\nhours: 2.5\nlaps: faster\nfacts: {turn-in: brake}\n")
          .debrief;
  EXPECT_EQ(debrief.track, "unknown");
  EXPECT_EQ(debrief.minutes, 0.0);
  EXPECT_EQ(debrief.hours, 2.5);
  ASSERT_THAT(debrief.heard.facts, SizeIs(2));
  EXPECT_EQ(debrief.heard.facts[0].fact + debrief.heard.facts[0].value, "turn-inbrake");
  EXPECT_EQ(debrief.heard.facts[1].fact + debrief.heard.facts[1].value, "lapsfaster");
}

TEST(DebriefFile, ReportsInALineAndInAMapAreTheSame) {
  EXPECT_THAT(reports_in("reports: ['push@entry=3,left,late,sure', hop]"),
              ElementsAre("push@entry=3,left,late,sure", "hop@any=2"));
  EXPECT_THAT(reports_in("reports:\n  - {symptom: push, phase: entry, severity: 3, side: left, "
                         "when: late, confidence: sure, words: it pushes}\n  - {symptom: hop}\n"),
              ElementsAre("push@entry=3,left,late,sure", "hop@any=2"));
}

TEST(DebriefFile, ADenialIsOfPraiseOnlyWhereTheMapSaysSo) {
  const auto from_praise = [](const std::string& text) {
    return debrief_of(text).debrief.heard.reports.at(0).from_praise;
  };
  EXPECT_TRUE(from_praise("reports: [{symptom: push, severity: 0, praise: true}]"));
  EXPECT_FALSE(from_praise("reports: [{symptom: push, severity: 0, praise: false}]"));
  EXPECT_FALSE(from_praise("reports: [{symptom: push, severity: 0}]"));
  EXPECT_FALSE(from_praise("reports: [{symptom: push, severity: 1, praise: true}]"));
  EXPECT_FALSE(from_praise("reports: [push=0]"));
}

TEST(DebriefFile, WhatTheDriverSaidIsHeard) {
  EXPECT_THAT(reports_in("said: it pushes going in"), ElementsAre("push@entry=2"));
}

TEST(DebriefFile, HoldsItsKartOrPointsAtItFromItsOwnFolder) {
  EXPECT_EQ(debrief_of("kart: blue.yaml").kart_path, "day/blue.yaml");
  EXPECT_FALSE(debrief_of("kart: blue.yaml").kart);
  EXPECT_TRUE(debrief_of("kart: {kart: blue}").kart);
  EXPECT_EQ(debrief_of("kart: {kart: blue}").kart_path, "");
  EXPECT_EQ(debrief_of("track: cold").kart_path, "");
}

TEST(SettledReports, TheSevererIsKeptThenTheSurer) {
  std::vector<Report> reports{
      {.symptom = "push", .phase = Phase::entry, .severity = 1, .confidence = Confidence::sure},
      {.symptom = "hop", .phase = Phase::mid, .severity = 2},
      {.symptom = "push", .phase = Phase::entry, .severity = 3, .confidence = Confidence::unsure},
      {.symptom = "push", .phase = Phase::entry, .severity = 3, .confidence = Confidence::sure},
      {.symptom = "push", .phase = Phase::exit, .severity = 1}};
  settle_reports(reports);
  EXPECT_THAT(shown(reports), ElementsAre("push@entry=3,sure", "hop@mid=2", "push@exit=1"));
}

TEST(SettledReports, AComplaintBeatsPraiseAtAnyPhaseAndADenialDoesNot) {
  const Report praised{.symptom = "push", .phase = Phase::exit, .severity = 0, .from_praise = true};
  std::vector<Report> beaten{praised, {.symptom = "push", .phase = Phase::entry, .severity = 1}};
  settle_reports(beaten);
  EXPECT_THAT(beaten, SizeIs(1));
  EXPECT_EQ(beaten.at(0).severity, 1);
  std::vector<Report> kept{praised,
                           {.symptom = "push", .phase = Phase::entry, .severity = 0},
                           {.symptom = "hop", .phase = Phase::exit, .severity = 3}};
  settle_reports(kept);
  EXPECT_THAT(kept, SizeIs(3));
}

/// What is wrong with a fact written as `id=value`.
std::vector<Diagnostic> wrong_fact(const std::string& text, const Pack& pack) {
  Findings findings;
  EXPECT_FALSE(parse_fact(text, pack, {.file = "--fact", .source = text}, findings));
  return findings.all();
}

TEST(FactInALine, NeedsANameAValueAndACrewThatCanStateIt) {
  EXPECT_THAT(told(wrong_fact("hit", rules())), testing::HasSubstr("`hit` states no value"));
  EXPECT_THAT(told(wrong_fact("hitt=yes", rules())), testing::HasSubstr("`hitt` is not a fact"));
  EXPECT_THAT(told(wrong_fact("hit=maybe", rules())),
              testing::HasSubstr("`maybe` is not a value of `hit`"));
  Pack pack = rules();
  for (FactDef& fact : pack.facts) fact.entered = false;
  EXPECT_THAT(told(wrong_fact("hit=yes", pack)),
              testing::HasSubstr("`hit` is worked out, not stated"));
}

TEST(ReportInALine, WhereItIsNotFeltIsAWarningThatNamesWhereItIs) {
  for (const Symptom& symptom : rules().symptoms) {
    if (symptom.phases.empty() || symptom.phases.size() == 4) continue;
    Findings findings;
    int warned = 0;
    for (const Phase phase : {Phase::entry, Phase::mid, Phase::exit, Phase::straight}) {
      const std::string text = symptom.id + "@" + std::string(name_of(phase));
      const auto report = parse_report(text, rules(), {.file = "a", .source = text}, findings);
      ASSERT_TRUE(report) << text;
      EXPECT_EQ(report->phase, phase);
      const bool felt =
          std::find(symptom.phases.begin(), symptom.phases.end(), phase) != symptom.phases.end();
      warned += felt ? 0 : 1;
      ASSERT_EQ(findings.all().size(), static_cast<std::size_t>(warned)) << text;
      if (felt) continue;
      EXPECT_EQ(findings.all().back().severity, Severity::warning);
      EXPECT_EQ(findings.all().back().code, Code::phase_not_felt);
      for (const Phase each : symptom.phases)
        EXPECT_THAT(findings.all().back().help, testing::HasSubstr(std::string(name_of(each))));
    }
    EXPECT_FALSE(findings.has_errors());
  }
}

}  // namespace
}  // namespace kartwright
