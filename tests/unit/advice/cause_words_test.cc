// Cause and effect in words: names out of the rules, strength out of the numbers.

#include "engine/advice/cause_words.h"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/knowledge/load.h"
#include "tests/support/pit.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

using testing::HasSubstr;

TEST(CauseWords, StrengthHasTheSignAndTheSizeOfTheNumber) {
  EXPECT_EQ(strength(-0.9), "much less");
  EXPECT_EQ(strength(-0.3), "less");
  EXPECT_EQ(strength(-0.1), "a bit less");
  EXPECT_EQ(strength(0.15), "a bit more");
  EXPECT_EQ(strength(0.25), "more");
  EXPECT_EQ(strength(0.5), "much more");
  EXPECT_EQ(strength(0.0), "either way");
  EXPECT_EQ(strength(std::nullopt), "same");
}

TEST(CauseWords, AnEndOfTheKartAndAPhaseAreNamedAsTheRulesNameThem) {
  for (const Axis& axis : rules().axes) {
    const std::string family = family_label(axis, rules()), phase = phase_label(axis, rules());
    EXPECT_EQ(phase.empty() ? family : family + " " + phase, axis.label);
    EXPECT_EQ(phase.empty(), !axis.phase);
  }
  EXPECT_EQ(phase_label(Phase::entry, rules()), "going in");
  EXPECT_EQ(phase_label(Phase::exit, rules()), "coming off");
  EXPECT_EQ(phase_label(Phase::straight, rules()), "straight");
}

TEST(CauseWords, OtherLabelsGiveOtherNames) {
  const Pack pack = load_pack(small_rules());
  for (const Axis& axis : pack.axes) {
    if (axis.id != "rear-grip.exit") continue;
    EXPECT_EQ(family_label(axis, pack), "rear");
    EXPECT_EQ(phase_label(axis, pack), "off");
  }
}

TEST(CauseWords, AgreementCountsTheGroupsOnBothSides) {
  Rule rule;
  rule.provenance = {.practice = true, .groups_for = 5, .groups_against = 2, .note = "two differ"};
  EXPECT_EQ(agreement_text(rule),
            "common practice; 5 published groups say so, 2 the other way: two differ");
  rule.provenance = {.practice = true, .groups_for = 1};
  EXPECT_EQ(agreement_text(rule), "common practice; 1 published group says so");
  rule.provenance = {.practice = true, .groups_against = 1};
  EXPECT_EQ(agreement_text(rule), "common practice; no published group says so, 1 the other way");
  rule.provenance = {.practice = true};
  EXPECT_EQ(agreement_text(rule), "common practice, with no published group for or against");
}

TEST(CauseWords, WhatIsContestedSaysSo) {
  Rule rule;
  rule.status = Status::test;
  EXPECT_THAT(standing_text(rule, true), HasSubstr("contested"));
  EXPECT_THAT(standing_text(rule, false), testing::Not(HasSubstr("contested")));
  rule.status = Status::stable;
  EXPECT_EQ(standing_text(rule, false), "settled");
}

TEST(CauseWords, PhasesThatChangeAlikeAreToldTogether) {
  EXPECT_TRUE(effect_changes(*rules().adjustment("rear-hubs")).empty());
  const auto changes = effect_changes(*rules().adjustment("front-width"));
  const auto found = std::find_if(changes.begin(), changes.end(), [](const EffectChange& each) {
    return each.rule->id == "wider-front-slow-on-the-throttle";
  });
  ASSERT_NE(found, changes.end());
  EXPECT_EQ(changes_text(*found, rules()), "front grip going in from more (+0.3) to less (-0.3)");
  const auto body = effect_changes(*rules().adjustment("bodywork"));
  ASSERT_EQ(body.size(), 1U);
  EXPECT_EQ(changes_text(body[0], rules()),
            "front grip going in, in the middle and coming off from same to a bit more (+0.1); "
            "rear grip going in from same to a bit more (+0.1); rear grip in the middle from a bit "
            "less (-0.15) to a bit more (+0.1); rear grip coming off from a bit less (-0.1) to a "
            "bit more (+0.1)");
}

}  // namespace
}  // namespace kartwright
