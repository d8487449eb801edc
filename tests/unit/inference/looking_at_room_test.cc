// Which packs look at the room left on an adjustment, how facts of the reports stand on complaints,
// and which rule a cycle is told by.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/inference/chain.h"
#include "engine/inference/derive.h"
#include "engine/inference/fault_odds.h"
#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

using testing::ElementsAre;

/// "The rear has room to go wider, and it was hit or not."
Condition room_and_more(const char* fact = "room:rear-width:wider") {
  Condition room{.op = Condition::Op::test, .test = FactTest{fact, {"some"}}};
  Condition hit{.op = Condition::Op::test, .test = FactTest{"hit", {"yes"}}};
  return {.op = Condition::Op::all,
          .parts = {hit, {.op = Condition::Op::negated, .parts = {room}}}};
}

template <typename Rules>
void put_in(Rules& rules, const Condition& when) {
  rules.emplace_back().when = when;
}

TEST(LookingAtRoom, IsDoneByARuleOfAnyKind) {
  for (const char* const fact : {"room:rear-width:wider", "track"}) {
    const bool expected = fact != std::string("track");
    const Condition when = room_and_more(fact);
    const auto looks = [&](auto spoil) {
      Pack pack;
      put_in(pack.derives, {});
      put_in(pack.readings, {});
      put_in(pack.adjustments.emplace_back().effects, {});
      put_in(pack.faults.emplace_back().evidence, {});
      put_in(pack.facts.emplace_back().priors, {});
      EXPECT_FALSE(looks_at_room(pack));
      spoil(pack);
      return looks_at_room(pack);
    };
    EXPECT_EQ(looks([&](Pack& pack) { put_in(pack.derives, when); }), expected);
    EXPECT_EQ(looks([&](Pack& pack) { put_in(pack.readings, when); }), expected);
    EXPECT_EQ(looks([&](Pack& pack) { put_in(pack.adjustments[0].effects, when); }), expected);
    EXPECT_EQ(looks([&](Pack& pack) { put_in(pack.faults[0].evidence, when); }), expected);
    EXPECT_EQ(looks([&](Pack& pack) { put_in(pack.facts[0].priors, when); }), expected);
  }
}

TEST(LookingAtRoom, IsNotDoneByATestOfAReport) {
  Pack pack;
  put_in(pack.derives, {.op = Condition::Op::test, .test = ReportTest{"hop"}});
  EXPECT_FALSE(looks_at_room(pack));
}

TEST(RoomByItself, IsAddedWhereNobodyStatedIt) {
  const SmallCase entered(rules());
  Facts facts{.all = {{"room:rear-width:wider", "none", "crew", {}}}};
  add_room(entered.kart, facts);
  EXPECT_TRUE(facts.has("room:rear-width:wider", "none"));
  EXPECT_FALSE(facts.has("room:rear-width:wider", "some"));
  EXPECT_TRUE(facts.has("room:rear-width:narrower", "some"));
  EXPECT_TRUE(std::is_sorted(facts.all.begin(), facts.all.end(), comes_before));
  EXPECT_EQ(facts.all.size(), 2 * entered.kart.settings.size());
}

TEST(OnlyLate, StandsOnEveryComplaintOnce) {
  const SmallCase entered(rules(), {"push@entry=2,late", "hop@mid=1,late", "push@exit=1,late"});
  const std::vector<Fact> facts = given_facts(entered.pack, entered.kart, entered.debrief);
  const auto late = std::find_if(facts.begin(), facts.end(),
                                 [](const Fact& fact) { return fact.id == "only-late"; });
  ASSERT_NE(late, facts.end());
  EXPECT_EQ(late->rule, "reports");
  EXPECT_THAT(late->premises, ElementsAre("hop", "push"));
}

/// "a, unless b" and "b from a" behind rules that conclude the same.
Pack of_rules(const std::vector<std::pair<Condition, const char*>>& derivations) {
  Pack pack = rules();
  pack.derives.clear();
  int line = 10;
  for (const auto& [when, fact] : derivations) {
    DeriveRule& rule = pack.derives.emplace_back();
    rule.id = "rule-" + std::to_string(line);
    rule.when = when;
    rule.fact = fact;
    rule.value = "yes";
    rule.source = {"own.yaml", line++};
  }
  return pack;
}

Condition stated(const char* fact) {
  return {.op = Condition::Op::test, .test = FactTest{fact, {"yes"}}};
}
Condition unless(const char* fact) {
  return {.op = Condition::Op::negated, .parts = {stated(fact)}};
}

TEST(NegationCycleInRules, IsToldByTheRuleWithTheNot) {
  const Pack pack = of_rules({{stated("hit"), "sudden"},
                              {unless("hit"), "sudden"},
                              {unless("blisters"), "sudden"},
                              {stated("sudden"), "blisters"}});
  try {
    SmallCase(pack).settled();
    FAIL() << "the cycle was not seen";
  } catch (const InputError& error) {
    EXPECT_EQ(error.found().at(0).file, "own.yaml");
    EXPECT_EQ(error.found().at(0).span.line, 12) << "which alone looks at blisters";
  }
}

TEST(NegationCycleInRules, IsToldByTheShortestWayRoundEvenThroughTheFirstFact) {
  // 0 if not 3; and from 0 by 1 to 3, where 1 and 2 hold each other up.
  const Program program{.atoms = 4,
                        .clauses = {{.head = 0, .needs = {}, .without = {3}},
                                    {.head = 1, .needs = {0}, .without = {}},
                                    {.head = 2, .needs = {1}, .without = {}},
                                    {.head = 1, .needs = {2}, .without = {}},
                                    {.head = 3, .needs = {2}, .without = {}},
                                    {.head = 3, .needs = {1}, .without = {}}}};
  EXPECT_THAT(std::get<NegationCycle>(stratify(program)), ElementsAre(3, 0, 1, 3));
}

TEST(Evidence, ForAFaultIsNotForgottenForWhatSpeaksAgainstIt) {
  Pack pack = rules();
  for (Fault& fault : pack.faults) fault.evidence.clear();
  const auto weighed = [&](const std::vector<double>& decibans) {
    pack.faults[0].evidence.clear();
    for (const double each : decibans) pack.faults[0].evidence.emplace_back().decibans = each;
    const SmallCase entered(pack);
    for (const FaultOdds& odds : weigh_faults(entered.settled())) {
      if (odds.fault == &pack.faults[0]) return odds.evidence;
    }
    return false;
  };
  EXPECT_TRUE(weighed({10.0, -3.0}));
  EXPECT_TRUE(weighed({-3.0, 10.0}));
  EXPECT_FALSE(weighed({-3.0}));
  EXPECT_FALSE(weighed({0.0}));
}

}  // namespace
}  // namespace kartwright
