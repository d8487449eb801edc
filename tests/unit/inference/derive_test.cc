// From what was entered to the settled facts of a case.

#include "engine/inference/derive.h"

#include <algorithm>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::UnorderedElementsAre;

std::vector<Fact> given(const SmallCase& entered) {
  return given_facts(entered.pack, entered.kart, entered.debrief);
}

/// Where a given fact stands, or "unsaid".
std::string value_of(const std::vector<Fact>& facts, std::string_view id) {
  const auto found =
      std::find_if(facts.begin(), facts.end(), [&](const Fact& fact) { return fact.id == id; });
  return found == facts.end() ? "unsaid" : found->value;
}

// --- room ---------------------------------------------------------------------------------------

TEST(RoomFacts, SayWhichWaysAnAdjustmentCanStillGo) {
  SmallCase entered(rules());
  Setting& width = entered.kart.settings.at("rear-width");
  EXPECT_EQ(value_of(given(entered), "room:rear-width:wider"), "some");
  EXPECT_EQ(value_of(given(entered), "room:rear-width:narrower"), "some");
  width.now = width.travel.places.back();
  EXPECT_EQ(value_of(given(entered), "room:rear-width:wider"), "none");
  EXPECT_EQ(value_of(given(entered), "room:rear-width:narrower"), "some");
}

TEST(RoomFacts, EndWhereTheClassEnds) {
  SmallCase entered(rules());
  Setting& width = entered.kart.settings.at("rear-width");
  width.limit.at_most = width.now;
  EXPECT_EQ(value_of(given(entered), "room:rear-width:wider"), "none");
  width.limit.at_most = width.now + 0.005;
  EXPECT_EQ(value_of(given(entered), "room:rear-width:wider"), "some");
}

TEST(RoomFacts, FollowTheNameOfTheDirectionWhereMoreIsAFallingNumber) {
  SmallCase entered(rules());
  Setting& camber = entered.kart.settings.at("camber");
  camber.now = camber.travel.places.front();  // -1.5 deg
  EXPECT_EQ(value_of(given(entered), "room:camber:more-negative"), "none");
  EXPECT_EQ(value_of(given(entered), "room:camber:less-negative"), "some");
}

TEST(RoomFacts, CountThePositionsOfAList) {
  SmallCase entered(rules());
  EXPECT_EQ(value_of(given(entered), "room:front-bar:in"), "some");
  EXPECT_EQ(value_of(given(entered), "room:front-bar:out"), "none") << "it is out already";
}

TEST(RoomFacts, AreUnsaidForWhatThisKartHasNot) {
  SmallCase entered(rules());
  entered.kart.settings.erase("front-bar");
  EXPECT_EQ(value_of(given(entered), "room:front-bar:in"), "unsaid");
}

// --- what was said ------------------------------------------------------------------------------

TEST(TrackFact, IsTheTrackTheCrewGave) {
  EXPECT_EQ(value_of(given(SmallCase(rules(), {}, {}, "greasy")), "track"), "greasy");
  EXPECT_EQ(value_of(given(SmallCase(rules(), {}, {}, "unknown")), "track"), "unsaid");
}

TEST(OnlyEarly, ComesFromAComplaintOfTheFirstLaps) {
  EXPECT_EQ(value_of(given(SmallCase(rules(), {"push@entry=2,early"})), "only-early"), "yes");
  EXPECT_EQ(value_of(given(SmallCase(rules(), {"push@entry=2,early"})), "only-late"), "unsaid");
  EXPECT_EQ(value_of(given(SmallCase(rules(), {"push@entry=2,late"})), "only-late"), "yes");
}

TEST(OnlyEarly, DoesNotComeFromWhatWasDeniedNorFromAComplaintOfTheWholeRun) {
  EXPECT_EQ(value_of(given(SmallCase(rules(), {"push@entry=0,early"})), "only-early"), "unsaid");
  EXPECT_EQ(value_of(given(SmallCase(rules(), {"push@entry=2"})), "only-early"), "unsaid");
}

TEST(OnlyEarly, NeedsEveryComplaintToBeOfTheFirstLaps) {
  const auto of = [](std::vector<std::string> reports, const char* fact) {
    return value_of(given(SmallCase(rules(), std::move(reports))), fact);
  };
  EXPECT_EQ(of({"push@entry=2,early", "hop@mid=2"}, "only-early"), "unsaid");
  EXPECT_EQ(of({"hop@mid=2", "push@entry=2,early"}, "only-early"), "unsaid");
  EXPECT_EQ(of({"push@entry=2,early", "hop@mid=2,late"}, "only-early"), "unsaid");
  EXPECT_EQ(of({"push@entry=2,early", "hop@mid=2,late"}, "only-late"), "unsaid");
  EXPECT_EQ(of({"push@entry=2,early", "hop@mid=2,early"}, "only-early"), "yes");
  EXPECT_EQ(of({"push@entry=2,early", "hop@mid=0"}, "only-early"), "yes") << "hop is denied";
}

TEST(StatedFacts, OfTheCrewReplaceThoseOfTheKartFile) {
  SmallCase entered(rules(), {}, {"roll-structure=no"});
  entered.kart.facts = {{"roll-structure", "yes"}, {"turn-in", "brake"}};
  const std::vector<Fact> facts = given(entered);
  EXPECT_EQ(value_of(facts, "roll-structure"), "no");
  EXPECT_EQ(value_of(facts, "turn-in"), "brake") << "what the crew did not speak of stands";
  EXPECT_FALSE(entered.settled().facts.has("raised-mass", "yes"));
}

TEST(StatedFacts, OfTheKartFileAreHeard) {
  SmallCase entered(rules());
  entered.kart.facts = {{"roll-structure", "yes"}};
  EXPECT_TRUE(entered.settled().facts.has("raised-mass", "yes"));
}

TEST(StatedFacts, ReplaceWhatTheReportsGave) {
  const SmallCase entered(rules(), {"push@entry=2,early"}, {"only-early=no"});
  EXPECT_EQ(value_of(given(entered), "only-early"), "no");
}

// --- derivations --------------------------------------------------------------------------------

/// A pack with one axis, yes-or-no facts a to e, and derivations `id: when -> fact`.
Pack deriving(const std::vector<std::array<std::string, 3>>& derivations) {
  std::string text = axes_text({"response"}) + "facts:\n";
  for (const char* id : {"a", "b", "c", "d", "e"}) {
    text += fmt::format("  - {{fact: {}, label: {}, values: [yes, no]}}\n", id, id);
  }
  text += "derive:\n";
  for (const auto& [id, when, then] : derivations) {
    text += fmt::format("  - {{id: {}, when: {}, then: {}, {}}}\n", id, when, then, kRuleTail);
  }
  return pack_of({text});
}

const Fact* find(const Facts& facts, std::string_view text) {
  const auto found = std::find_if(facts.all.begin(), facts.all.end(),
                                  [&](const Fact& fact) { return fact.text() == text; });
  return found == facts.all.end() ? nullptr : &*found;
}

TEST(DerivedFact, KeepsItsRuleAndWhatTheRuleStoodOn) {
  const Pack pack = deriving({{"b-from-a", "{fact: a}", "{b: yes}"},
                              {"c-from-b", "{fact: b, not: {fact: {d: [yes, no]}}}", "{c: no}"}});
  const SmallCase entered(pack, {}, {"a=yes"});
  const Situation situation = entered.settled();
  const Fact* b = find(situation.facts, "b:yes");
  ASSERT_NE(b, nullptr);
  EXPECT_EQ(b->rule, "b-from-a");
  EXPECT_THAT(b->premises, ElementsAre("a:yes"));
  const Fact* c = find(situation.facts, "c:no");
  ASSERT_NE(c, nullptr);
  EXPECT_EQ(c->rule, "c-from-b");
  EXPECT_THAT(c->premises, UnorderedElementsAre("b:yes", "not d:no", "not d:yes"));
  EXPECT_EQ(find(situation.facts, "a:yes")->rule, "crew");
}

TEST(DerivedFact, FollowsFromAnyOneAlternative) {
  const Pack pack = deriving({{"e-from-some", "{any: [{fact: a}, {fact: {b: no}}]}", "{e: yes}"}});
  EXPECT_TRUE(SmallCase(pack, {}, {"a=yes"}).settled().facts.has("e", "yes"));
  EXPECT_TRUE(SmallCase(pack, {}, {"b=no"}).settled().facts.has("e", "yes"));
  EXPECT_FALSE(SmallCase(pack, {}, {"b=yes"}).settled().facts.has("e", "yes"));
}

TEST(DerivedFact, UnderADeniedAllNeedsOnlyOnePartToFail) {
  const Pack pack =
      deriving({{"e-unless-both", "{not: {all: [{fact: a}, {fact: b}]}}", "{e: yes}"}});
  EXPECT_TRUE(SmallCase(pack, {}, {"a=yes"}).settled().facts.has("e", "yes"));
  EXPECT_FALSE(SmallCase(pack, {}, {"a=yes", "b=yes"}).settled().facts.has("e", "yes"));
}

/// The built-in rules with one derivation, of a knock, from a test that is not on facts.
Pack knock_from(Test test) {
  Pack pack = rules();
  DeriveRule rule;
  rule.id = "told";
  rule.when.op = Condition::Op::test;
  rule.when.test = std::move(test);
  rule.fact = "hit";
  rule.value = "yes";
  pack.derives = {rule};
  return pack;
}

bool knocked(const Pack& pack, double front_share = 0.42) {
  SmallCase entered(pack, {"hop@mid=2"});
  entered.kart.measures["front-share"] = front_share;
  return entered.settled().facts.has("hit", "yes");
}

TEST(DerivedFact, MayStandOnReportsMeasurementsAndSettings) {
  EXPECT_TRUE(knocked(knock_from(ReportTest{"hop", Phase::mid, 2})));
  EXPECT_FALSE(knocked(knock_from(ReportTest{"hop", Phase::mid, 3})));
  EXPECT_FALSE(knocked(knock_from(MeasureTest{.measure = "front-share"})));
  EXPECT_TRUE(knocked(knock_from(MeasureTest{.measure = "front-share"}), 0.45));
  EXPECT_TRUE(knocked(knock_from(SettingTest{.adjustment = "front-bar", .positions = {"out"}})));
  EXPECT_FALSE(knocked(knock_from(SettingTest{.adjustment = "front-bar", .positions = {"in"}})));
}

TEST(DerivedFact, IsTheSameWhateverOrderTheDerivationsStandIn) {
  std::vector<std::array<std::string, 3>> lines{{"one", "{fact: a}", "{b: yes}"},
                                                {"two", "{fact: b}", "{c: yes}"},
                                                {"three", "{not: {fact: c}}", "{d: yes}"},
                                                {"four", "{fact: a}", "{c: yes}"},
                                                {"five", "{not: {fact: d}}", "{e: yes}"}};
  std::sort(lines.begin(), lines.end());
  const auto told = [&] {
    const Pack pack = deriving(lines);
    const SmallCase entered(pack, {}, {"a=yes"});
    std::vector<std::string> texts;
    for (const Fact& fact : entered.settled().facts.all) texts.push_back(fact.text() + fact.rule);
    return texts;
  };
  const std::vector<std::string> first = told();
  EXPECT_THAT(first, testing::Contains("e:yesfive"));
  while (std::next_permutation(lines.begin(), lines.end())) ASSERT_EQ(told(), first);
}

TEST(DerivedFact, ThatDependsOnItsOwnAbsenceIsRefusedWithTheCycle) {
  const Pack pack = deriving({{"b-without-c", "{fact: a, not: {fact: c}}", "{b: yes}"},
                              {"c-from-d", "{fact: d}", "{c: yes}"},
                              {"d-from-b", "{fact: b}", "{d: yes}"}});
  const SmallCase entered(pack);
  try {
    entered.settled();
    FAIL() << "the cycle was not seen";
  } catch (const InputError& error) {
    ASSERT_EQ(error.found().size(), 1U);
    const Diagnostic& found = error.found().front();
    EXPECT_EQ(found.code, Code::negation_cycle);
    EXPECT_THAT(found.message, HasSubstr("c:yes -> b:yes -> d:yes -> c:yes"));
    EXPECT_EQ(found.span.line, pack.derives.front().source.line) << "where the `not` stands";
  }
}

TEST(DerivedFact, OfABrokenCycleIsSettled) {
  const Pack pack = deriving({{"b-without-c", "{fact: a, not: {fact: c}}", "{b: yes}"},
                              {"d-from-b", "{fact: b}", "{d: yes}"}});
  EXPECT_TRUE(SmallCase(pack, {}, {"a=yes"}).settled().facts.has("d", "yes"));
  EXPECT_THAT(SmallCase(pack).settled().facts.all, IsEmpty());
}

}  // namespace
}  // namespace kartwright
