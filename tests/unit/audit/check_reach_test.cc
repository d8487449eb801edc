// Axes that no change moves, symptoms that no rule reads, spreads that cannot be.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/audit/checks.h"
#include "engine/knowledge/load.h"
#include "tests/support/small_audit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

std::vector<std::string> messages(const AuditFindings& found) {
  std::vector<std::string> out;
  for (const AuditFinding& each : found) out.push_back(each.diagnostic.message);
  return out;
}

TEST(IdleAxis, IsOneThatNoEffectMoves) {
  SmallAudit small{.lists = axes_text({"response"})};
  const AuditFindings found = check_reach(small.pack());
  EXPECT_EQ(told(found), "A007 warning \n");
  EXPECT_THAT(messages(found), testing::ElementsAre("no change moves `response`"));
  small.effects = rule_text("one", "track: wet", "moves: {response: +0.1 ± 0.1}");
  EXPECT_EQ(told(check_reach(small.pack())), "");
}

TEST(IdleAxis, IsMovedByMoreThanASpread) {
  const SmallAudit small{.effects = rule_text("one", "", "moves: {response: 0 ± 0.1}"),
                         .lists = axes_text({"response"})};
  EXPECT_EQ(told(check_reach(small.pack())), "A007 warning \n");
}

TEST(UnreadSymptom, IsOneThatNoRuleAsksFor) {
  SmallAudit small{.lists = "symptoms: [{symptom: pulls, label: pulls, plain: to one side}]\n"};
  EXPECT_THAT(messages(check_reach(small.pack())), testing::ElementsAre("no rule reads `pulls`"));
  small.evidence = rule_text("one", "not: {report: pulls}", "decibans: -1");
  EXPECT_EQ(told(check_reach(small.pack())), "");
}

TEST(Spreads, ThatCannotBeAreFound) {
  const auto pack_with = [](const char* correlations) {
    return SmallAudit{.lists = axes_text({"response"}) + "correlations: [" + correlations + "]\n"}
        .pack();
  };
  EXPECT_EQ(told(check_prior(pack_with("{a: grip, b: response, value: 0.5}"))), "");
  const SmallAudit three{
      .lists = axes_text({"response", "unloading"}) +
               "correlations: [{a: grip, b: response, value: 0.9}, {a: grip, b: unloading, value: "
               "0.9}, {a: response, b: unloading, value: -0.9}]\n"};
  const AuditFindings found = check_prior(three.pack());
  ASSERT_FALSE(found.empty());
  EXPECT_EQ(found[0].diagnostic.code, Code::not_positive_definite);
}

}  // namespace
}  // namespace kartwright
