// Two rule packs side by side: which rules differ, and which answers change by it.

#include "engine/audit/difference.h"

#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/advice/advise.h"
#include "engine/debrief/debrief_file.h"
#include "engine/knowledge/built_in.h"
#include "engine/knowledge/load.h"
#include "tests/support/kart_pack.h"
#include "tests/support/small_rules.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

NamedPack small_named(const std::string& own = "") {
  return {own.empty() ? "theirs" : "ours", small_pack_with(own)};
}

std::vector<PartDifference> rules_changed_by(const std::string& own) {
  return rules_apart(small_pack_with(""), small_pack_with(own));
}

/// "when: track:green -> track:cold", a line each, with what they are.
std::vector<std::string> lines_of(const PartDifference& part) {
  std::vector<std::string> lines;
  for (const FieldDifference& each : part.fields) {
    lines.push_back(std::string(name_of(each.kind)) + " " + each.field + ": " + each.before +
                    " -> " + each.after);
  }
  return lines;
}

const char* const kGreenReading =
    "readings:\n"
    "  - id: green-track-is-short-of-rear-grip\n"
    "    when: {track: green}\n"
    "    row: {rear-grip: 1}\n"
    "    value: -0.5 ± 0.8\n"
    "    because: without rubber the rear slides before it bites\n"
    "    provenance: {practice: common}\n"
    "    status: test\n";

std::string green_reading_with(const std::string& line, const std::string& by) {
  std::string text = kGreenReading;
  return text.replace(text.find(line), line.size(), by);
}

TEST(RuleDifference, OnePackIsNoDifference) {
  EXPECT_THAT(rules_changed_by(""), IsEmpty());
  const Pack built_in = built_in_pack();
  EXPECT_THAT(rules_apart(built_in, built_in), IsEmpty());
}

TEST(RuleDifference, ARuleWrittenElsewhereInTheSameWordsIsNoDifference) {
  EXPECT_THAT(rules_changed_by(kGreenReading), IsEmpty());
  EXPECT_THAT(rules_changed_by(green_reading_with("-0.5 ± 0.8", "-0.50 +/- 0.80")), IsEmpty());
}

TEST(RuleDifference, SaysWhatOfARuleChangedAndHow) {
  const std::pair<const char*, const char*> changes[] = {
      {"-0.5 ± 0.8", "-0.5 ± 0.9"},
      {"{track: green}", "{not: {track: [cold, green]}}"},
      {"{rear-grip: 1}", "{rear-grip: 0.5, response: -1}"},
      {"without rubber the rear slides before it bites", "it slides"},
      {"status: test", "status: stable"},
      {"{practice: common}", "{published: {for: 2 groups}}"}};
  std::vector<std::string> told_lines;
  for (const auto& [line, by] : changes) {
    const auto apart = rules_changed_by(green_reading_with(line, by));
    ASSERT_THAT(apart, SizeIs(1)) << by;
    EXPECT_EQ(apart[0].happened, Happened::changed);
    EXPECT_EQ(apart[0].kind, "reading rule");
    EXPECT_EQ(apart[0].id, "green-track-is-short-of-rear-grip");
    EXPECT_EQ(apart[0].before->file, "green.yaml");
    EXPECT_EQ(apart[0].after->text(), "own.yaml:2");
    for (const std::string& each : lines_of(apart[0])) told_lines.push_back(each);
  }
  EXPECT_THAT(
      told_lines,
      ElementsAre("numbers value: -0.5 ± 0.8 -> -0.5 ± 0.9",
                  "condition when: track:green -> not (track:cold or green)",
                  "numbers row: rear-grip +1 -> rear-grip +0.5, response -1",
                  "texts because: without rubber the rear slides before it bites -> it slides",
                  "status status: test -> stable",
                  "texts provenance: common practice -> published: 2 groups for, 0 against"));
}

TEST(RuleDifference, ConditionsAreToldInFull) {
  const std::string own = green_reading_with(
      "{track: green}",
      "{any: [{report: {symptom: push, phase: mid, at-least: 2}}, {all: [{track: green}, "
      "{setting: {rear-width: {within: 10 mm, of: wider}}}]}]}");
  EXPECT_THAT(lines_of(rules_changed_by(own).at(0)),
              ElementsAre("condition when: track:green -> report: push@mid of at least 2 or "
                          "(track:green and rear-width within 10 mm of its wider end)"));
}

TEST(RuleDifference, KnowsWhatWasAddedAndWhatWasTakenAway) {
  const std::string own = green_reading_with("green-track-is-short-of-rear-grip", "ours") +
                          "cautions: [{caution: gloves, text: wear gloves}]\n";
  const auto added = rules_changed_by(own);
  ASSERT_THAT(added, SizeIs(2));
  EXPECT_EQ(added[0].happened, Happened::added);
  EXPECT_EQ(added[0].id, "ours");
  EXPECT_FALSE(added[0].before);
  EXPECT_EQ(added[0].after->text(), "own.yaml:2");
  EXPECT_EQ(added[1].kind, "caution");
  const auto removed = rules_apart(small_pack_with(own), small_pack_with(""));
  ASSERT_THAT(removed, SizeIs(2));
  EXPECT_EQ(removed[0].happened, Happened::removed);
  EXPECT_EQ(removed[0].id, "ours");
  EXPECT_FALSE(removed[0].after);
}

/// Anything else that a crew's file may set shows as a change of one part.
struct Elsewhere {
  const char* name;
  std::string own;
  const char* line;  ///< kind, id, then the change
};

class PartsOfAPack : public testing::TestWithParam<Elsewhere> {};

TEST_P(PartsOfAPack, AreLookedAtToo) {
  const auto apart = rules_changed_by(GetParam().own);
  ASSERT_THAT(apart, SizeIs(1));
  const auto lines = lines_of(apart[0]);
  ASSERT_THAT(lines, SizeIs(1));
  EXPECT_EQ(apart[0].kind + " " + apart[0].id + ", " + lines[0], GetParam().line);
}

const Elsewhere kElsewhere[] = {
    {"axis",
     "axes: [{axis: response, label: response, low: slow, high: nervous, weight: 0.7, spread: 1}]",
     "axis response, numbers weight: 0.6 -> 0.7"},
    {"correlation", "correlations: [{a: front-grip.entry, b: response, value: 0.3}]",
     "correlation front-grip.entry with response, numbers value: 0.4 -> 0.3"},
    {"hearing",
     "hearing: {sure: 0.4, fair: 0.7, unsure: 1.2, denied: 0.6, praise: 0.7, phase-unsaid: 1.5, "
     "laps-faster: 3, praise-denies: [push]}",
     "hearing hearing, numbers denied: 0.5 -> 0.6"},
    {"symptom", "symptoms: [{symptom: vibration, label: vibration, plain: it shakes}]",
     "symptom vibration, texts plain: the kart shakes -> it shakes"},
    {"neighbours",
     "symptoms: [{symptom: vibration, label: vibration, plain: the kart shakes, neighbours: "
     "[{symptom: push, tell: a push is quiet}]}]",
     "symptom vibration, texts neighbour push:  -> a push is quiet"},
    {"fact",
     "facts: [{fact: turn-in, label: turning in, values: [brake, throttle], prior: [{values: "
     "{brake: 1, throttle: 1}}]}]",
     "fact turn-in, numbers prior 1: always: brake 0.25, throttle 0.75 -> always: brake 0.5, "
     "throttle 0.5"},
    {"track",
     "track: cold\nlabel: cold\nplain: no heat in it\nwet: yes\n"
     "ahead: {state: green, shift: {rear-grip: +0.3}}",
     "track cold, condition wet: no -> yes"},
    {"measure",
     "measures: [{measure: front-share, label: front share of the weight, kind: ratio, plausible: "
     "{from: 30 %, to: 60 %}, band: {from: 41 %}}]",
     "measure front-share, numbers band to: 0.43 -> "},
    {"caution", "cautions: [{caution: torque, text: tight}]",
     "caution torque, texts text: fasteners to the maker's torque -> tight"},
    {"words", "words: [{means: symptom, id: push, phrases: [snowplough]}]",
     "words symptom push, texts snowplough:  -> said"},
    {"look_over", "look-over: look at it all",
     "look-over look-over, texts text:  -> look at it all"},
};

INSTANTIATE_TEST_SUITE_P(Each, PartsOfAPack, testing::ValuesIn(kElsewhere),
                         [](const auto& each) { return std::string(each.param.name); });

// The scenarios.

const char* const kKart = "kart: ours\nsettings: {rear-width: 1360 mm, axle: medium}\n";
const char* const kPush =
    "title: it pushes\nreports: [push@entry=3, push@mid=3, push@exit=3]\nkart: kart.yaml\n";

const char* const kWeakerWidth =
    "adjustment: rear-width\nlabel: rear width\nmeasured: overall\ndirections: [wider, narrower]\n"
    "phrases: [rear wider, rear narrower]\nkind: length\nreference-step: 10 mm\n"
    "usual: {from: 1300 mm, to: 1400 mm, step: 5 mm}\ntypical: 1360 mm\nmost-at-once: 15 mm\n"
    "minutes: 6\ncautions: [torque]\nexplain: wider frees the rear\nplain: how wide it stands\n"
    "limits: the axle ends\neffects:\n"
    "  - id: wider-sheds-side-bite\n    moves: {rear-grip: -0.1 ± 0.2, response: +0.1 ± 0.3}\n"
    "    because: more of the push goes sideways\n"
    "    provenance: {practice: common, published: {for: 5 groups, against: 1 group}}\n"
    "    status: stable\n"
    "watch: {wider: hop fades, narrower: the rear holds}\n"
    "back-out: {wider: loose is too far, narrower: hop is too far}\n";

TEST(ScenarioFolder, FindsDebriefsWithTheirKartsAndLeavesOutTheRest) {
  const TempFolder folder;
  folder.write("kart.yaml", kKart);
  folder.write("b/push.yaml", "reports: [push]\nkart: ../kart.yaml\n");
  folder.write("a.yaml", "said: it pushes\n");
  folder.write("notes.txt", "reports: [push]\n");
  const auto files = read_scenario_folder(folder.path());
  ASSERT_THAT(files, SizeIs(2));
  EXPECT_EQ(files[0].path, folder.path() + "/a.yaml");
  EXPECT_FALSE(files[0].kart);
  ASSERT_TRUE(files[1].kart);
  EXPECT_NE(files[1].kart->root.find("settings"), nullptr);
}

TEST(ScenarioFolder, KeepsWhatCannotBeReadWithTheReason) {
  const TempFolder folder;
  folder.write("no-kart.yaml", "reports: [push]\nkart: lost.yaml\n");
  folder.write("no-yaml.yaml", "reports: [push\n");
  const auto files = read_scenario_folder(folder.path());
  ASSERT_THAT(files, SizeIs(2));
  ASSERT_THAT(files[0].broken, SizeIs(1));
  EXPECT_EQ(files[0].broken[0].code, Code::cannot_read);
  EXPECT_THAT(files[0].broken[0].file, HasSubstr("lost.yaml"));
  EXPECT_THAT(files[1].broken, testing::Not(IsEmpty()));
}

TEST(ScenarioFolder, AFolderThatIsNotThereIsAnError) {
  EXPECT_THAT(found_by([] { read_scenario_folder("/nowhere/at/all"); }), SizeIs(1));
}

TEST(PackDifferences, OnePackGivesTheSameAnswers) {
  const TempFolder folder;
  folder.write("kart.yaml", kKart);
  folder.write("push.yaml", kPush);
  const PackDifference apart =
      compare_packs(small_named(), small_named(), read_scenario_folder(folder.path()));
  EXPECT_TRUE(apart.none());
  EXPECT_EQ(apart.scenarios.asked, 1U);
  EXPECT_THAT(apart.scenarios.unread, IsEmpty());
}

TEST(PackDifferences, AWeakerEffectMovesScoresAndHeadline) {
  const TempFolder folder;
  folder.write("kart.yaml", kKart);
  folder.write("push.yaml", kPush);
  folder.write("quiet.yaml", "title: nothing\nreports: [push=0]\nkart: kart.yaml\n");
  const PackDifference apart =
      compare_packs(small_named(), small_named(kWeakerWidth), read_scenario_folder(folder.path()));
  ASSERT_THAT(apart.rules, SizeIs(1));
  EXPECT_EQ(apart.rules[0].of, "rear-width");
  EXPECT_EQ(apart.scenarios.asked, 2U);
  for (const UnreadScenario& each : apart.scenarios.unread) EXPECT_EQ(told(each.before), "");
  ASSERT_THAT(apart.scenarios.differing, SizeIs(1));
  const ScenarioDifference& one = apart.scenarios.differing[0];
  EXPECT_EQ(one.scenario, folder.path() + "/push.yaml");
  EXPECT_EQ(one.title, "it pushes");
  EXPECT_EQ(one.headline_before, Headline::change);
  EXPECT_EQ(one.headline_after, Headline::leave_alone);
  ASSERT_THAT(one.scores, SizeIs(1));
  EXPECT_EQ(one.scores[0].adjustment, "rear-width");
  EXPECT_LT(one.scores[0].after, one.scores[0].before);
}

TEST(PackDifferences, ACheckThatComesAndOneThatGoesAreNamed) {
  const TempFolder folder;
  folder.write("shakes.yaml", "reports: [vibration, push]\n");
  const std::string less =
      "fault: bent-axle\nlabel: bent axle\ncheck: spin it\nfix: a new axle\nprior: -40\n"
      "minutes: 2\nloss: 3\nstop: yes\nprovenance: {practice: common}\ncautions: [torque]\n"
      "evidence: []\n";
  const auto scenarios = read_scenario_folder(folder.path());
  const PackDifference went = compare_packs(small_named(), small_named(less), scenarios);
  ASSERT_THAT(went.scenarios.differing, SizeIs(1));
  EXPECT_THAT(went.scenarios.differing[0].checks_went, ElementsAre("bent-axle"));
  const PackDifference came = compare_packs(small_named(less), small_named(), scenarios);
  EXPECT_THAT(came.scenarios.differing.at(0).checks_came, ElementsAre("bent-axle"));
}

TEST(PackDifferences, AScenarioThatOnePackCannotReadIsToldAndTheRestGoesOn) {
  const TempFolder folder;
  folder.write("kart.yaml", kKart);
  folder.write("a-wobble.yaml", "reports: [wobble=2]\n");
  folder.write("b-push.yaml", kPush);
  const std::string wobble = "symptoms: [{symptom: wobble, label: wobble, plain: it wobbles}]";
  const PackDifference apart =
      compare_packs(small_named(), small_named(wobble), read_scenario_folder(folder.path()));
  ASSERT_THAT(apart.scenarios.unread, SizeIs(1));
  EXPECT_THAT(apart.scenarios.unread[0].scenario, HasSubstr("a-wobble.yaml"));
  ASSERT_THAT(apart.scenarios.unread[0].before, SizeIs(1));
  EXPECT_THAT(apart.scenarios.unread[0].before[0].message, HasSubstr("wobble"));
  EXPECT_THAT(apart.scenarios.unread[0].after, IsEmpty());
  EXPECT_EQ(apart.scenarios.asked, 1U);
}

// The rules of the program.

/// rules/adjustments/rear-width.yaml with the effect in the middle of the corner halved.
std::string half_the_width() {
  const std::string path =
      std::string(KARTWRIGHT_SOURCE_DIR) + "/rules/adjustments/rear-width.yaml";
  std::string text = read_document(path).text;
  const std::string cell = "rear-grip.mid: -0.9 ± 0.2";
  return text.replace(text.find(cell), cell.size(), "rear-grip.mid: -0.45 ± 0.2");
}

/// What a pack says first to a scenario, asked directly.
std::pair<std::string, double> asked_directly(const std::string& path, const Pack& pack) {
  Findings findings;
  DebriefFile file = read_debrief(read_document(path), pack, findings);
  const Kart kart = file.kart_path.empty()
                        ? file.kart.value_or(typical_kart(pack))
                        : read_kart(read_document(file.kart_path), pack, findings);
  EXPECT_FALSE(findings.has_errors()) << path;
  const Advice advice = advise(pack, kart, file.debrief, kart.units);
  double wider = 0.0;
  for (const Change& change : advice.changes) {
    const bool is_wider = change.adjustment().id == "rear-width" && change.direction() == "wider";
    if (is_wider) wider = change.candidate.parts.score();
  }
  return {std::string(name_of(advice.verdict.headline)), wider};
}

TEST(BuiltInDifference, HalfAnEffectNamesTheRuleTheNumbersAndTheScenarios) {
  const TempFolder folder;
  folder.write("rear-width.yaml", half_the_width());
  const NamedPack old = read_named_pack("built-in"), now = read_named_pack(folder.path());
  const auto scenarios =
      read_scenario_folder(std::string(KARTWRIGHT_SOURCE_DIR) + "/scenarios/harbour");
  const PackDifference apart = compare_packs(old, now, scenarios);

  ASSERT_THAT(apart.rules, SizeIs(1));
  EXPECT_EQ(apart.rules[0].id, "wider-sheds-side-bite");
  EXPECT_THAT(lines_of(apart.rules[0]),
              ElementsAre("numbers rear-grip.mid: -0.9 ± 0.2 -> -0.45 ± 0.2"));
  EXPECT_THAT(apart.scenarios.unread, IsEmpty());
  EXPECT_EQ(apart.scenarios.asked, scenarios.size());
  EXPECT_GT(scenarios.size(), 20U);

  std::set<std::string> differing;
  for (const ScenarioDifference& each : apart.scenarios.differing) differing.insert(each.scenario);
  EXPECT_THAT(differing, Contains(HasSubstr("heat-2.yaml")));
  for (const ScenarioDifference& each : apart.scenarios.differing) {
    const auto [old_headline, old_score] = asked_directly(each.scenario, old.pack);
    const auto [new_headline, new_score] = asked_directly(each.scenario, now.pack);
    EXPECT_EQ(name_of(each.headline_before), old_headline) << each.scenario;
    EXPECT_EQ(name_of(each.headline_after), new_headline) << each.scenario;
    for (const ScoreShift& shift : each.scores) {
      if (shift.adjustment != "rear-width" || shift.direction != "wider") continue;
      EXPECT_NEAR(shift.before, old_score, 1e-9) << each.scenario;
      EXPECT_NEAR(shift.after, new_score, 1e-9) << each.scenario;
    }
  }
  for (const ScenarioFile& each : scenarios) {
    if (differing.contains(each.path)) continue;
    const auto [old_headline, old_score] = asked_directly(each.path, old.pack);
    const auto [new_headline, new_score] = asked_directly(each.path, now.pack);
    EXPECT_EQ(old_headline, new_headline) << each.path;
    EXPECT_NEAR(old_score, new_score, kScoreShift) << each.path;
  }
}

}  // namespace
}  // namespace kartwright
