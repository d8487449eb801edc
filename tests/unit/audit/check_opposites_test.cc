// Rules that pull both ways at once, and the case that shows it.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/audit/checks.h"
#include "tests/support/small_audit.h"

namespace kartwright {
namespace {

using testing::HasSubstr;

std::string up(const char* id, const char* when, const char* more = "") {
  return rule_text(id, when, std::string("moves: {grip: +0.4 ± 0.2}") + more);
}
std::string down(const char* id, const char* when, const char* more = "") {
  return rule_text(id, when, std::string("moves: {grip: -0.3 ± 0.2}") + more);
}

AuditFindings found_of(const Pack& pack) { return check_opposites(pack); }

TEST(OppositeEffects, UnderConditionsThatOverlap) {
  const Pack pack =
      SmallAudit{.effects = up("one", "track: wet") + down("two", "fact: hit")}.pack();
  const AuditFindings found = found_of(pack);
  ASSERT_EQ(told(found), "A009 warning one, two\n");
  EXPECT_THAT(found[0].diagnostic.message, HasSubstr("grip +0.4 and -0.3"));
  ASSERT_TRUE(found[0].witness);
  EXPECT_EQ(found[0].witness->name, "one--two.yaml");
  EXPECT_THAT(found[0].witness->text, HasSubstr("track: wet\nfacts:\n  hit: yes\n"));
}

TEST(OppositeEffects, NotUnderConditionsKeptApart) {
  const Pack pack =
      SmallAudit{.effects = up("one", "track: wet") + down("two", "fact: hit, not: {track: wet}")}
          .pack();
  EXPECT_EQ(told(found_of(pack)), "");
}

TEST(OppositeEffects, NotWhereOneReplacesTheOther) {
  EXPECT_EQ(told(found_of(SmallAudit{.effects = up("one", "track: wet")}.pack())), "");
}

TEST(OppositeEffects, WithoutConditionsBoth) {
  const Pack pack = SmallAudit{.effects = up("one", "")}.pack();
  EXPECT_EQ(told(found_of(pack)), "A009 warning one, wider-frees\n");
}

// In every other case a third rule has taken the axis.
TEST(OppositeEffects, WithoutConditionsMeetOnlyWhereNothingReplacesThem) {
  const Pack pack =
      SmallAudit{.effects = up("one", "") + down("two", "not: {setting: {axle: hard}}")}.pack();
  const AuditFindings found = found_of(pack);
  ASSERT_EQ(told(found), "A009 warning one, wider-frees\n");
  ASSERT_TRUE(found[0].witness);
  EXPECT_THAT(found[0].witness->text, HasSubstr("axle: hard"));
}

TEST(OppositeEffects, BothContestedAreANote) {
  const char* const open = ", contested: yes";
  EXPECT_EQ(told(found_of(SmallAudit{.effects = up("one", "track: wet", open) +
                                                down("two", "fact: hit", open)}
                              .pack())),
            "A009 note one, two\n");
  EXPECT_EQ(
      told(found_of(
          SmallAudit{.effects = up("one", "track: wet", open) + down("two", "fact: hit")}.pack())),
      "A009 warning one, two\n");
}

TEST(OppositeReadings, OnOneRowAreANoteWithACase) {
  const Pack pack =
      SmallAudit{.readings = rule_text("one", "track: wet", "row: {grip: 1}, value: -1 ± 0.5") +
                             rule_text("two", "measure: {front-share: below-band}",
                                       "row: {grip: 1}, value: +0.5 ± 0.5")}
          .pack();
  const AuditFindings found = found_of(pack);
  ASSERT_EQ(told(found), "A010 note one, two\n");
  EXPECT_TRUE(found[0].witness);
}

TEST(OppositeReadings, AlsoOnARowTurnedRound) {
  const Pack pack =
      SmallAudit{.readings = rule_text("one", "track: wet", "row: {grip: 1}, value: -1 ± 0.5") +
                             rule_text("two", "fact: hit", "row: {grip: -1}, value: -1 ± 0.5")}
          .pack();
  EXPECT_EQ(told(found_of(pack)), "A010 note one, two\n");
}

TEST(OppositeReadings, NotOfOneSignOrKeptApart) {
  const auto with = [](const char* second, const char* value) {
    return SmallAudit{.readings =
                          rule_text("one", "track: wet", "row: {grip: 1}, value: -1 ± 0.5") +
                          rule_text("two", second, std::string("row: {grip: 1}, value: ") + value)}
        .pack();
  };
  EXPECT_EQ(told(found_of(with("fact: hit", "-2 ± 0.5"))), "");
  EXPECT_EQ(told(found_of(with("track: cold", "+2 ± 0.5"))), "");
}

}  // namespace
}  // namespace kartwright
