#include "engine/debrief/joining.h"

#include <gtest/gtest.h>

#include "tests/support/small_words.h"

namespace kartwright {
namespace {

std::vector<Thought> joined(std::string_view said) {
  auto thoughts = thoughts_of(clauses_of(tokens_of(said), Vocabulary(small_words().phrases)));
  join_thoughts(thoughts);
  return thoughts;
}

/// "push no hop": symptoms in order, "no" before those denied.
std::string denials(std::string_view said) {
  std::string text;
  for (const Thought& thought : joined(said)) {
    for (const Named& named : thought.symptoms) {
      text += (text.empty() ? "" : " ") + std::string(named.denied ? "no " : "") + named.phrase->id;
    }
  }
  return text;
}

/// "push@entry,mid hop@mid": phases of the thoughts that name symptoms.
std::string phases(std::string_view said) {
  std::string text;
  for (const Thought& thought : joined(said)) {
    if (thought.symptoms.empty()) continue;
    text += (text.empty() ? "" : " ") + thought.symptoms.front().phrase->id + '@';
    for (const Where& where : thought.phases) {
      text += (text.back() == '@' ? "" : ",") + std::string(name_of(where.phase));
    }
  }
  return text;
}

TEST(Joining, DenialsRunThroughLists) {
  EXPECT_EQ(denials("no push or hop"), "no push no hop");
  EXPECT_EQ(denials("no push, hop or slide"), "no push no hop no slide");
  EXPECT_EQ(denials("no push, hop, slide"), "no push no hop no slide");
  EXPECT_EQ(denials("no push and hop"), "no push no hop");
  EXPECT_EQ(denials("not loose, not tight"), "no loose no push");
  EXPECT_EQ(denials("doesn't push or it hops mid"), "no push no hop");
}

TEST(Joining, DenialsStopWhereSomethingElseBegins) {
  EXPECT_EQ(denials("doesn't push, hops mid"), "no push hop");
  EXPECT_EQ(denials("doesn't push and hops"), "no push hop");
  EXPECT_EQ(denials("not loose, tight"), "no loose push");
  EXPECT_EQ(denials("no push but hop"), "no push hop");
  EXPECT_EQ(denials("no push then hop"), "no push hop");
  EXPECT_EQ(denials("no, it pushes"), "push");
}

TEST(Joining, NoAnswersAQuestion) {
  EXPECT_EQ(denials("push? no"), "no push");
  EXPECT_EQ(denials("push or hop? no"), "no push no hop");
  EXPECT_EQ(denials("push. no"), "push");
  EXPECT_EQ(denials("push: no - hop"), "no push hop");
  EXPECT_EQ(denials("push, no, hop"), "push hop");
}

TEST(Joining, SymptomsWithOnePhaseShareIt) {
  EXPECT_EQ(phases("pushes and hops in the middle"), "push@mid hop@mid");
  EXPECT_EQ(phases("pushes and hops and slides off"), "push@exit hop@exit slide@exit");
  EXPECT_EQ(phases("in the middle it pushes and hops"), "push@mid hop@mid");
}

TEST(Joining, ACommaOrAPhaseOfItsOwnParts) {
  EXPECT_EQ(phases("pushes, and hops in the middle"), "push@ hop@mid");
  EXPECT_EQ(phases("pushes going in and hops mid"), "push@entry hop@mid");
  EXPECT_EQ(phases("pushes and mid it hops"), "push@ hop@mid");
  EXPECT_EQ(phases("wheelspin and hops mid"), "loose@ hop@mid");
}

TEST(Joining, RemarksJoinTheSymptomBefore) {
  EXPECT_EQ(phases("pushes, going in, hops"), "push@entry hop@");
  EXPECT_EQ(phases("pushes going in and off, hops"), "push@entry,exit hop@");
}

TEST(Joining, RemarksWithNoneBeforeJoinTheNext) {
  EXPECT_EQ(phases("going in, it pushes"), "push@entry");
  EXPECT_EQ(phases("going in and mid, it pushes"), "push@entry,mid");
}

TEST(Joining, ARemarkLeadsWhereOnlyTheNextLacksAPhase) {
  EXPECT_EQ(phases("pushes going in, mid, hops"), "push@entry hop@mid");
  EXPECT_EQ(phases("pushes going in and mid, hops"), "push@entry,mid hop@");
}

TEST(Joining, RemarksReachTheNextSentenceButNoFarther) {
  EXPECT_EQ(phases("pushes. going in."), "push@entry");
  EXPECT_EQ(phases("going in. pushes."), "push@entry");
  EXPECT_EQ(phases("pushes. gears grind. going in."), "push@");
}

TEST(Joining, RemarksAmongUnknownWordsOrRefusedPraiseJoinNothing) {
  EXPECT_EQ(phases("pushes going in, gears grind off"), "push@entry");
  EXPECT_EQ(phases("pushes going in, not great mid"), "push@entry");
  const auto thoughts = joined("pushes going in, gears grind off");
  ASSERT_EQ(thoughts.back().leftovers.size(), 1u);
  EXPECT_EQ(thoughts.back().leftovers.front().unknown,
            (std::vector<std::string>{"gears", "grind"}));
}

TEST(Joining, PraiseTakesItsOwnPhases) {
  EXPECT_EQ(phases("great going in and mid, hops"), "hop@");
  EXPECT_TRUE(joined("great, a bit mid").back().leftovers.size() == 1);
}

TEST(Joining, SideAndDoubtFallBackOnTheClause) {
  const auto thoughts = joined("pushes in lefts i think, hops");
  EXPECT_EQ(thoughts[1].side.value(), Side::left);
  EXPECT_EQ(thoughts[1].confidence, Confidence::unsure);
  const auto apart = joined("pushes in lefts. hops");
  EXPECT_EQ(apart[1].side.value(), std::nullopt);
  const auto differing = joined("pushes in lefts, hops in rights, slides");
  EXPECT_EQ(differing[1].side.value(), Side::right);
  EXPECT_EQ(differing[2].side.value(), std::nullopt);
}

}  // namespace
}  // namespace kartwright
