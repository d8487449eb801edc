// The case that shows a finding is one that anybody can run again.

#include "engine/audit/witness.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/audit/judge.h"
#include "engine/debrief/debrief_file.h"
#include "tests/support/small_audit.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::Not;

/// The witness that a piece of evidence fires.
std::optional<Witness> shown(const std::string& when, const std::string& id = "one") {
  const Pack pack = SmallAudit{.evidence = rule_text(id, when, "decibans: +3")}.pack();
  for (const RuleRef& rule : every_rule(pack)) {
    if (rule.kind != RuleKind::evidence || rule.rule->source.line != 12) continue;
    const Search found = search(*rule.when, pack);
    if (!found.sample) return std::nullopt;
    return witness_of(*found.sample, {rule}, pack, "it fires here");
  }
  return std::nullopt;
}

std::string text_of(const std::string& when) {
  const std::optional<Witness> witness = shown(when);
  return witness ? witness->text : "none";
}

TEST(Witness, SaysWhatItShowsOnItsFirstLine) {
  EXPECT_EQ(text_of("track: wet"), "# it fires here\ntrack: wet\n");
}

TEST(Witness, HasNoKartWhereTheTypicalOneDoes) {
  EXPECT_EQ(text_of("report: {symptom: push, phase: entry, at-least: 3}"),
            "# it fires here\ntrack: unknown\nreports:\n  - \"push@entry=3\"\n");
  EXPECT_THAT(text_of("setting: {axle: medium}"), Not(HasSubstr("kart:")));
}

TEST(Witness, HoldsTheKartThatItNeeds) {
  EXPECT_THAT(text_of("setting: {axle: hard}"), HasSubstr("settings:\n    axle: hard\n"));
  EXPECT_THAT(text_of("setting: {rear-width: {within: 5 mm, of: wider}}"),
              HasSubstr("rear-width: 1395 mm"));
  EXPECT_THAT(text_of("measure: {front-share: above-band}"), HasSubstr("front-share: "));
  EXPECT_THAT(text_of("all: [{measure: {front-share: above-band}}, "
                      "{measure: {front-share: {below: 38 %}}}]"),
              HasSubstr("bands:"));
  EXPECT_THAT(text_of("fact: {'room:rear-width:wider': none, 'room:rear-width:narrower': none}"),
              HasSubstr("limits:"));
  EXPECT_THAT(text_of("all: [{setting: {rear-width: {within: 10 mm, of: wider}}}, "
                      "{setting: {rear-width: {within: 10 mm, of: narrower}}}]"),
              HasSubstr("rear-width"));
}

TEST(Witness, IsATriedCaseWhateverTheRulesAreCalled) {
  const std::optional<Witness> witness = shown("track: wet", "'../up & away: \"#1\"'");
  ASSERT_TRUE(witness);
  EXPECT_EQ(witness->name, "---up---away----1-.yaml");
}

TEST(Witness, IsNotHandedOutWhereItShowsNothing) {
  const Pack pack = SmallAudit{}.pack();
  std::vector<RuleRef> evidence = every_rule(pack);
  std::erase_if(evidence, [](const RuleRef& rule) { return rule.kind != RuleKind::evidence; });
  EXPECT_FALSE(witness_of(Sample{}, evidence, pack, "nothing"));
}

}  // namespace
}  // namespace kartwright
