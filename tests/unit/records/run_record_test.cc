// A run out of an export: whole, or with every mistake named by its place.

#include "engine/records/run_record.h"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/run_json.h"
#include "tests/support/kart_pack.h"
#include "tests/support/log_files.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

struct ReadRun {
  std::optional<LoggedRun> run;
  std::vector<Diagnostic> found;
};

ReadRun read_record(const std::string& text) {
  Findings findings;
  std::optional<LoggedRun> run = read_run(parse_document("day.json", text), findings);
  return {std::move(run), findings.all()};
}

const std::string kKartName = "kart: blue 27\nat: 2026-11-14T10:30:00\n";

TEST(RunRecord, ReadsWhatAnExportWrites) {
  const ReadRun read = read_record(in_words(whole_run()));
  EXPECT_EQ(told(read.found), "");
  ASSERT_TRUE(read.run);
  EXPECT_EQ(in_words(*read.run), in_words(whole_run()));
}

TEST(RunRecord, NeedsAKartAndAMoment) {
  EXPECT_TRUE(read_record(kKartName).run);
  EXPECT_FALSE(read_record("at: 2026-11-14T10:30:00\n").run);
  EXPECT_FALSE(read_record("kart: blue 27\n").run);
  const ReadRun read = read_record("kart: blue 27\nat: yesterday\n");
  ASSERT_THAT(read.found, SizeIs(1));
  EXPECT_EQ(read.found[0].code, Code::bad_record);
  EXPECT_EQ(read.found[0].span.line, 2);
  EXPECT_EQ(read.found[0].span.column, 5);
}

TEST(RunRecord, EveryMistakeIsNamedAtItsPlace) {
  const ReadRun read = read_record(kKartName +
                                   "driven: perhaps\n"
                                   "tyre-laps: 2.5\n"
                                   "air: warm\n"
                                   "laps:\n"
                                   "  - {number: 1, seconds: 31, flag: sideways}\n"
                                   "  - {number: 2, flag: counts}\n"
                                   "sesion: heat 2\n"
                                   "verdicts: none\n");
  EXPECT_FALSE(read.run);
  std::vector<int> lines;
  for (const Diagnostic& each : read.found) lines.push_back(each.span.line);
  EXPECT_THAT(lines, testing::UnorderedElementsAre(3, 4, 5, 7, 8, 9, 10)) << told(read.found);
}

TEST(RunRecord, AMistakeIsNeverHalfARun) {
  for (const char* const more :
       {"laps: [{number: 1, seconds: 0, flag: counts}]", "laps: [{number: 1, seconds: -31}]",
        "laps: [{number: 1, seconds: .inf, flag: counts}]", "laps: 31.4", "tyre-laps: 1e12",
        "reports: [{symptom: push, phase: entry, severity: 4, confidence: fair}]",
        "reports: [{symptom: push, phase: entry, severity: 2, confidence: fair, side: up}]",
        "settings: [{adjustment: toe}]", "settings: [{value: 1 mm}]", "notes: [{}]",
        "notes: [{text: \"\"}]", "facts: [{fact: hit}]",
        "changes: [{adjustment: toe, steps: 1, origin: found}]",
        "changes: [{adjustment: toe, from: 0 mm, to: 1 mm, steps: 1, origin: somebody}]",
        "verdicts: [{verdict: keep}]", "id: 3"}) {
    const ReadRun read = read_record(kKartName + more);
    EXPECT_FALSE(read.run) << more;
    EXPECT_FALSE(read.found.empty()) << more;
  }
}

std::vector<std::string> faults_with(const std::function<void(LoggedRun&)>& spoil) {
  LoggedRun run = whole_run();
  spoil(run);
  return faults_of(run);
}

TEST(RunFaults, AreNoneInAWholeRun) { EXPECT_THAT(faults_of(whole_run()), IsEmpty()); }

TEST(RunFaults, AreInItsLaps) {
  EXPECT_THAT(faults_with([](LoggedRun& run) { run.laps[1].seconds = 0; }),
              ElementsAre("lap 2 takes 0 s"));
  EXPECT_THAT(faults_with([](LoggedRun& run) { run.laps[1].seconds = std::nan(""); }), SizeIs(1));
  EXPECT_THAT(faults_with([](LoggedRun& run) { run.laps[2].number = 2; }),
              ElementsAre("lap 2 stands twice", HasSubstr("lap 3 of 4 is missing")));
  EXPECT_THAT(faults_with([](LoggedRun& run) { run.laps.erase(run.laps.begin()); }),
              ElementsAre(HasSubstr("lap 1 of 4 is missing")));
}

TEST(RunFaults, AreAChangeThatTheSetupDoesNotShow) {
  EXPECT_THAT(faults_with([](LoggedRun& run) { run.settings[2].value = "3 mm"; }),
              ElementsAre("`toe` was changed to 1 mm and stands at 3 mm"));
  // Of several changes of one setting the last counts; a setting that is not known says nothing.
  EXPECT_THAT(faults_with([](LoggedRun& run) {
                run.changes.insert(run.changes.begin(), run.changes[0]);
                run.changes[0].to = "5 mm";
              }),
              IsEmpty());
  EXPECT_THAT(faults_with([](LoggedRun& run) { run.settings.clear(); }), IsEmpty());
}

TEST(RunFaults, AreTextsThatCouldSteerATerminal) {
  for (const char* const text : {"\x1b[2J", "a\x7F", "a\r",
                                 "\xC2\x9B"
                                 "2J",
                                 "\xE2\x80\xAE"
                                 "b",
                                 "\xE2\x81\xA6", "\t"}) {
    EXPECT_THAT(faults_with([&](LoggedRun& run) { run.driver = text; }), SizeIs(1)) << text;
    EXPECT_THAT(faults_with([&](LoggedRun& run) { run.kart = text; }), SizeIs(1)) << text;
    EXPECT_THAT(faults_with([&](LoggedRun& run) { run.notes[0].text = text; }), SizeIs(1)) << text;
    EXPECT_THAT(faults_with([&](LoggedRun& run) { run.reports[0].corners[0] = text; }), SizeIs(1));
  }
  EXPECT_THAT(faults_with([](LoggedRun& run) { run.driver = "Östman – №2 \xF0\x9F\x8F\x81"; }),
              IsEmpty());
}

TEST(RunFaults, AreAMomentAndAKartThatAreNone) {
  EXPECT_THAT(faults_with([](LoggedRun& run) { run.at = "noon"; }), SizeIs(1));
  EXPECT_THAT(faults_with([](LoggedRun& run) { run.kart.clear(); }), SizeIs(1));
  EXPECT_THAT(faults_with([](LoggedRun& run) { run.reports[0].severity = 7; }), SizeIs(1));
}

}  // namespace
}  // namespace kartwright
