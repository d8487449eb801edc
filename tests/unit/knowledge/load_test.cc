// The loader: layers, ids, and the order of files.

#include "engine/knowledge/load.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/small_rules.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

template <typename T>
std::vector<std::string> ids(const std::vector<T>& all) {
  std::vector<std::string> out;
  for (const T& each : all) out.push_back(each.id);
  return out;
}

TEST(LoadPack, ReadsOneOfEverything) {
  const Pack pack = load_pack(small_rules());
  EXPECT_EQ(ids(pack.axes), (std::vector<std::string>{
                                "front-grip.entry", "front-grip.mid", "front-grip.exit",
                                "rear-grip.entry", "rear-grip.mid", "rear-grip.exit", "response"}));
  EXPECT_EQ(ids(pack.symptoms), (std::vector<std::string>{"push", "vibration"}));
  EXPECT_EQ(ids(pack.adjustments), (std::vector<std::string>{"axle", "rear-width"}));
  EXPECT_EQ(ids(pack.faults), std::vector<std::string>{"bent-axle"});
  EXPECT_EQ(ids(pack.tracks), (std::vector<std::string>{"cold", "green"}));
  EXPECT_EQ(ids(pack.measures), std::vector<std::string>{"front-share"});
  EXPECT_EQ(ids(pack.dimensions), std::vector<std::string>{"wheelbase"});
  EXPECT_EQ(ids(pack.cautions), std::vector<std::string>{"torque"});
  EXPECT_EQ(ids(pack.derives), std::vector<std::string>{"roll-structure-raises-the-mass"});
  EXPECT_EQ(ids(pack.readings), std::vector<std::string>{"green-track-is-short-of-rear-grip"});
  EXPECT_EQ(pack.phrases.size(), 3U);
  EXPECT_EQ(wordings_of(pack.phrases.front()),
            (std::vector<std::string_view>{"push*", "wash* out"}));
}

TEST(LoadPack, KeepsWhatTheFilesSay) {
  const Pack pack = load_pack(small_rules());
  const Adjustment& width = *pack.adjustment("rear-width");
  EXPECT_EQ(width.directions[0], "wider");
  EXPECT_EQ(width.watch[1], "the rear holds");
  EXPECT_EQ(width.back_out[0], "loose is too far");
  EXPECT_NEAR(width.reference_step, 0.010, 1e-12);
  EXPECT_NEAR(width.from, 1.300, 1e-12);
  EXPECT_NEAR(width.to, 1.400, 1e-12);
  EXPECT_NEAR(width.step, 0.005, 1e-12);
  EXPECT_NEAR(width.most_at_once, 0.015, 1e-12);
  EXPECT_EQ(width.source.text(), "rear-width.yaml:1");
  EXPECT_EQ(width.effects[0].source.text(), "rear-width.yaml:15");
  EXPECT_FALSE(width.listed());
  EXPECT_FALSE(width.parts);
  const Adjustment& axle = *pack.adjustment("axle");
  EXPECT_TRUE(axle.listed());
  EXPECT_TRUE(axle.parts);
  const Fault& bent = *pack.fault("bent-axle");
  EXPECT_EQ(bent.prior, -17.0);
  EXPECT_TRUE(bent.stop);
  EXPECT_EQ(bent.evidence[0].decibans, 8.0);
  EXPECT_EQ(pack.hearing.unsure, 1.2);
  EXPECT_EQ(pack.hearing.praise_denies, std::vector<std::string>{"push"});
  EXPECT_EQ(pack.readings[0].status, Status::test);
  EXPECT_EQ(pack.track("cold")->ahead, "green");
  EXPECT_FALSE(pack.fact("raised-mass")->entered);
  EXPECT_EQ(pack.fact("turn-in")->priors[0].weights, (std::vector<double>{0.25, 0.75}));
}

TEST(LoadPack, TheOrderOfFilesPlaysNoPart) {
  std::vector<Document> files = small_rules();
  const Pack there = load_pack(files);
  std::reverse(files.begin(), files.end());
  const Pack back = load_pack(files);
  EXPECT_EQ(ids(there.axes), ids(back.axes));
  EXPECT_EQ(ids(there.adjustments), ids(back.adjustments));
  EXPECT_EQ(ids(there.facts), ids(back.facts));
  EXPECT_EQ(ids(there.tracks), ids(back.tracks));
  ASSERT_EQ(there.correlations.size(), back.correlations.size());
  for (std::size_t i = 0; i < there.correlations.size(); ++i) {
    EXPECT_EQ(there.correlations[i].a, back.correlations[i].a);
    EXPECT_EQ(there.correlations[i].b, back.correlations[i].b);
    EXPECT_EQ(there.correlations[i].value, back.correlations[i].value);
  }
}

TEST(LoadPack, ACrewsFileTakesThePlaceOfWhatHasItsId) {
  const Pack pack = small_pack_with(
      "readings:\n"
      "  - id: green-track-is-short-of-rear-grip\n"
      "    when: {track: green}\n"
      "    row: {front-grip: 1}\n"
      "    value: +0.2 ± 0.5\n"
      "    because: our track is like that\n"
      "    provenance: {practice: common}\n"
      "    status: experimental\n"
      "axes:\n"
      "  - {axis: response, label: the wheel, low: slow, high: nervous, weight: 0.9, spread: 2}\n"
      "hearing: {sure: 0.3, fair: 0.6, unsure: 1, denied: 0.5, praise: 0.7, phase-unsaid: 1.5,\n"
      "  laps-faster: 3}\n");
  ASSERT_EQ(pack.readings.size(), 1U);
  EXPECT_EQ(pack.readings[0].value, 0.2);
  EXPECT_EQ(pack.readings[0].source.text(), "own.yaml:2");
  EXPECT_EQ(pack.axes.size(), 7U);
  EXPECT_EQ(pack.axes.back().spread, 2.0);
  EXPECT_EQ(pack.axes.back().source.file, "own.yaml");
  EXPECT_EQ(pack.hearing.fair, 0.6);
  EXPECT_TRUE(pack.hearing.praise_denies.empty());
}

TEST(LoadPack, ACrewsFileAddsWhatIsNewInItsPlaceById) {
  const Pack pack = small_pack_with(
      "track: damp\nlabel: damp\nplain: between wet and dry\nwet: yes\n"
      "words: [{means: symptom, id: push, phrases: [snowplough]}]\n");
  EXPECT_EQ(ids(pack.tracks), (std::vector<std::string>{"cold", "damp", "green"}));
  EXPECT_TRUE(pack.track("damp")->wet);
  EXPECT_EQ(pack.phrases.size(), 4U);
  EXPECT_EQ(pack.phrases.back().wordings, "snowplough");
}

TEST(LoadPack, ACrewsCorrelationComesAfterTheOneItMeans) {
  const Pack pack =
      small_pack_with("correlations: [{a: front-grip.entry, b: front-grip.mid, value: 0.1}]");
  std::vector<double> values;
  for (const Correlation& c : pack.correlations) {
    if (c.a == 0 && c.b == 1) values.push_back(c.value);
  }
  EXPECT_EQ(values, (std::vector<double>{0.6, 0.1}));
}

TEST(LoadPack, ARuleMayNameWhatStandsInALaterFile) {
  const std::string rule =
      "derive:\n"
      "  - id: pushes-by-habit\n"
      "    when: {track: damp}\n"
      "    then: {by-habit: yes}\n"
      "    because: x\n"
      "    provenance: {practice: common}\n"
      "    status: test\n";
  EXPECT_EQ(found_in_own(rule).size(), 2U);  // neither is known yet
  const std::vector<Document> own{
      parse_document("a.yaml", rule),
      parse_document("b.yaml", "facts: [{fact: by-habit, label: x, values: [yes]}]"),
      parse_document("c.yaml", "track: damp\nlabel: damp\nplain: x")};
  EXPECT_EQ(told(found_by([&] { load_pack(small_rules(), own); })), "");
}

std::string duplicated(const std::string& own_twice) {
  const auto found = found_by([&] {
    load_pack(small_rules(), {parse_document("a.yaml", own_twice),
                              parse_document("b.yaml", "# second\n" + own_twice)});
  });
  std::string out;
  for (const Diagnostic& each : found) {
    out += std::string(code_name(each.code)) + " " + each.file + ":" +
           std::to_string(each.span.line) + " " + each.message + "; " + each.help + "\n";
  }
  return out;
}

TEST(LoadPack, AnIdUsedTwiceInOneLayerIsToldWithBothPlaces) {
  EXPECT_EQ(duplicated("cautions: [{caution: torque, text: x}]"),
            "R001 b.yaml:2 the caution id `torque` is used twice; the first stands at a.yaml:1\n");
  EXPECT_EQ(duplicated("facts: [{fact: hit, label: a knock, values: [yes, no]}]"),
            "R001 b.yaml:2 the fact id `hit` is used twice; the first stands at a.yaml:1\n");
  EXPECT_EQ(duplicated("symptoms:\n  - {symptom: drags, label: drags, plain: x}"),
            "R001 b.yaml:3 the symptom id `drags` is used twice; the first stands at a.yaml:2\n");
  EXPECT_EQ(duplicated("track: damp\nlabel: damp\nplain: x"),
            "R001 b.yaml:2 the track id `damp` is used twice; the first stands at a.yaml:1\n");
  EXPECT_EQ(
      duplicated("axes:\n  - {axis: unloading, label: u, low: l, high: h, weight: 1, spread: 1}"),
      "R001 b.yaml:3 the axis id `unloading` is used twice; the first stands at a.yaml:2\n");
  EXPECT_EQ(duplicated("measures: [{measure: m, label: m, plausible: {from: 0, to: 9}}]"),
            "R001 b.yaml:2 the measure id `m` is used twice; the first stands at a.yaml:1\n");
  EXPECT_EQ(duplicated("dimensions: [{dimension: d, label: d, plausible: {from: 0, to: 9}}]"),
            "R001 b.yaml:2 the dimension id `d` is used twice; the first stands at a.yaml:1\n");
}

TEST(LoadPack, AdjustmentsAndFaultsAreUsedTwiceWithAllTheirRules) {
  std::vector<Document> files = small_rules();
  files.push_back(files[4]);  // rear-width
  files.push_back(files[6]);  // bent-axle
  const std::string found = told(found_by([&] { load_pack(files); }));
  for (const char* const id : {"adjustment id `rear-width`", "rule id `wider-sheds-side-bite`",
                               "fault id `bent-axle`", "rule id `vibration-may-be-a-bent-axle`"}) {
    EXPECT_NE(found.find(id), std::string::npos) << found;
  }
}

/// A symptom that reads on both ends of the kart, or on another row.
std::string paired(const std::string& id, const std::string& against, double value,
                   const std::string& row = "{front-grip: 0.9, rear-grip: -1.2}") {
  return "  - symptom: " + id + "\n    label: x\n    plain: x\n" +
         (against.empty() ? "" : "    against: " + against + "\n") + "    reading: {id: " + id +
         "-reads, row: " + row + ", value: " + std::to_string(value) +
         ", because: x, provenance: {practice: common}, status: test}\n";
}

TEST(LoadPack, TwoSymptomsMayBeOneQuestion) {
  const Pack pack = small_pack_with("symptoms:\n" + paired("loose", "push", 1.0));
  EXPECT_EQ(pack.symptom("loose")->against, "push");
  EXPECT_EQ(pack.symptom("push")->against, "");
}

TEST(LoadPack, SymptomsThatAreOneQuestionReadTheOppositeOfEachOther) {
  for (const std::string& own :
       {paired("loose", "push", -1.0), paired("loose", "push", 1.0, "{front-grip: 1}"),
        paired("loose", "push", 1.0, "{front-grip: 1, rear-grip: 1}"),
        paired("loose", "loose", 1.0), paired("loose", "vibration", 1.0)}) {
    const auto found = found_in_own("symptoms:\n" + own);
    ASSERT_EQ(found.size(), 1U) << own << told(found);
    EXPECT_EQ(found[0].code, Code::bad_rule);
    EXPECT_EQ(found[0].file + ":" + std::to_string(found[0].span.line), "own.yaml:2");
    EXPECT_NE(found[0].message.find("do not read the opposite"), std::string::npos) << told(found);
  }
}

TEST(LoadPack, ASymptomIsOneQuestionWithOneOther) {
  const auto found =
      found_in_own("symptoms:\n" + paired("loose", "push", 1.0) + paired("snap", "push", 1.2));
  ASSERT_EQ(found.size(), 1U) << told(found);
  EXPECT_NE(found[0].message.find("`snap` and `push` are not the only pair"), std::string::npos);
  EXPECT_EQ(found[0].span.line, 7);
  EXPECT_EQ(
      found_in_own("symptoms:\n" + paired("loose", "snap", 1.0) + paired("snap", "loose", -1.0))
          .size(),
      1U)
      << "said at both";
}

constexpr const char* kReadingNamedAsAnEffect =
    "readings:\n"
    "  - id: wider-sheds-side-bite\n"
    "    row: {front-grip: 1}\n"
    "    value: +0.2 ± 0.5\n"
    "    because: x\n"
    "    provenance: {practice: common}\n"
    "    status: test\n";

TEST(LoadPack, RulesOfEveryKindShareOneSpaceOfIdsAcrossLayers) {
  const auto found = found_in_own(kReadingNamedAsAnEffect);
  ASSERT_EQ(found.size(), 1U) << told(found);
  EXPECT_EQ(found[0].code, Code::duplicate_id);
  EXPECT_NE(found[0].message.find("`wider-sheds-side-bite`"), std::string::npos);
  EXPECT_EQ(found[0].file + found[0].help, "own.yamlthe first stands at rear-width.yaml:15");
}

TEST(LoadPack, WithoutAxesThereIsNothingToLoad) {
  const auto found = found_by([] { load_pack({}); });
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].code, Code::no_axes);
}

TEST(LoadPack, SymptomsThatReadNeedToKnowHowFarWordsAreTrusted) {
  std::vector<Document> files = small_rules();
  std::erase_if(files[0].root.entries, [](const Entry& entry) { return entry.key == "hearing"; });
  const auto found = found_by([&] { load_pack(files); });
  ASSERT_EQ(found.size(), 1U) << told(found);
  EXPECT_EQ(found[0].code, Code::missing_key);
  EXPECT_NE(found[0].message.find("`hearing`"), std::string::npos);
}

TEST(LoadPack, MistakesOfAllFilesOfBothLayersAreToldInOneRun) {
  std::vector<Document> files = small_rules();
  files.push_back(parse_document("wrong.yaml", "wrods: []"));
  const auto found = found_by([&] {
    load_pack(files, {parse_document("a.yaml", "cautions: [{caution: x}]"),
                      parse_document("b.yaml", "- not a map")});
  });
  std::vector<std::string> where;
  for (const Diagnostic& each : found) where.push_back(each.file);
  EXPECT_EQ(where, (std::vector<std::string>{"wrong.yaml", "a.yaml", "b.yaml"})) << told(found);
}

TEST(LoadPack, AnEmptyFileSaysNothing) { EXPECT_EQ(told(found_in_own("# nothing yet\n")), ""); }

TEST(ReadRuleFolder, TakesYamlFilesOfAllFoldersSortedByPath) {
  const TempFolder folder;
  folder.write("words/b.yaml", "words: []\n");
  folder.write("a.yaml", "cautions: []\n");
  folder.write("words/a.yaml", "words: []\n");
  folder.write("notes.txt", "not: [yaml\n");
  std::vector<std::string> names;
  for (const Document& each : read_rule_folder(folder.path())) {
    names.push_back(each.name.substr(folder.path().size()));
  }
  EXPECT_EQ(names, (std::vector<std::string>{"/a.yaml", "/words/a.yaml", "/words/b.yaml"}));
}

TEST(ReadRuleFolder, AFolderThatIsNotThereIsTold) {
  const TempFolder folder;
  const auto found = found_by([&] { read_rule_folder(folder.path() + "/none"); });
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].code, Code::cannot_read);
  EXPECT_EQ(found[0].file, folder.path() + "/none");
}

}  // namespace
}  // namespace kartwright
