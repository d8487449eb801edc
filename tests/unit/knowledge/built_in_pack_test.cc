// The rules that come with the program agree with their files.

#include <algorithm>
#include <functional>
#include <map>

#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"
#include "engine/knowledge/load.h"
#include "tests/support/kart_pack.h"
#include "tests/support/pack_walk.h"
#include "tests/support/pit.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

const std::vector<Document>& files() {
  static const std::vector<Document> all = built_in_rules();
  return all;
}

TEST(BuiltInRules, LoadWithoutAFinding) {
  EXPECT_EQ(told(found_by([] { load_pack(built_in_rules()); })), "");
}

/// What is defined under a key, over all files; lists of names define nothing.
std::size_t items(std::string_view key) {
  std::size_t count = 0;
  for (const Document& file : files()) {
    const Node* const list = file.root.find(key);
    if (list == nullptr) continue;
    count += static_cast<std::size_t>(
        std::count_if(list->items.begin(), list->items.end(),
                      [](const Node& item) { return item.type == Node::Type::map; }));
  }
  return count;
}

/// How often each value stands under a key, at any depth of any file.
std::map<std::string, std::size_t> values_of(std::string_view key) {
  std::map<std::string, std::size_t> times;
  const std::function<void(const Node&)> visit = [&](const Node& node) {
    if (const Node* value = node.find(key)) ++times[value->text];
    for (const Node& item : node.items) visit(item);
    for (const Entry& entry : node.entries) visit(entry.value);
  };
  for (const Document& file : files()) visit(file.root);
  return times;
}

/// Files with a key.
std::size_t subjects(std::string_view key) {
  return static_cast<std::size_t>(
      std::count_if(files().begin(), files().end(),
                    [&](const Document& file) { return file.root.find(key) != nullptr; }));
}

TEST(BuiltInRules, HoldAsMuchAsTheirFiles) {
  EXPECT_EQ(rules().axes.size(), items("axes"));
  EXPECT_EQ(rules().symptoms.size(), items("symptoms"));
  EXPECT_EQ(rules().facts.size(), items("facts"));
  EXPECT_EQ(rules().derives.size(), items("derive"));
  EXPECT_EQ(rules().readings.size(), items("readings"));
  EXPECT_EQ(rules().measures.size(), items("measures"));
  EXPECT_EQ(rules().dimensions.size(), items("dimensions"));
  EXPECT_EQ(rules().cautions.size(), items("cautions"));
  EXPECT_EQ(rules().tracks.size(), subjects("track"));
  EXPECT_EQ(rules().adjustments.size(), subjects("adjustment"));
  EXPECT_EQ(rules().faults.size(), subjects("fault"));
  EXPECT_EQ(rules().gauges.size(), subjects("gauge"));
  EXPECT_EQ(rules().quantities.size(), items("quantities"));
  std::size_t effects = 0;
  for (const Adjustment& adjustment : rules().adjustments) effects += adjustment.effects.size();
  EXPECT_EQ(effects, items("effects"));
  std::size_t evidence = 0;
  for (const Fault& fault : rules().faults) evidence += fault.evidence.size();
  EXPECT_EQ(evidence, items("evidence"));
  std::size_t wordings = 0;
  for (const Document& file : files()) {
    const Node* const words = file.root.find("words");
    if (words == nullptr) continue;
    for (const Node& group : words->items) wordings += group.find("phrases")->items.size();
  }
  std::size_t loaded = 0;
  for (const Phrase& phrase : rules().phrases) loaded += wordings_of(phrase).size();
  EXPECT_EQ(loaded, wordings);
}

// The counts that the design names: eight qualities, five states of the track.
TEST(BuiltInRules, JudgeAKartByEightQualitiesOnFiveTracks) {
  EXPECT_EQ(rules().axes.size(), 8U);
  EXPECT_EQ(rules().tracks.size(), 5U);
}

template <typename T>
void expect_sorted(const std::vector<T>& all, const char* what) {
  EXPECT_TRUE(std::is_sorted(all.begin(), all.end(), [](const T& a, const T& b) {
    return a.id < b.id;
  })) << what;
  for (const T& each : all) EXPECT_NE(each.id, "") << what;
}

TEST(BuiltInRules, AreSortedById) {
  expect_sorted(rules().symptoms, "symptoms");
  expect_sorted(rules().tracks, "tracks");
  expect_sorted(rules().facts, "facts");
  expect_sorted(rules().derives, "derives");
  expect_sorted(rules().readings, "readings");
  expect_sorted(rules().adjustments, "adjustments");
  expect_sorted(rules().faults, "faults");
  expect_sorted(rules().measures, "measures");
  expect_sorted(rules().dimensions, "dimensions");
  expect_sorted(rules().cautions, "cautions");
  for (const Adjustment& adjustment : rules().adjustments) {
    expect_sorted(adjustment.effects, adjustment.id.c_str());
  }
  for (const Fault& fault : rules().faults) expect_sorted(fault.evidence, fault.id.c_str());
}

bool is_kebab(const std::string& id) {
  return !id.empty() && id.front() != '-' && id.back() != '-' &&
         id.find("--") == std::string::npos && std::all_of(id.begin(), id.end(), [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
         });
}

TEST(BuiltInRules, EveryRuleSaysWhyAndWhatStandsBehindIt) {
  std::size_t reasons = 0;
  for (const auto& [text, times] : values_of("because")) reasons += times;
  std::size_t exceptions = 0;
  for (const Property& property : rules().properties) exceptions += property.exceptions.size();
  // A case of a drill and an end of the kart say why as well, though neither is a rule.
  const std::size_t practised = rules().drills.cases.size() + rules().drills.ends.size();
  EXPECT_EQ(all_rules(rules()).size() + rules().properties.size() + exceptions + practised,
            reasons);
  for (const auto& [rule, when] : all_rules(rules())) {
    const std::string where = rule->source.text() + " " + rule->id;
    EXPECT_TRUE(is_kebab(rule->id)) << where;
    EXPECT_GE(rule->because.size(), 10U) << where;
    EXPECT_FALSE(rule->because.ends_with('.')) << where;
    EXPECT_NE(rule->provenance.text(), "") << where;
    EXPECT_TRUE(rule->provenance.practice || rule->provenance.groups_for > 0) << where;
    EXPECT_GT(rule->source.line, 0) << where;
  }
}

TEST(BuiltInRules, EveryRuleHasTheStatusOfItsFile) {
  std::map<std::string, std::size_t> held;
  for (const auto& [rule, when] : all_rules(rules())) {
    const char* const names[] = {"experimental", "test", "stable"};
    ++held[names[static_cast<std::size_t>(rule->status)]];
  }
  for (const Property& property : rules().properties)
    ++held[property.status == Status::stable ? "stable" : "test"];
  EXPECT_EQ(held, values_of("status"));
  EXPECT_GT(held["stable"], held["test"]);
}

}  // namespace
}  // namespace kartwright
