// Faults by name: those of form, which schema and loader both refuse, and those that no schema can
// see, which the loader refuses alone.

#include <array>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/schemas/document_json.h"
#include "tests/schemas/readers.h"
#include "tests/schemas/schema.h"
#include "tests/support/kart_pack.h"

namespace kartwright {
namespace {

struct NamedFault {
  const char* what;
  FileKind kind;
  const char* text;
};

std::ostream& operator<<(std::ostream& out, const NamedFault& fault) { return out << fault.what; }

constexpr const char* kRuleTail = ", because: x, provenance: {practice: common}, status: test}\n";

/// A reading rule with a condition.
std::string reading_when(const std::string& condition) {
  return "readings:\n  - {id: tried, row: {response: 1}, value: 0.1 ± 0.5, when: " + condition +
         kRuleTail;
}

bool schema_takes(FileKind kind, const std::string& text) {
  return schema(name_of(kind)).accepts(json_of_lenient(text));
}

constexpr std::array kFaultsOfForm{
    NamedFault{"a key that is not known", FileKind::kart, "settngs: {toe: 1 mm}\n"},
    NamedFault{"an adjustment that is not known", FileKind::kart, "settings: {teo: 1 mm}\n"},
    NamedFault{"a setting without its unit", FileKind::kart, "settings: {rear-width: 1360}\n"},
    NamedFault{"a setting with the unit of something else", FileKind::kart,
               "settings: {rear-width: 12 psi}\n"},
    NamedFault{"a decimal comma", FileKind::kart, "settings: {toe: '1,5 mm'}\n"},
    NamedFault{"a position that there is not", FileKind::kart, "settings: {axle: mushy}\n"},
    NamedFault{"a setting left empty", FileKind::kart, "settings: {toe: }\n"},
    NamedFault{"a setting that is a list", FileKind::kart, "settings: {toe: [1 mm]}\n"},
    NamedFault{"a range without positions", FileKind::kart,
               "settings: {axle: soft}\nranges: {axle: []}\n"},
    NamedFault{"a range that goes from words", FileKind::kart,
               "settings: {toe: 1 mm}\nranges: {toe: {from: far, to: 3 mm}}\n"},
    NamedFault{"a wrong range of what is not fitted", FileKind::kart,
               "settings: {axle: none}\nranges: {axle: [mushy]}\n"},
    NamedFault{"parts of what is moved and not swapped", FileKind::kart,
               "settings: {toe: 1 mm}\nparts: {toe: [1 mm]}\n"},
    NamedFault{"minutes below nothing", FileKind::kart,
               "settings: {toe: 1 mm}\nminutes: {toe: -3}\n"},
    NamedFault{
        "three scales of four", FileKind::kart,
        "measured: {corner-weights: {left-front: 33 kg, right-front: 33 kg, left-rear: 40 kg}}\n"},
    NamedFault{"a fact that is not known", FileKind::kart, "facts: {raised-mas: yes}\n"},
    NamedFault{"a value that a fact has not", FileKind::kart, "facts: {collars: lose}\n"},
    NamedFault{"a limit that is neither", FileKind::kart,
               "settings: {toe: 1 mm}\nclass: {limits: {toe: {no-more-than: 3 mm}}}\n"},
    NamedFault{"a mount without its place", FileKind::kart,
               "carried: {lead: {mass: 5 kg, at: rear, mounts: {rear: {left: 0 mm}}}}\n"},
    NamedFault{"an empty kart file", FileKind::kart, "# nothing\n"},
    NamedFault{"a track that is not known", FileKind::debrief, "track: gren\n"},
    NamedFault{"a symptom that is not known", FileKind::debrief, "reports: [psh@entry]\n"},
    NamedFault{"a severity of four", FileKind::debrief, "reports: [push@entry=4]\n"},
    NamedFault{"a side in the place of a phase", FileKind::debrief, "reports: [push@left]\n"},
    NamedFault{"reports that are one text", FileKind::debrief, "reports: push@entry\n"},
    NamedFault{"a side under the confidence", FileKind::debrief,
               "reports: [{symptom: push, phase: entry, confidence: left}]\n"},
    NamedFault{"a phase in the symptom of a map", FileKind::debrief,
               "reports: [{symptom: push@entry}]\n"},
    NamedFault{"minutes in words", FileKind::debrief, "minutes: fifteen\n"},
    NamedFault{"hours below nothing", FileKind::debrief, "hours: -1\n"},
    NamedFault{"laps in seconds", FileKind::debrief, "laps: 31.4\n"},
    NamedFault{"a kart written out with a slip", FileKind::debrief,
               "kart: {settings: {rear-width: wide}}\n"},
    NamedFault{"nothing that is expected", FileKind::scenario,
               "title: x\nbecause: x\ntrack: green\n"},
    NamedFault{"a direction of another adjustment", FileKind::scenario,
               "title: x\nbecause: x\nexpect: {first: {adjustment: toe, direction: wider}}\n"},
    NamedFault{"a headline that there is not", FileKind::scenario,
               "title: x\nbecause: x\nexpect: {headline: go}\n"},
    NamedFault{"axes that are a word", FileKind::scenario,
               "title: x\nbecause: x\nexpect: {axes: high}\n"},
    NamedFault{"half a stretch of words", FileKind::scenario,
               "title: x\nbecause: x\nexpect: {not-understood: 0.5}\n"},
    NamedFault{"a case without rules", FileKind::cases, "cases: [{case: x, track: green}]\n"},
    NamedFault{"words in a case", FileKind::cases,
               "cases: [{case: x, said: it pushes, fires: [y]}]\n"},
    NamedFault{"a fault without its evidence", FileKind::rule,
               "fault: x\nlabel: x\ncheck: x\nfix: x\nprior: -10\nminutes: 1\nloss: 1\n"
               "provenance: {practice: common}\n"},
    NamedFault{
        "a provenance that says nothing", FileKind::rule,
        "facts: [{fact: x, label: x, values: [yes, no]}]\nderive:\n  - {id: x, then: {x: yes}, "
        "because: x, provenance: {note: x}, status: test}\n"},
    NamedFault{"a status that there is not", FileKind::rule,
               "derive:\n  - {id: x, then: {hit: yes}, because: x, provenance: {practice: common}, "
               "status: done}\n"},
    NamedFault{"a spread that is missing", FileKind::rule,
               "readings:\n  - {id: x, row: {response: 1}, value: 0.1, because: x, provenance: "
               "{practice: common}, status: test}\n"},
    NamedFault{"two facts from one rule", FileKind::rule,
               "derive:\n  - {id: x, then: {hit: yes, sudden: yes}, because: x, provenance: "
               "{practice: common}, status: test}\n"},
    NamedFault{"a flag that is neither yes nor no", FileKind::rule,
               "day: [{stage: x, label: x, track: green, rubber: perhaps}]\n"},
    NamedFault{"a capital in a phrase", FileKind::rule,
               "words: [{means: filler, phrases: [Well]}]\n"},
    NamedFault{"a side that there is not", FileKind::rule,
               "words: [{means: side, id: up, phrases: [uphill]}]\n"},
    NamedFault{"a kind of number that there is not", FileKind::rule,
               "measures: [{measure: x, label: x, kind: speed, plausible: {from: 1, to: 2}}]\n"},
    NamedFault{
        "states that are a word", FileKind::rule,
        "gauge: x\nlabel: x\nplain: x\nsteps: [x]\nverdicts:\n  - {id: x, ok: yes, says: x, do: "
        "x, states: tight, because: x, provenance: {practice: common}, status: test}\n"},
    NamedFault{
        "a property that there is not", FileKind::rule,
        "properties: [{id: x, because: x, provenance: {practice: common}, status: test}]\n"}};

constexpr std::array kFaultsOfTheLoaderAlone{
    NamedFault{"a key twice", FileKind::kart, "kart: a\nkart: b\n"},
    NamedFault{"an anchor", FileKind::kart, "class: {name: &x senior}\nkart: *x\n"},
    NamedFault{"a zero in front", FileKind::kart, "settings: {toe: 1 mm}\nminutes: {toe: 010}\n"},
    NamedFault{"a range upside down", FileKind::kart,
               "settings: {toe: 1 mm}\nranges: {toe: {from: 3 mm, to: -1 mm}}\n"},
    NamedFault{"a setting outside its range", FileKind::kart, "settings: {rear-width: 1500 mm}\n"},
    NamedFault{
        "a setting over the class limit", FileKind::kart,
        "settings: {rear-width: 1390 mm}\nclass: {limits: {rear-width: {at-most: 1380 mm}}}\n"},
    NamedFault{"a position that this kart does not reach", FileKind::kart,
               "settings: {axle: hard}\nranges: {axle: [soft, medium]}\n"},
    NamedFault{"a section on what has no setting", FileKind::kart, "ranges: {axle: [soft]}\n"},
    NamedFault{"a size that no kart has", FileKind::kart, "dimensions: {wheelbase: 3 m}\n"},
    NamedFault{"a mass on a mount that there is not", FileKind::kart,
               "carried: {lead: {mass: 5 kg, at: roof, mounts: {rear: {forward: 0 mm}}}}\n"},
    NamedFault{"scales that no kart and driver weigh", FileKind::kart,
               "measured: {corner-weights: {left-front: 9 kg, right-front: 9 kg, left-rear: 9 kg, "
               "right-rear: 9 kg}}\n"},
    NamedFault{"a kart file that is not there", FileKind::scenario,
               "title: x\nbecause: x\nkart: no-such.yaml\nexpect: {headline: change}\n"},
    NamedFault{"a rule in both lists", FileKind::cases,
               "cases: [{case: x, fires: [y], silent: [y]}]\n"},
    NamedFault{"two cases of one name", FileKind::cases,
               "cases: [{case: x, fires: [y]}, {case: x, fires: [z]}]\n"},
    NamedFault{
        "one axis twice, by itself and by its family", FileKind::rule,
        "adjustment: x\nlabel: x\nplain: x\nmeasured: x\ndirections: [a, b]\nphrases: [a, b]\n"
        "positions: [p, q]\nmost-at-once: 1\ntypical: p\nminutes: 1\nexplain: x\nlimits: x\n"
        "watch: {a: x, b: x}\nback-out: {a: x, b: x}\neffects:\n  - {id: x, moves: "
        "{front-grip: 0.1 ± 0.2, front-grip.mid: 0.1 ± 0.2}, because: x, provenance: "
        "{practice: common}, status: test}\n"},
    NamedFault{
        "directions by other names", FileKind::rule,
        "adjustment: x\nlabel: x\nplain: x\nmeasured: x\ndirections: [a, b]\nphrases: [a, b]\n"
        "positions: [p, q]\nmost-at-once: 1\ntypical: p\nminutes: 1\nexplain: x\nlimits: x\n"
        "watch: {a: x, c: x}\nback-out: {a: x, b: x}\neffects: []\n"},
    NamedFault{
        "a range of a size upside down", FileKind::rule,
        "measures: [{measure: x, label: x, kind: length, plausible: {from: 2 m, to: 1 m}}]\n"},
    NamedFault{
        "a unit of another kind of number", FileKind::rule,
        "measures: [{measure: x, label: x, kind: length, plausible: {from: 1 psi, to: 2 psi}}]\n"},
    NamedFault{"a fact that nobody defines", FileKind::rule,
               "drill-cases:\n  - {case: x, level: one-symptom, "
               "title: x, because: x, track: green, said: x, facts: {unheard-of: yes}}\n"},
    NamedFault{
        "a gap between verdicts", FileKind::rule,
        "gauge: x\nlabel: x\nplain: x\nsteps: [x]\namounts: [{reading: r, label: x, kind: length, "
        "example: 1 mm, plausible: {from: 0 mm, to: 9 mm}}]\nfigures: [{figure: f, label: x, kind: "
        "length, of: [r]}]\nverdicts:\n  - {id: x-low, of: f, to: 1 mm, ok: yes, says: x, do: x, "
        "because: x, provenance: {practice: common}, status: test}\n  - {id: x-high, of: f, from: "
        "2 "
        "mm, ok: no, says: x, do: x, because: x, provenance: {practice: common}, status: test}\n"}};

class FaultOfForm : public testing::TestWithParam<NamedFault> {};
TEST_P(FaultOfForm, IsRefusedByBoth) {
  const NamedFault& fault = GetParam();
  EXPECT_NE(told(loader_errors(fault.kind, fault.text)), "");
  EXPECT_FALSE(schema_takes(fault.kind, fault.text));
}
INSTANTIATE_TEST_SUITE_P(All, FaultOfForm, testing::ValuesIn(kFaultsOfForm));

class FaultBeyondForm : public testing::TestWithParam<NamedFault> {};
TEST_P(FaultBeyondForm, IsRefusedByTheLoaderAlone) {
  const NamedFault& fault = GetParam();
  EXPECT_NE(told(loader_errors(fault.kind, fault.text)), "");
  EXPECT_TRUE(schema_takes(fault.kind, fault.text));
}
INSTANTIATE_TEST_SUITE_P(All, FaultBeyondForm, testing::ValuesIn(kFaultsOfTheLoaderAlone));

TEST(RuleConditions, AreJudgedAlike) {
  using enum FileKind;
  for (const char* good :
       {"{track: [cold, green]}", "{fact: raised-mass}", "{fact: {turn-in: throttle}}",
        "{report: {symptom: push, phase: entry, at-least: 2}}", "{report: hop}",
        "{setting: {rear-width: {within: 10 mm, of: narrower}}}", "{setting: {axle: hard}}",
        "{measure: {front-share: above-band}}", "{measure: {front-pair-difference: {above: 3 lb}}}",
        "{not: {any: [{fact: hit}, {all: [{laps: faster}]}]}}"}) {
    EXPECT_EQ(told(loader_errors(rule, reading_when(good))), "") << good;
    EXPECT_TRUE(schema_takes(rule, reading_when(good))) << good;
  }
  for (const char* bad :
       {"{}", "wet", "{trck: cold}", "{all: []}", "{report: {symptom: push, phase: apex}}",
        "{report: {phase: entry}}", "{setting: {rear-width: {within: 10 mm}}}",
        "{measure: {front-share: over}}", "{measure: {front-share: {}}}",
        "{measure: {front-share: {above: }}}", "{measure: {front-share: {above: 1 %, below: 2 %}}}",
        "{not: [{fact: hit}]}", "{fact: {}}"}) {
    EXPECT_NE(told(loader_errors(rule, reading_when(bad))), "") << bad;
    EXPECT_FALSE(schema_takes(rule, reading_when(bad))) << bad;
  }
}

TEST(WrittenQuantities, AreReadAlike) {
  using enum FileKind;
  for (const char* good :
       {"1360 mm", "1360mm", "136 cm", "1.36 m", "53 1/2 in", "53-1/2\"", "53.5 inches", "4' 5\"",
        "4 ft 5 1/2 in", "+1360 MM", "107/2 in", "1.36e3 mm", " 1360 mm "}) {
    const std::string text = "settings: {rear-width: '" + std::string(good) + "'}\n";
    const std::string quoted = std::string(good).find('\'') == std::string::npos
                                   ? text
                                   : "settings: {rear-width: \"4' 5\\\"\"}\n";
    EXPECT_EQ(told(loader_errors(kart, quoted)), "") << good;
    EXPECT_TRUE(schema_takes(kart, quoted)) << good;
  }
  for (const char* bad : {"1360", "mm", "1,360 mm", "1360 mm wide", "01360 mm", "1360 mph",
                          "1360 mm 5 in", "inf mm", "53 in 1/2", "", "none of it"}) {
    const std::string text = "settings: {rear-width: \"" + std::string(bad) + "\"}\n";
    EXPECT_NE(told(loader_errors(kart, text)), "") << bad;
    EXPECT_FALSE(schema_takes(kart, text)) << bad;
  }
}

}  // namespace
}  // namespace kartwright
