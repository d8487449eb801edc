// Every answer of the program in JSON keeps to its schema, and no schema lets through an answer
// that lacks a key, has one too many, or holds another sort of value.

#include "tests/schemas/answers.h"

#include <filesystem>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/cli/pit_box.h"
#include "tests/schemas/mutations.h"
#include "tests/schemas/schema.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

std::string faults_in_lines(const std::string& name, const nlohmann::json& answer) {
  std::string all;
  for (const std::string& fault : schema(name).faults(answer)) all += fault + "\n";
  return all;
}

void expect_kept(const std::vector<AskedLine>& lines) {
  for (const AskedLine& asked : lines) {
    for (const nlohmann::json& answer : answers_to(asked)) {
      EXPECT_EQ(faults_in_lines(asked.schema, answer), "")
          << asked.schema << " " << testing::PrintToString(asked.words);
    }
  }
}

TEST(Answers, AdviseKeepsToItsSchema) { expect_kept(advise_lines()); }
TEST(Answers, TheCommandsOfTheBenchKeepToTheirSchemas) { expect_kept(bench_lines()); }
TEST(Answers, ExplainAndRulesKeepToTheirSchemas) { expect_kept(learn_lines()); }

TEST(Answers, TheDrillAndItsRecordKeepToTheirSchemas) {
  expect_kept(drill_lines());
  const std::string state = kartwright({}).env.at("XDG_STATE_HOME");
  const std::string record = file_text(state + "/kartwright/drill-ann.jsonl");
  ASSERT_NE(record, "");
  for (const std::string& line : lines_of(record))
    EXPECT_EQ(faults_in_lines("drill-record", nlohmann::json::parse(line)), "");
}

TEST(Answers, TheLogAndApplyKeepToTheirSchemas) {
  const TempFolder folder;
  folder.write("kart.yaml", pit_box_kart());
  expect_kept(log_lines(folder.path()));
}

TEST(Answers, ARulePackOfOnesOwnKeepsToItsSchemas) {
  const TempFolder folder;
  std::string toe = file_text(KARTWRIGHT_SOURCE_DIR "/rules/adjustments/toe.yaml");
  folder.write("own/toe.yaml", with_exchanged(toe, "minutes: 6", "minutes: 9"));
  folder.write("own/never.yaml",
               "readings:\n  - {id: x-never, when: {all: [{track: cold}, {track: wet}]}, row: "
               "{response: 1}, value: 0.1 ± 0.5, because: x, provenance: {practice: common}, "
               "status: test}\nfacts:\n  - {fact: lost, label: x, values: [yes, no]}\n");
  const std::string own = folder.path() + "/own";
  expect_kept(
      {{"rules-check", {"rules", "check", "--rules", own, "--witness", own + "-shown"}},
       {"rules-diff",
        {"rules", "diff", "built-in", own, "--scenarios", KARTWRIGHT_SOURCE_DIR "/scenarios"}}});
}

TEST(Answers, EverySchemaOfAnAnswerIsAskedFor) {
  std::set<std::string> asked{"drill-record", "kart", "debrief", "scenario", "cases", "rule"};
  for (const auto& lines :
       {advise_lines(), bench_lines(), learn_lines(), drill_lines(), log_lines("x")}) {
    for (const AskedLine& each : lines) asked.insert(each.schema);
  }
  for (const std::string& name : schema_names()) EXPECT_TRUE(asked.contains(name)) << name;
}

/// Keys that need not be there.
bool may_lack(const std::string& key) {
  static const std::set<std::string> kOptional{
      "side",      "when",    "corners",      "words",    "praise",   "help",    "tried",
      "then",      "next",    "ask",          "draws",    "why_not",  "turning", "after",
      "warnings",  "loads",   "measure_next", "off_by",   "settings", "tyres",   "figure",
      "value",     "limits",  "calibration",  "session",  "track",    "air",     "road",
      "tyre-laps", "driver",  "load",         "said",     "laps",     "reports", "facts",
      "notes",     "changes", "verdicts",     "asked-by", "why",      "rank",    "relief",
      "advice",    "by",      "text",         "stands",   "table",    "witness", "of",
      "fact",      "denied"};
  return kOptional.contains(key);
}

/// A map of names that the schema does not know beforehand.
bool is_free(const std::string& place) {
  return place == "/measured" || place == "/figures" || place == "/kart_file" ||
         place.ends_with("/settings") ||
         (place.starts_with("/stages/") && place.ends_with("/values"));
}

std::string last_of(const std::string& place) { return place.substr(place.rfind('/') + 1); }

std::string parent_of(const std::string& place) { return place.substr(0, place.rfind('/')); }

/// Slips that must be seen, wherever they are made.
bool must_be_seen(const std::string& place, Slip slip, const nlohmann::json& value) {
  const bool in_a_list = !place.empty() && std::isdigit(last_of(place).front()) != 0;
  if (is_free(parent_of(place))) return false;
  switch (slip) {
    case Slip::dropped:
      return !in_a_list && !may_lack(last_of(place));
    case Slip::key_added:
      return value.is_object() && !is_free(place);
    case Slip::in_a_list:
    case Slip::in_a_map:
      return value.is_primitive();
    case Slip::a_number:
      return value.is_string();
    case Slip::a_text:
      return value.is_structured() || value.is_boolean() || value.is_number();
    case Slip::nothing:
    case Slip::misspelt:
      return false;
  }
  return false;
}

/// The first answers to one command line for each schema.
std::vector<AskedLine> one_of_each() {
  std::vector<AskedLine> some;
  std::set<std::string> seen;
  for (const auto& lines : {bench_lines(), learn_lines(), drill_lines()}) {
    for (const AskedLine& each : lines) {
      if (seen.insert(each.schema).second) some.push_back(each);
    }
  }
  some.push_back({"advice",
                  {"advise", "--debrief", demo_debrief(), "--after", "--why-not", "caster",
                   "--draws", "100"}});
  return some;
}

TEST(Answers, NoSchemaLetsASlipThrough) {
  constexpr std::size_t kTriedOfEach = 150;
  for (const AskedLine& asked : one_of_each()) {
    const nlohmann::json good = answers_to(asked).front();
    const std::size_t stride = (places_in(good).size() * kSlips / kTriedOfEach) | 1U;
    std::size_t tried = 0;
    each_slip(good, {.first = 0, .stride = stride},
              [&](const std::string& place, Slip slip, const nlohmann::json& mutated) {
                if (!must_be_seen(place, slip, good.at(nlohmann::json::json_pointer(place))))
                  return;
                ++tried;
                EXPECT_FALSE(schema(asked.schema).accepts(mutated))
                    << asked.schema << " " << place << " " << name_of(slip);
              });
    EXPECT_GT(tried, 5U) << asked.schema;
  }
}

}  // namespace
}  // namespace kartwright
