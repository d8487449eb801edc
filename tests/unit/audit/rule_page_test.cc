// All there is to say of a rule.

#include "engine/audit/rule_page.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/advice/explain_gauge.h"
#include "tests/support/pit.h"
#include "tests/support/small_audit.h"

namespace kartwright {
namespace {

using testing::ElementsAre;

TEST(RulePage, SaysWhatItReplacesAndWhatGivesWayToIt) {
  const Pack pack = SmallAudit{.effects = rule_text("one", "track: [cold, wet]",
                                                    "moves: {grip: -1 ± 1}, contested: yes")}
                        .pack();
  const auto one = rule_page("one", pack);
  ASSERT_TRUE(one);
  EXPECT_EQ(one->line.kind, "effect");
  EXPECT_EQ(one->line.of, "rear-width");
  EXPECT_EQ(one->line.status, "stable");
  EXPECT_EQ(one->when, "track:cold or wet");
  EXPECT_EQ(one->says, "rear wider: grip -1 ± 1");
  EXPECT_EQ(one->provenance, "common practice");
  EXPECT_TRUE(one->contested);
  ASSERT_EQ(one->replaces.size(), 1U);
  EXPECT_EQ(one->replaces[0].rule, "wider-frees");
  EXPECT_THAT(one->replaces[0].axes, ElementsAre("grip"));
  EXPECT_TRUE(one->replaced_by.empty());
  const auto base = rule_page("wider-frees", pack);
  ASSERT_TRUE(base);
  EXPECT_EQ(base->when, "always");
  ASSERT_EQ(base->replaced_by.size(), 1U);
  EXPECT_EQ(base->replaced_by[0].rule, "one");
}

TEST(RulePage, OfAVerdictSaysWhereItHoldsAndWhatItIsOf) {
  for (const Gauge& gauge : rules().gauges) {
    for (const GaugeVerdict& verdict : gauge.verdicts) {
      const auto page = rule_page(verdict.id, rules());
      ASSERT_TRUE(page) << verdict.id;
      EXPECT_EQ(page->line.kind, "verdict");
      EXPECT_EQ(page->line.of, gauge.id);
      EXPECT_EQ(page->when, holds_where(verdict, gauge, System::metric));
      EXPECT_THAT(page->says, testing::StartsWith(gauge.label + ": "));
      EXPECT_NE(page->because, "");
      EXPECT_EQ(page->provenance, verdict.provenance.text());
    }
  }
  EXPECT_FALSE(rule_page("no-such-rule", rules()));
}

TEST(RuleLines, EndWithTheVerdictsAsWritten) {
  const std::vector<RuleLine> lines = rule_lines(rules());
  std::vector<std::string> wanted, last;
  for (const Gauge& gauge : rules().gauges) {
    for (const GaugeVerdict& verdict : gauge.verdicts) wanted.push_back(verdict.id);
  }
  ASSERT_GT(lines.size(), wanted.size());
  for (std::size_t i = lines.size() - wanted.size(); i < lines.size(); ++i)
    last.push_back(lines[i].id);
  EXPECT_EQ(last, wanted);
  EXPECT_EQ(lines.size(), wanted.size() + every_rule(rules()).size());
}

TEST(RuleLines, SayWhatEachRuleIsOf) {
  for (const RuleLine& line : rule_lines(rules())) {
    EXPECT_NE(line.of, "") << line.id;
    EXPECT_THAT(line.status, testing::AnyOf("stable", "test", "experimental")) << line.id;
    EXPECT_NE(line.source.file, "") << line.id;
  }
}

TEST(RulePage, NamesTheCasesBesideItsFile) {
  const Pack pack = SmallAudit{}.pack();
  const std::vector<Document> cases{
      parse_document("bent-axle.cases.yaml",
                     "cases:\n"
                     "  - {case: it pushes, reports: [push], fires: push-may-be-the-axle}\n"
                     "  - {case: no word, track: wet, silent: [push-may-be-the-axle]}\n"),
      parse_document("facts.cases.yaml",
                     "cases: [{case: elsewhere, silent: push-may-be-the-axle}]\n")};
  const auto page = rule_page("push-may-be-the-axle", pack, cases);
  ASSERT_TRUE(page);
  EXPECT_THAT(page->fires_on, ElementsAre("it pushes"));
  EXPECT_THAT(page->silent_on, ElementsAre("no word"));
}

TEST(RulePage, ThereIsNoneOfWhatIsNoRule) {
  const Pack pack = SmallAudit{}.pack();
  EXPECT_FALSE(rule_page("rear-width", pack));
}

TEST(RuleLines, ComeByKindThenByWhatTheyAreOf) {
  const Pack pack =
      SmallAudit{.readings = rule_text("zed", "track: wet", "row: {grip: 1}, value: -1 ± 1"),
                 .derive = rule_text("a-hit", "track: wet", "then: {hit: yes}")}
          .pack();
  std::vector<std::string> ids;
  for (const RuleLine& line : rule_lines(pack)) ids.push_back(line.id + " of " + line.of);
  EXPECT_THAT(ids, ElementsAre("zed of grip", "wider-frees of rear-width",
                               "braking-in-may-be-the-axle of bent-axle",
                               "push-may-be-the-axle of bent-axle", "a-hit of hit"));
}

}  // namespace
}  // namespace kartwright
