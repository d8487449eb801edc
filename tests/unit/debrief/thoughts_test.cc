#include "engine/debrief/thoughts.h"

#include <gtest/gtest.h>

#include "tests/support/small_words.h"

namespace kartwright {
namespace {

std::vector<Thought> thoughts(std::string_view said) {
  return thoughts_of(clauses_of(tokens_of(said), Vocabulary(small_words().phrases)));
}

/// The thought of a segment that says something.
Thought thought(std::string_view said) {
  const auto all = thoughts(said);
  if (all.size() == 1) return all.front();
  ADD_FAILURE() << said << ": " << all.size() << " thoughts";
  return {};
}

/// The severity said with each symptom, 0 where none was.
std::vector<int> amounts(std::string_view said) {
  std::vector<int> amounts;
  for (const Named& named : thought(said).symptoms) amounts.push_back(named.severity.value_or(0));
  return amounts;
}

/// What was left over, as said.
std::vector<std::string> left_over(std::string_view said) {
  std::vector<std::string> left;
  for (const Leftover& leftover : thought(said).leftovers) left.push_back(quote(said, leftover.at));
  return left;
}

using Amounts = std::vector<int>;
using Words = std::vector<std::string>;

TEST(Thoughts, TheStrongestWordCounts) {
  EXPECT_EQ(amounts("pushes"), Amounts{0});
  EXPECT_EQ(amounts("pushes badly"), Amounts{3});
  EXPECT_EQ(amounts("a bit loose really"), Amounts{3});
}

TEST(Thoughts, AWeakWordBelongsToTheNearestSymptom) {
  EXPECT_EQ(amounts("a bit loose it hops badly"), (Amounts{1, 3}));
  EXPECT_EQ(amounts("loose a bit it is hop"), (Amounts{1, 0}));
  EXPECT_EQ(amounts("badly loose it hops"), (Amounts{3, 3}));
}

TEST(Thoughts, ReallySlightIsSlight) { EXPECT_EQ(amounts("really slight push"), Amounts{1}); }

TEST(Thoughts, NotBadlyIsSlightly) {
  EXPECT_EQ(amounts("pushes not badly"), Amounts{1});
  EXPECT_EQ(amounts("doesn't push badly"), Amounts{1});
  EXPECT_FALSE(thought("doesn't push badly").symptoms[0].denied);
  EXPECT_TRUE(thought("not push really").symptoms[0].denied);
  EXPECT_TRUE(thought("doesn't badly push").symptoms[0].denied);
}

TEST(Thoughts, DenialsReachWhatFollows) {
  const Thought both = thought("no push hop");
  EXPECT_TRUE(both.symptoms[0].denied);
  EXPECT_TRUE(both.symptoms[1].denied);
  const Thought second = thought("push not hop");
  EXPECT_FALSE(second.symptoms[0].denied);
  EXPECT_TRUE(second.symptoms[1].denied);
}

TEST(Thoughts, ADenialAtTheEndReachesBack) {
  EXPECT_TRUE(thought("the push is gone").symptoms[0].denied);
  EXPECT_TRUE(thought("the hop is not there").symptoms[0].denied);
}

TEST(Thoughts, ADeniedPhaseLeavesTheSymptom) {
  const Thought entry_only = thought("pushes going in not mid");
  EXPECT_FALSE(entry_only.symptoms[0].denied);
  ASSERT_EQ(entry_only.phases.size(), 2u);
  EXPECT_FALSE(entry_only.phases[0].denied);
  EXPECT_TRUE(entry_only.phases[1].denied);
}

TEST(Thoughts, WhatADenialCannotDenyIsLeftOver) {
  EXPECT_EQ(left_over("not the gearbox"), Words{"not the gearbox"});
  EXPECT_EQ(left_over("it is not turn 3"), Words{"it is not turn 3"});
  EXPECT_EQ(left_over("pushes not left"), Words{"not left"});
  EXPECT_EQ(left_over("no faster"), Words{"no faster"});
}

TEST(Thoughts, ANoAloneIsAMannerOfSpeaking) {
  EXPECT_TRUE(thought("no").only_no);
  EXPECT_TRUE(thought("no").leftovers.empty());
}

TEST(Thoughts, RunsOfUnknownWordsKeepTheFillerBetween) {
  EXPECT_EQ(left_over("pushes the gears grind in the box off"), (Words{"gears grind in the box"}));
  EXPECT_EQ(left_over("gears going in box"), (Words{"gears", "box"}));
  EXPECT_EQ(thought("gears in box").leftovers.front().unknown, (Words{"gears", "box"}));
}

TEST(Thoughts, SidesThatDifferCancel) {
  EXPECT_EQ(thought("pulls left").side.value(), Side::left);
  EXPECT_EQ(thought("pulls left right").side.value(), std::nullopt);
  EXPECT_TRUE(thought("pulls left right").side.said());
}

TEST(Thoughts, RefusedPraiseIsNoPraiseAndItsWordsSayNoMore) {
  const Thought refused = thought("not really great");
  EXPECT_TRUE(refused.praise.empty());
  EXPECT_EQ(refused.refused_praise.size(), 1u);
  EXPECT_FALSE(refused.modifies());
}

TEST(Thoughts, AnExceptionTakesPhasesBack) {
  const auto all = thoughts("pushes except mid");
  EXPECT_TRUE(all.back().phases.front().denied);
  const auto symptom = thoughts("great except pushes mid");
  EXPECT_FALSE(symptom.back().phases.front().denied);
}

TEST(Thoughts, IdleSegmentsAreDroppedAndNotCounted) {
  const auto all = thoughts("it pushes. It was there now. Mid.");
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[1].clause, 1u);
}

TEST(Thoughts, KnowWhereTheirPhasesStand) {
  EXPECT_TRUE(thought("mid it pushes").phases_lead);
  EXPECT_FALSE(thought("pushes mid").phases_lead);
  EXPECT_FALSE(thought("mid it pushes going in").phases_lead);
}

}  // namespace
}  // namespace kartwright
