// The codes of all findings: a consistent table, a page for each, and an input that gives each of
// them: the example that its page says to avoid, or one below where a few lines cannot show it.
//
// Codes whose example is a command line are given by the tests of the program itself.

#include <algorithm>
#include <functional>
#include <iterator>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "engine/document/code_pages.h"
#include "engine/document/codes.h"
#include "engine/document/document.h"
#include "engine/inference/derive.h"
#include "engine/kart/kart.h"
#include "tests/support/kart_pack.h"
#include "tests/support/log_files.h"
#include "tests/support/page_examples.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

TEST(Codes, TheTableStandsInTheOrderOfTheEnum) {
  for (std::size_t i = 0; i < kCodes.size(); ++i) {
    EXPECT_EQ(static_cast<std::size_t>(kCodes[i].code), i) << kCodes[i].name;
    EXPECT_EQ(code_name(kCodes[i].code), kCodes[i].name);
  }
  EXPECT_EQ(kCodes.back().code, Code::no_such_change);  // the last of the enum
}

TEST(Codes, HaveNamesOfTheirOwn) {
  std::set<std::string_view> names;
  std::set<std::string_view> meanings;
  for (const CodeText& each : kCodes) {
    names.insert(each.name);
    meanings.insert(each.meaning);
    ASSERT_EQ(each.name.size(), 4U) << each.name;
    EXPECT_NE(std::string_view("DQRKBOACPLN").find(each.name[0]), std::string_view::npos)
        << each.name;
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

/// What the audit finds in a rule file of one adjustment, on top of the built-in rules.
std::vector<Diagnostic> effects_that_pull_both_ways() {
  return found_in_example(Shown::audited, R"(adjustment: tail-weight
label: tail weight
measured: bags of sand
directions: [more, less]
phrases: [more sand, less sand]
positions: [0, 1, 2]
typical: 1
most-at-once: 1
minutes: 2
explain: sand
plain: sand
limits: sand
watch: {more: it drags, less: it flies}
back-out: {more: too much, less: too little}
effects:
  - {id: sand-helps-in-the-rain, when: {track: wet}, moves: {front-grip: +0.3 ± 0.2},
     because: sand, provenance: {practice: common}, status: experimental}
  - {id: sand-hurts-cold-tyres, when: {fact: {tyres: cold}}, moves: {front-grip: -0.3 ± 0.2},
     because: sand, provenance: {practice: common}, status: experimental})");
}

/// A rule that waits for six things, each in four ways.
std::vector<Diagnostic> a_tangled_rule() {
  std::string all;
  for (int i = 0; i < 24; ++i) {
    all += i % 4 > 0 ? ", " : i > 0 ? "]}, {any: [" : "{any: [";
    all += "{measure: {front-share: {above: " + std::to_string(31 + i) + " %}}}";
  }
  return found_in_example(Shown::audited,
                          "readings:\n  - {id: one, when: {all: [" + all +
                              "]}]}, row: {response: 1}, value: 1 ± 1, because: x,\n"
                              "     provenance: {practice: common}, status: experimental}");
}

/// Laps of so many groups, two of each.
std::vector<Diagnostic> laps_of_groups(int groups) {
  std::string text = "time,group\n";
  for (int i = 0; i < 2 * groups; ++i) text += "31.42,setting " + std::to_string(i % groups) + "\n";
  return found_in_example(Shown::laps, text);
}

struct Trigger {
  Code code;
  std::function<std::vector<Diagnostic>()> find;
};

/// What no few lines can show.
const Trigger kApart[] = {
    {Code::not_utf8, [] { return document("a: \xFF"); }},
    {Code::too_large, [] { return document(std::string(kLargestFile + 1, ' ')); }},
    {Code::cannot_read, [] { return found_by([] { read_document(""); }); }},
    {Code::opposite_effects, effects_that_pull_both_ways},
    {Code::too_tangled, a_tangled_rule},
    {Code::too_many_laps, [] { return laps_of_groups(21); }},
    {Code::not_a_log, [] { return found_with_log("kart: 27\n"); }},
    {Code::newer_log, a_log_of_tomorrow},
    {Code::damaged_log, a_log_cut_short},
    {Code::log_not_created, [] { return found_by([] { Logbook("/dev/null/log", kKeeping); }); }},
    {Code::log_not_written, a_log_that_cannot_grow},
    {Code::log_busy, a_log_held_by_another},
    {Code::bad_record, a_lap_of_no_time},
    {Code::run_differs, a_run_that_differs},
    {Code::no_such_run, a_run_that_is_not_there},
    {Code::no_such_change, a_change_beyond_the_class},
};

/// The example to avoid of every page that has a file for one, and what is kept apart.
std::vector<Trigger> all_triggers() {
  std::vector<Trigger> all(std::begin(kApart), std::end(kApart));
  for (const CodeText& each : kCodes) {
    const CodePage* const page = page_of(each.code);
    if (page == nullptr || page->shown == Shown::apart || page->shown == Shown::command_line)
      continue;
    all.push_back({page->code, [page] { return found_in_example(page->shown, page->avoid); }});
  }
  return all;
}

TEST(CodePages, EveryCodeHasOne) {
  std::size_t pages = 0;
  for (const auto& each : {document_pages(), rule_pages(), pit_pages(), audit_pages(), case_pages(),
                           property_pages(), lap_pages(), log_pages()})
    pages += each.size();
  EXPECT_EQ(pages, kCodes.size()) << "a page twice, or for no code";
  for (const CodeText& each : kCodes) EXPECT_NE(page_of(each.code), nullptr) << each.name;
}

/// The lines of a page's example.
std::vector<std::string> lines_of_example(std::string_view text) {
  std::vector<std::string> lines;
  std::istringstream stream{std::string(text)};
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

TEST(CodePages, SayEverythingShortly) {
  for (const CodeText& each : kCodes) {
    const CodePage* const page = page_of(each.code);
    ASSERT_NE(page, nullptr) << each.name;
    for (const std::string_view text : {page->what, page->why, page->avoid, page->prefer}) {
      EXPECT_FALSE(text.empty() || text.ends_with('.') || text.ends_with('\n')) << each.name;
    }
    EXPECT_LE(page->what.size() + page->why.size(), 320U) << each.name;
    if (page->shown == Shown::apart) continue;
    for (const std::string_view example : {page->avoid, page->prefer}) {
      for (const std::string& line : lines_of_example(example)) {
        EXPECT_FALSE(line.empty()) << each.name;
        EXPECT_LE(line.size(), 72U) << each.name << ": " << line;
      }
    }
  }
}

TEST(CodePages, WhatToAvoidGivesItsCodeAndNoOther) {
  for (const Trigger& trigger : all_triggers()) {
    const std::vector<Diagnostic> found = trigger.find();
    EXPECT_FALSE(found.empty()) << code_name(trigger.code);
    for (const Diagnostic& each : found) EXPECT_EQ(each.code, trigger.code) << told(found);
  }
}

TEST(CodePages, WhatToPreferGivesNothing) {
  for (const CodeText& each : kCodes) {
    const CodePage* const page = page_of(each.code);
    ASSERT_NE(page, nullptr) << each.name;
    if (page->shown == Shown::apart || page->shown == Shown::command_line) continue;
    const std::vector<Diagnostic> found = found_in_example(page->shown, page->prefer);
    EXPECT_TRUE(found.empty()) << each.name << '\n' << told(found);
  }
}

TEST(Codes, NoneIsWithoutAnInputButTheCommandLinesOwn) {
  std::set<Code> given;
  for (const Trigger& trigger : all_triggers()) given.insert(trigger.code);
  for (const CodeText& each : kCodes) {
    const CodePage* const page = page_of(each.code);
    const bool typed = page != nullptr && page->shown == Shown::command_line;
    EXPECT_EQ(given.contains(each.code), !typed) << each.name;
  }
}

// Lower case, no full stop, no blame: as every message of the house.
TEST(Codes, TheirMessagesAreInTheTone) {
  for (const Trigger& trigger : all_triggers()) {
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
