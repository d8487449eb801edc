// The audit of a whole pack: what comes first, where it stands, and that the rules that come with
// the program are sound.

#include "engine/audit/audit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"
#include "tests/support/small_audit.h"

namespace kartwright {
namespace {

TEST(Audit, FindsNothingInASoundPack) {
  const Audit found = audit(SmallAudit{}.documents());
  EXPECT_EQ(told(found.findings), "");
  EXPECT_EQ(found.files, 10U);
  EXPECT_EQ(found.rules, 3U);
}

TEST(Audit, TellsErrorsFirstThenWarningsThenNotes) {
  const SmallAudit small{
      .effects = rule_text("one", "track: wet", "moves: {grip: +1 ± 1}, contested: yes") +
                 rule_text("two", "fact: hit", "moves: {grip: -1 ± 1}, contested: yes"),
      .evidence = rule_text("three", "all: [{track: wet}, {track: cold}]", "decibans: +2"),
      .facts = "  - {fact: roof, label: x, values: [yes]}\n"};
  const Audit found = audit(small.documents());
  EXPECT_EQ(told(found.findings), "A001 error three\nA006 warning \nA009 note one, two\n");
  EXPECT_EQ(found.count(Severity::error), 1U);
  EXPECT_EQ(found.count(Severity::warning), 1U);
  EXPECT_EQ(found.count(Severity::note), 1U);
}

TEST(Audit, ShowsTheLineOfTheAuthorsFile) {
  const SmallAudit small{.evidence = rule_text("one",
                                               "not: {any: [{fact: hit}, {not: {fact: "
                                               "hit}}]}",
                                               "decibans: +2")};
  const Audit found = audit(small.documents());
  ASSERT_EQ(told(found.findings), "A001 error one\n");
  const Diagnostic& diagnostic = found.findings[0].diagnostic;
  EXPECT_EQ(diagnostic.file, "bent-axle.yaml");
  EXPECT_EQ(diagnostic.span.line, 12);
  EXPECT_EQ(diagnostic.span.column, 5);
  EXPECT_THAT(diagnostic.source, testing::HasSubstr("- {id: one"));
}

TEST(Audit, TellsOnlyWhatKeepsAPackFromLoading) {
  const SmallAudit small{.evidence = rule_text("one", "fact: hti", "decibans: +2"),
                         .facts = "  - {fact: roof, label: x, values: [yes]}\n"};
  const Audit found = audit(small.documents());
  EXPECT_EQ(told(found.findings), "D013 error \n");
  EXPECT_EQ(found.rules, 0U);
}

TEST(Audit, AsksForCasesOfTheOwnRulesAloneWhereThereAreOwn) {
  const std::vector<Document> base = SmallAudit{}.documents();
  const std::vector<Document> own{parse_document(
      "own.yaml", "readings:\n" + rule_text("one", "track: wet", "row: {grip: 1}, value: 1 ± 1"))};
  const auto cases = [](const std::string& text) {
    return std::vector<Document>{parse_document("own.cases.yaml", "cases:\n" + text)};
  };
  const std::string wet = "  - {case: in the rain, track: wet, fires: one}\n";
  const std::string cold = "  - {case: in the cold, track: cold, silent: one}\n";
  EXPECT_EQ(told(audit(base, own, cases(wet + cold)).findings), "");
  EXPECT_EQ(told(audit(base, own, cases(wet)).findings), "C003 error \n");
  EXPECT_EQ(told(audit(base, own).findings), "");
}

TEST(Audit, OfTheRulesThatComeWithTheProgramFindsNoErrorAndNoWarning) {
  const Audit found = audit(built_in_rules(), {}, built_in_cases());
  for (const AuditFinding& each : found.findings) {
    EXPECT_EQ(each.diagnostic.severity, Severity::note) << each.diagnostic.message;
    EXPECT_TRUE(each.witness.has_value()) << each.diagnostic.message;
  }
  EXPECT_GT(found.rules, 100U);
}

}  // namespace
}  // namespace kartwright
