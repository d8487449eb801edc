// Facts that can never be, facts that nothing reads, and facts that go round in a circle.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/audit/checks.h"
#include "tests/support/small_audit.h"

namespace kartwright {
namespace {

using testing::HasSubstr;

constexpr const char* kHeavy = "  - {fact: heavy, label: x, values: [yes, no], derived: yes}\n";

TEST(UnreachableFact, IsOneThatNobodyStatesAndNoRuleConcludes) {
  const SmallAudit small{.evidence = rule_text("one", "fact: heavy", "decibans: +3"),
                         .facts = kHeavy};
  const AuditFindings found = check_facts(small.pack());
  ASSERT_EQ(told(found), "A005 error one\n");
  EXPECT_THAT(found[0].diagnostic.message, HasSubstr("`heavy:yes`"));
}

TEST(UnreachableFact, NotOnceARuleConcludesIt) {
  SmallAudit small{.evidence = rule_text("one", "fact: heavy", "decibans: +3"),
                   .derive = rule_text("wet-is-heavy", "track: wet", "then: {heavy: yes}"),
                   .facts = kHeavy};
  EXPECT_EQ(told(check_facts(small.pack())), "");
  small.derive = rule_text("wet-is-heavy", "track: wet", "then: {heavy: no}");
  EXPECT_EQ(told(check_facts(small.pack())), "A005 error one\n");
}

TEST(UnreachableFact, IsOneThatOnlyItselfConcludes) {
  const SmallAudit small{.evidence = rule_text("one", "fact: heavy", "decibans: +3"),
                         .derive = rule_text("two", "fact: {heavy: no}", "then: {heavy: yes}") +
                                   rule_text("three", "fact: heavy", "then: {heavy: no}"),
                         .facts = kHeavy};
  EXPECT_EQ(told(check_facts(small.pack())), "A005 error two\nA005 error one, three\n");
}

TEST(UnreachableFact, IsToldOnceWithAllWhoTestIt) {
  const SmallAudit small{.evidence = rule_text("one", "fact: heavy", "decibans: +3") +
                                     rule_text("two", "not: {fact: heavy}", "decibans: +4"),
                         .facts = kHeavy};
  EXPECT_EQ(told(check_facts(small.pack())), "A005 error one, two\n");
}

// One cause, one message: the rule itself is sound.
TEST(UnreachableFact, IsNotAlsoARuleThatCanNeverSpeak) {
  const SmallAudit small{.evidence = rule_text("one", "fact: heavy", "decibans: +3"),
                         .facts = kHeavy};
  EXPECT_EQ(told(check_conditions(small.pack())), "");
}

TEST(UnreachableFact, NotWhatTheEngineStatesItself) {
  const SmallAudit small{
      .evidence = rule_text("one", "fact: only-early", "decibans: +3") +
                  rule_text("two", "fact: {'room:rear-width:wider': none}", "decibans: +4"),
      .facts = "  - {fact: only-early, label: x, values: [yes], derived: yes}\n"};
  EXPECT_EQ(told(check_facts(small.pack())), "");
}

TEST(DeadEndFact, IsOneThatNoRuleReads) {
  const SmallAudit small{.facts = "  - {fact: roof, label: x, values: [yes, no]}\n"};
  const AuditFindings found = check_facts(small.pack());
  ASSERT_EQ(told(found), "A006 warning \n");
  EXPECT_EQ(found[0].diagnostic.message, "nothing reads `roof`");
}

TEST(DeadEndFact, NamesTheRulesThatConcludeIt) {
  const SmallAudit small{.derive = rule_text("wet-is-heavy", "track: wet", "then: {heavy: yes}"),
                         .facts = kHeavy};
  EXPECT_EQ(told(check_facts(small.pack())), "A006 warning wet-is-heavy\n");
}

TEST(DeadEndFact, NotOneThatAPriorOrTheEngineReads) {
  const SmallAudit small{.evidence = rule_text("one", "fact: {tyres: hot}", "decibans: +3"),
                         .facts =
                             "  - {fact: roof, label: x, values: [yes, no]}\n"
                             "  - {fact: laps, label: x, values: [faster, slower]}\n"
                             "  - {fact: tyres, label: x, values: [hot, cold],\n"
                             "     prior: [{when: {fact: roof}, values: {hot: 1}}]}\n"};
  EXPECT_EQ(told(check_facts(small.pack())), "");
}

// --- cycles -------------------------------------------------------------------------------------

AuditFindings cycles(const std::string& derive) {
  const SmallAudit small{
      .derive = derive,
      .facts = std::string(kHeavy) + "  - {fact: light, label: x, values: [yes], derived: yes}\n"};
  return check_cycles(small.pack());
}

TEST(Cycle, ThroughANegationIsPrintedFromEndToEnd) {
  const AuditFindings found = cycles(rule_text("one", "not: {fact: light}", "then: {heavy: yes}") +
                                     rule_text("two", "fact: heavy", "then: {light: yes}"));
  ASSERT_EQ(told(found), "R003 error one\n");
  EXPECT_THAT(found[0].diagnostic.message, HasSubstr("light:yes -> heavy:yes -> light:yes"));
}

TEST(Cycle, WithoutANegationIsNone) {
  EXPECT_EQ(told(cycles(rule_text("one", "fact: light", "then: {heavy: yes}") +
                        rule_text("two", "fact: heavy", "then: {light: yes}"))),
            "");
}

// The engine meets it only on a kart with the front share over its band; the audit needs no kart.
TEST(Cycle, IsFoundBehindATestThatMayHold) {
  EXPECT_EQ(told(cycles(rule_text("one", "measure: {front-share: above-band}, not: {fact: heavy}",
                                  "then: {heavy: yes}"))),
            "R003 error one\n");
}

TEST(Cycle, NotBehindTestsThatCannotHoldTogether) {
  EXPECT_EQ(told(cycles(rule_text("one",
                                  "all: [{measure: {front-share: above-band}}, {measure: "
                                  "{front-share: below-band}}, {not: {fact: heavy}}]",
                                  "then: {heavy: yes}"))),
            "");
}

TEST(Cycle, EachOfSeveralIsTold) {
  EXPECT_EQ(told(cycles(rule_text("one", "not: {fact: heavy}", "then: {heavy: yes}") +
                        rule_text("two", "not: {fact: light}", "then: {light: yes}"))),
            "R003 error one\nR003 error two\n");
}

}  // namespace
}  // namespace kartwright
