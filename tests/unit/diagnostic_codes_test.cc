// The codes of all findings: a consistent table, and an input that gives each of them.
//
// One code is left out: bad_option belongs to the command line, whose own tests give it.

#include <algorithm>
#include <functional>
#include <set>

#include <gtest/gtest.h>

#include "engine/debrief/report_grammar.h"
#include "engine/document/codes.h"
#include "engine/inference/belief.h"
#include "engine/inference/derive.h"
#include "engine/kart/kart.h"
#include "engine/knowledge/load.h"
#include "tests/support/kart_pack.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

TEST(Codes, TheTableStandsInTheOrderOfTheEnum) {
  for (std::size_t i = 0; i < kCodes.size(); ++i) {
    EXPECT_EQ(static_cast<std::size_t>(kCodes[i].code), i) << kCodes[i].name;
    EXPECT_EQ(code_name(kCodes[i].code), kCodes[i].name);
  }
  EXPECT_EQ(kCodes.back().code, Code::too_tangled);  // the last of the enum
}

TEST(Codes, HaveNamesOfTheirOwn) {
  std::set<std::string_view> names;
  std::set<std::string_view> meanings;
  for (const CodeText& each : kCodes) {
    names.insert(each.name);
    meanings.insert(each.meaning);
    ASSERT_EQ(each.name.size(), 4U) << each.name;
    EXPECT_NE(std::string_view("DQRKBOA").find(each.name[0]), std::string_view::npos) << each.name;
    EXPECT_TRUE(std::all_of(each.name.begin() + 1, each.name.end(), [](char c) {
      return c >= '0' && c <= '9';
    })) << each.name;
    EXPECT_FALSE(each.meaning.empty() || each.meaning.ends_with('.')) << each.name;
  }
  EXPECT_EQ(names.size(), kCodes.size());
  EXPECT_EQ(meanings.size(), kCodes.size());
}

TEST(Codes, OfALetterAreNumberedWithoutAGap) {
  for (std::size_t i = 0; i < kCodes.size(); ++i) {
    const std::string_view name = kCodes[i].name;
    const bool first = i == 0 || kCodes[i - 1].name[0] != name[0];
    const int before = first ? 0 : std::stoi(std::string(kCodes[i - 1].name.substr(1)));
    EXPECT_EQ(std::stoi(std::string(name.substr(1))), before + 1) << name;
  }
}

std::vector<Diagnostic> document(const std::string& text) {
  return found_by([&] { parse_document("f.yaml", text); });
}

std::vector<Diagnostic> kart(const std::string& text) { return read_kart_text(text).found; }

std::vector<Diagnostic> report(std::string_view text) {
  Findings findings;
  parse_report(text, small_pack_with(""), {.file = "--report", .source = std::string(text)},
               findings);
  return findings.all();
}

std::vector<Diagnostic> fact(std::string_view text) {
  Findings findings;
  parse_fact(text, small_pack_with(""), {.file = "--fact", .source = std::string(text)}, findings);
  return findings.all();
}

/// A fact that follows from its own absence, by way of another.
std::vector<Diagnostic> negation_cycle() {
  const Pack pack = small_pack_with(
      "facts: [{fact: a, label: a, values: [yes]}, {fact: b, label: b, values: [yes]}]\n"
      "derive:\n"
      "  - {id: a-from-b, when: {fact: b}, then: {a: yes}, because: x,\n"
      "     provenance: {practice: common}, status: test}\n"
      "  - {id: b-from-not-a, when: {not: {fact: a}}, then: {b: yes}, because: x,\n"
      "     provenance: {practice: common}, status: test}\n");
  const Kart kart = typical_kart(pack);
  return found_by([&] { settle_facts(pack, kart, {}, {}); });
}

std::vector<Diagnostic> impossible_prior() {
  const Pack pack = small_pack_with("correlations: [{a: front-grip, b: response, value: -0.99}]");
  return found_by([&] { make_prior(pack); });
}

struct Trigger {
  Code code;
  std::function<std::vector<Diagnostic>()> find;
};

const Trigger kTriggers[] = {
    {Code::not_utf8, [] { return document("a: \xFF"); }},
    {Code::not_yaml, [] { return document("a: b: c"); }},
    {Code::too_large, [] { return document(std::string(kLargestFile + 1, ' ')); }},
    {Code::too_deep, [] { return document(std::string(40, '[')); }},
    {Code::duplicate_key, [] { return document("{a: 1, a: 2}"); }},
    {Code::more_than_one_document, [] { return document("a\n---\nb\n"); }},
    {Code::anchor_or_alias, [] { return document("a: &x 1"); }},
    {Code::tag, [] { return document("a: !x 1"); }},
    {Code::unclosed_quote, [] { return document("a: 'x"); }},
    {Code::wrong_shape, [] { return kart("settings: [axle]"); }},
    {Code::missing_key, [] { return kart("minutes: {axle: 3}"); }},
    {Code::unknown_key, [] { return kart("setings: {}"); }},
    {Code::unknown_name, [] { return kart("settings: {rear-widht: 1360 mm}"); }},
    {Code::bad_number, [] { return kart("settings: {axle: hard}\nminutes: {axle: 3 kg}"); }},
    {Code::cannot_read, [] { return found_by([] { read_document(""); }); }},
    {Code::bad_quantity, [] { return kart("settings: {rear-width: 12 kg}"); }},
    {Code::duplicate_id,
     [] { return found_in_own("cautions: [{caution: x, text: y}, {caution: x, text: z}]"); }},
    {Code::not_positive_definite, impossible_prior},
    {Code::negation_cycle, negation_cycle},
    {Code::bad_condition,
     [] {
       return found_in_own(
           "facts: [{fact: x, label: x, values: [a],"
           " prior: [{when: {tarck: cold}, values: {a: 1}}]}]");
     }},
    {Code::bad_rule, [] { return found_in_own("facts: [{fact: x, label: x}]"); }},
    {Code::no_axes, [] { return found_by([] { load_pack({}); }); }},
    {Code::setting_out_of_range, [] { return kart("settings: {rear-width: 1410 mm}"); }},
    {Code::setting_off_step, [] { return kart("settings: {rear-width: 1362 mm}"); }},
    {Code::over_class_limit,
     [] { return kart("settings: {axle: soft}\nclass: {limits: {axle: {allowed: [hard]}}}"); }},
    {Code::implausible, [] { return kart("measured: {front-share: 65 %}"); }},
    {Code::settings_disagree,
     [] { return kart("settings: {front-pressures: 0.7 bar, pressures: 0.8 bar}"); }},
    {Code::bad_report, [] { return report("push@apex"); }},
    {Code::phase_not_felt, [] { return report("push@straight"); }},
    {Code::bad_fact, [] { return fact("turn-in"); }},
};

TEST(Codes, EachIsGivenBySomeInput) {
  for (const Trigger& trigger : kTriggers) {
    const std::vector<Diagnostic> found = trigger.find();
    ASSERT_EQ(found.size(), trigger.code == Code::not_positive_definite ? found.size() : 1U)
        << code_name(trigger.code) << '\n'
        << told(found);
    ASSERT_FALSE(found.empty()) << code_name(trigger.code);
    EXPECT_EQ(found[0].code, trigger.code) << told(found);
  }
}

TEST(Codes, NoneIsWithoutAnInputButTheCommandLinesOwn) {
  std::set<Code> given{Code::bad_option};
  for (const Trigger& trigger : kTriggers) given.insert(trigger.code);
  for (const CodeText& each : kCodes) EXPECT_TRUE(given.contains(each.code)) << each.name;
}

// Lower case, no full stop, no blame: as every message of the house.
TEST(Codes, TheirMessagesAreInTheTone) {
  for (const Trigger& trigger : kTriggers) {
    for (const Diagnostic& each : trigger.find()) {
      const std::string& text = each.message;
      ASSERT_FALSE(text.empty()) << code_name(each.code);
      EXPECT_FALSE(text.ends_with('.') || text.ends_with('!')) << text;
      const bool os_speaks = each.code == Code::cannot_read;
      EXPECT_TRUE(os_speaks || text[0] < 'A' || text[0] > 'Z') << text;
      EXPECT_FALSE(each.help.ends_with('.')) << each.help;
    }
  }
}

TEST(Codes, ANegationCycleIsPrintedAndLeadsToItsRule) {
  const std::vector<Diagnostic> found = negation_cycle();
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NE(found[0].message.find("a:yes"), std::string::npos) << told(found);
  EXPECT_NE(found[0].message.find("b:yes"), std::string::npos) << told(found);
  EXPECT_EQ(found[0].file, "own.yaml");
  EXPECT_EQ(found[0].span.line, 5);
}

}  // namespace
}  // namespace kartwright
