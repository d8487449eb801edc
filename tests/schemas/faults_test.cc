// Faults by name: those of form, which schema and loader both refuse, and those that no schema can
// see, which the loader refuses alone.

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

const std::vector<NamedFault>& faults_of_form() {
  using enum FileKind;
  static const std::vector<NamedFault> kFaults{
      {"a key that is not known", kart, "settngs: {toe: 1 mm}\n"},
      {"an adjustment that is not known", kart, "settings: {teo: 1 mm}\n"},
      {"a setting without its unit", kart, "settings: {rear-width: 1360}\n"},
      {"a setting with the unit of something else", kart, "settings: {rear-width: 12 psi}\n"},
      {"a decimal comma", kart, "settings: {toe: '1,5 mm'}\n"},
      {"a position that there is not", kart, "settings: {axle: mushy}\n"},
      {"a setting left empty", kart, "settings: {toe: }\n"},
      {"a setting that is a list", kart, "settings: {toe: [1 mm]}\n"},
      {"a range without positions", kart, "settings: {axle: soft}\nranges: {axle: []}\n"},
      {"a range that goes from words", kart,
       "settings: {toe: 1 mm}\nranges: {toe: {from: far, to: 3 mm}}\n"},
      {"a wrong range of what is not fitted", kart,
       "settings: {axle: none}\nranges: {axle: [mushy]}\n"},
      {"parts of what is moved and not swapped", kart,
       "settings: {toe: 1 mm}\nparts: {toe: [1 mm]}\n"},
      {"minutes below nothing", kart, "settings: {toe: 1 mm}\nminutes: {toe: -3}\n"},
      {"three scales of four", kart,
       "measured: {corner-weights: {left-front: 33 kg, right-front: 33 kg, left-rear: 40 kg}}\n"},
      {"a fact that is not known", kart, "facts: {raised-mas: yes}\n"},
      {"a value that a fact has not", kart, "facts: {collars: lose}\n"},
      {"a limit that is neither", kart,
       "settings: {toe: 1 mm}\nclass: {limits: {toe: {no-more-than: 3 mm}}}\n"},
      {"a mount without its place", kart,
       "carried: {lead: {mass: 5 kg, at: rear, mounts: {rear: {left: 0 mm}}}}\n"},
      {"an empty kart file", kart, "# nothing\n"},
      {"a track that is not known", debrief, "track: gren\n"},
      {"a symptom that is not known", debrief, "reports: [psh@entry]\n"},
      {"a severity of four", debrief, "reports: [push@entry=4]\n"},
      {"a side in the place of a phase", debrief, "reports: [push@left]\n"},
      {"reports that are one text", debrief, "reports: push@entry\n"},
      {"a side under the confidence", debrief,
       "reports: [{symptom: push, phase: entry, confidence: left}]\n"},
      {"a phase in the symptom of a map", debrief, "reports: [{symptom: push@entry}]\n"},
      {"minutes in words", debrief, "minutes: fifteen\n"},
      {"hours below nothing", debrief, "hours: -1\n"},
      {"laps in seconds", debrief, "laps: 31.4\n"},
      {"a kart written out with a slip", debrief, "kart: {settings: {rear-width: wide}}\n"},
      {"nothing that is expected", scenario, "title: x\nbecause: x\ntrack: green\n"},
      {"a direction of another adjustment", scenario,
       "title: x\nbecause: x\nexpect: {first: {adjustment: toe, direction: wider}}\n"},
      {"a headline that there is not", scenario, "title: x\nbecause: x\nexpect: {headline: go}\n"},
      {"axes that are a word", scenario, "title: x\nbecause: x\nexpect: {axes: high}\n"},
      {"half a stretch of words", scenario,
       "title: x\nbecause: x\nexpect: {not-understood: 0.5}\n"},
      {"a case without rules", cases, "cases: [{case: x, track: green}]\n"},
      {"words in a case", cases, "cases: [{case: x, said: it pushes, fires: [y]}]\n"},
      {"a fault without its evidence", rule,
       "fault: x\nlabel: x\ncheck: x\nfix: x\nprior: -10\nminutes: 1\nloss: 1\n"
       "provenance: {practice: common}\n"},
      {"a provenance that says nothing", rule,
       "facts: [{fact: x, label: x, values: [yes, no]}]\nderive:\n  - {id: x, then: {x: yes}, "
       "because: x, provenance: {note: x}, status: test}\n"},
      {"a status that there is not", rule,
       "derive:\n  - {id: x, then: {hit: yes}, because: x, provenance: {practice: common}, "
       "status: done}\n"},
      {"a spread that is missing", rule,
       "readings:\n  - {id: x, row: {response: 1}, value: 0.1, because: x, provenance: "
       "{practice: common}, status: test}\n"},
      {"two facts from one rule", rule,
       "derive:\n  - {id: x, then: {hit: yes, sudden: yes}, because: x, provenance: "
       "{practice: common}, status: test}\n"},
      {"a flag that is neither yes nor no", rule,
       "day: [{stage: x, label: x, track: green, rubber: perhaps}]\n"},
      {"a capital in a phrase", rule, "words: [{means: filler, phrases: [Well]}]\n"},
      {"a side that there is not", rule, "words: [{means: side, id: up, phrases: [uphill]}]\n"},
      {"a kind of number that there is not", rule,
       "measures: [{measure: x, label: x, kind: speed, plausible: {from: 1, to: 2}}]\n"},
      {"states that are a word", rule,
       "gauge: x\nlabel: x\nplain: x\nsteps: [x]\nverdicts:\n  - {id: x, ok: yes, says: x, do: "
       "x, states: tight, because: x, provenance: {practice: common}, status: test}\n"},
      {"a property that there is not", rule,
       "properties: [{id: x, because: x, provenance: {practice: common}, status: test}]\n"}};
  return kFaults;
}

const std::vector<NamedFault>& faults_of_the_loader_alone() {
  using enum FileKind;
  static const std::vector<NamedFault> kFaults{
      {"a key twice", kart, "kart: a\nkart: b\n"},
      {"an anchor", kart, "class: {name: &x senior}\nkart: *x\n"},
      {"a zero in front", kart, "settings: {toe: 1 mm}\nminutes: {toe: 010}\n"},
      {"a range upside down", kart,
       "settings: {toe: 1 mm}\nranges: {toe: {from: 3 mm, to: -1 mm}}\n"},
      {"a setting outside its range", kart, "settings: {rear-width: 1500 mm}\n"},
      {"a setting over the class limit", kart,
       "settings: {rear-width: 1390 mm}\nclass: {limits: {rear-width: {at-most: 1380 mm}}}\n"},
      {"a position that this kart does not reach", kart,
       "settings: {axle: hard}\nranges: {axle: [soft, medium]}\n"},
      {"a section on what has no setting", kart, "ranges: {axle: [soft]}\n"},
      {"a size that no kart has", kart, "dimensions: {wheelbase: 3 m}\n"},
      {"a mass on a mount that there is not", kart,
       "carried: {lead: {mass: 5 kg, at: roof, mounts: {rear: {forward: 0 mm}}}}\n"},
      {"scales that no kart and driver weigh", kart,
       "measured: {corner-weights: {left-front: 9 kg, right-front: 9 kg, left-rear: 9 kg, "
       "right-rear: 9 kg}}\n"},
      {"a kart file that is not there", scenario,
       "title: x\nbecause: x\nkart: no-such.yaml\nexpect: {headline: change}\n"},
      {"a rule in both lists", cases, "cases: [{case: x, fires: [y], silent: [y]}]\n"},
      {"two cases of one name", cases, "cases: [{case: x, fires: [y]}, {case: x, fires: [z]}]\n"},
      {"one axis twice, by itself and by its family", rule,
       "adjustment: x\nlabel: x\nplain: x\nmeasured: x\ndirections: [a, b]\nphrases: [a, b]\n"
       "positions: [p, q]\nmost-at-once: 1\ntypical: p\nminutes: 1\nexplain: x\nlimits: x\n"
       "watch: {a: x, b: x}\nback-out: {a: x, b: x}\neffects:\n  - {id: x, moves: "
       "{front-grip: 0.1 ± 0.2, front-grip.mid: 0.1 ± 0.2}, because: x, provenance: "
       "{practice: common}, status: test}\n"},
      {"directions by other names", rule,
       "adjustment: x\nlabel: x\nplain: x\nmeasured: x\ndirections: [a, b]\nphrases: [a, b]\n"
       "positions: [p, q]\nmost-at-once: 1\ntypical: p\nminutes: 1\nexplain: x\nlimits: x\n"
       "watch: {a: x, c: x}\nback-out: {a: x, b: x}\neffects: []\n"},
      {"a range of a size upside down", rule,
       "measures: [{measure: x, label: x, kind: length, plausible: {from: 2 m, to: 1 m}}]\n"},
      {"a unit of another kind of number", rule,
       "measures: [{measure: x, label: x, kind: length, plausible: {from: 1 psi, to: 2 psi}}]\n"},
      {"a fact that nobody defines", rule,
       "drill-cases:\n  - {case: x, level: one-symptom, "
       "title: x, because: x, track: green, said: x, facts: {unheard-of: yes}}\n"},
      {"a gap between verdicts", rule,
       "gauge: x\nlabel: x\nplain: x\nsteps: [x]\namounts: [{reading: r, label: x, kind: length, "
       "example: 1 mm, plausible: {from: 0 mm, to: 9 mm}}]\nfigures: [{figure: f, label: x, kind: "
       "length, of: [r]}]\nverdicts:\n  - {id: x-low, of: f, to: 1 mm, ok: yes, says: x, do: x, "
       "because: x, provenance: {practice: common}, status: test}\n  - {id: x-high, of: f, from: 2 "
       "mm, ok: no, says: x, do: x, because: x, provenance: {practice: common}, status: test}\n"}};
  return kFaults;
}

class FaultOfForm : public testing::TestWithParam<NamedFault> {};
TEST_P(FaultOfForm, IsRefusedByBoth) {
  const NamedFault& fault = GetParam();
  EXPECT_NE(told(loader_errors(fault.kind, fault.text)), "");
  EXPECT_FALSE(schema_takes(fault.kind, fault.text));
}
INSTANTIATE_TEST_SUITE_P(All, FaultOfForm, testing::ValuesIn(faults_of_form()));

class FaultBeyondForm : public testing::TestWithParam<NamedFault> {};
TEST_P(FaultBeyondForm, IsRefusedByTheLoaderAlone) {
  const NamedFault& fault = GetParam();
  EXPECT_NE(told(loader_errors(fault.kind, fault.text)), "");
  EXPECT_TRUE(schema_takes(fault.kind, fault.text));
}
INSTANTIATE_TEST_SUITE_P(All, FaultBeyondForm, testing::ValuesIn(faults_of_the_loader_alone()));

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
