// Rules that say the same: in the same cases, or only in fewer.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/audit/checks.h"
#include "tests/support/small_audit.h"

namespace kartwright {
namespace {

/// What is found of two pieces of evidence.
std::string twins(const char* one, const char* two, const char* says_one = "decibans: +3",
                  const char* says_two = "decibans: +3") {
  const SmallAudit small{.evidence =
                             rule_text("one", one, says_one) + rule_text("two", two, says_two)};
  return told(check_twins(small.pack()));
}

TEST(SameRuleTwice, UnderOneConditionWrittenInTwoWays) {
  EXPECT_EQ(twins("fact: hit, track: wet", "all: [{track: wet}, {fact: {hit: yes}}]"),
            "A003 warning one, two\n");
  EXPECT_EQ(twins("not: {any: [{fact: hit}, {track: wet}]}",
                  "all: [{not: {track: wet}}, {not: {fact: hit}}]"),
            "A003 warning one, two\n");
}

TEST(SameRuleTwice, NotWhereTheySayDifferentThings) {
  EXPECT_EQ(twins("fact: hit", "fact: hit", "decibans: +3", "decibans: +4"), "");
}

TEST(SameRuleTwice, NotWhereTheirConditionsOnlyOverlap) {
  EXPECT_EQ(twins("track: [cold, wet]", "any: [{track: cold}, {fact: hit}]"), "");
}

TEST(SameRuleTwice, ByAFactThatFollowsFromTheOther) {
  const SmallAudit small{.evidence = rule_text("one", "track: wet", "decibans: +3") +
                                     rule_text("two", "fact: heavy", "decibans: +3"),
                         .derive = rule_text("wet-is-heavy", "track: wet", "then: {heavy: yes}"),
                         .facts = "  - {fact: heavy, label: x, values: [yes], derived: yes}\n"};
  EXPECT_EQ(told(check_twins(small.pack())), "A003 warning one, two\n");
}

TEST(Subsumed, WhereOneConditionHoldsWheneverTheOtherDoes) {
  EXPECT_EQ(twins("report: {symptom: push, phase: mid, at-least: 2}", "report: push"),
            "A004 warning one, two\n");
  EXPECT_EQ(twins("track: [cold, wet]", "track: wet"), "A004 warning two, one\n");
  EXPECT_EQ(twins("measure: {front-share: {above: 50 %}}", "measure: {front-share: {above: 45 %}}"),
            "A004 warning one, two\n");
}

// The crew may have a band of its own.
TEST(Subsumed, NotByABandThatIsTheCrewsToSet) {
  EXPECT_EQ(twins("measure: {front-share: {above: 50 %}}", "measure: {front-share: above-band}"),
            "");
}

TEST(Subsumed, NotByARuleThatCanNeverSpeak) {
  EXPECT_EQ(twins("all: [{track: wet}, {track: cold}]", "fact: hit"), "");
}

TEST(Subsumed, ADerivationWithAStrongerConditionForTheSameFact) {
  SmallAudit small{.derive = rule_text("one", "track: wet", "then: {hit: yes}") +
                             rule_text("two", "track: wet, report: push", "then: {hit: yes}")};
  EXPECT_EQ(told(check_twins(small.pack())), "A004 warning two, one\n");
  small.derive = rule_text("one", "track: wet", "then: {hit: yes}") +
                 rule_text("two", "track: wet, report: push", "then: {hit: no}");
  EXPECT_EQ(told(check_twins(small.pack())), "");
}

TEST(Subsumed, AReadingOfTheSameRowAndValue) {
  SmallAudit small{.readings =
                       rule_text("one", "track: wet", "row: {grip: 1}, value: -1 ± 0.5") +
                       rule_text("two", "track: [cold, wet]", "row: {grip: 1}, value: -1 ± 0.5")};
  EXPECT_EQ(told(check_twins(small.pack())), "A004 warning one, two\n");
  small.readings = rule_text("one", "track: wet", "row: {grip: 1}, value: -1 ± 0.5") +
                   rule_text("two", "track: [cold, wet]", "row: {grip: 1}, value: -1 ± 0.6");
  EXPECT_EQ(told(check_twins(small.pack())), "");
}

// An exception that says what the rule says anyway is still one where a third rule holds.
TEST(Subsumed, NotAnEffectByTheOneItReplaces) {
  const SmallAudit small{.effects = rule_text("one", "track: wet", "moves: {grip: -0.5 ± 0.2}")};
  EXPECT_EQ(told(check_twins(small.pack())), "");
}

}  // namespace
}  // namespace kartwright
