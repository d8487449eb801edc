// Why a rule does not fire, where facts are open: which of them it waits for, and how alternatives
// are put in order, thinned out and kept few.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/inference/near_miss.h"
#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

class SupposedFacts : public testing::Test {
 protected:
  using Op = Condition::Op;
  static Condition is(const char* fact, const char* value) {
    return {.op = Op::test, .test = FactTest{fact, {value}}};
  }
  static Condition all(std::vector<Condition> parts) {
    return {.op = Op::all, .parts = std::move(parts)};
  }
  static Condition any(std::vector<Condition> parts) {
    return {.op = Op::any, .parts = std::move(parts)};
  }
  static Condition never(Condition part) { return {.op = Op::negated, .parts = {std::move(part)}}; }

  static NearMiss why(const Condition& when, const SmallCase& entered) {
    static const Rule rule{};
    return why_not({.rule = &rule, .kind = RuleKind::evidence, .when = &when}, entered.settled());
  }
  static std::vector<std::string> open(const Condition& when, std::vector<std::string> facts = {}) {
    return why(when, SmallCase(rules(), {}, std::move(facts))).open;
  }
};

TEST_F(SupposedFacts, AreThoseWithAPriorThatNobodyStated) {
  const Condition brake = is("turn-in", "brake");
  EXPECT_THAT(open(brake), ElementsAre("turn-in"));
  EXPECT_THAT(open(brake, {"turn-in=throttle"}), IsEmpty());
  EXPECT_THAT(open(is("hit", "yes")), IsEmpty()) << "without a prior it is taken as not so";
  EXPECT_THAT(open(all({brake, is("front-tyres", "hotter")})),
              ElementsAre("front-tyres", "turn-in"));
}

TEST_F(SupposedFacts, AreNoneWhereNoValueOfThemWouldDo) {
  EXPECT_THAT(open(all({is("turn-in", "brake"), is("turn-in", "throttle")})), IsEmpty());
  EXPECT_THAT(open(all({is("turn-in", "brake"), is("hit", "yes")})), IsEmpty())
      << "the knock is missing whatever the driver does";
  EXPECT_THAT(open(all({is("turn-in", "brake"), is("hit", "yes")}), {"hit=yes"}),
              ElementsAre("turn-in"));
  // Only the last value of either makes it so.
  EXPECT_THAT(open(all({is("turn-in", "throttle"), is("front-tyres", "same")})),
              ElementsAre("front-tyres", "turn-in"));
  EXPECT_THAT(open(all({any({is("turn-in", "throttle"), is("front-tyres", "same")}),
                        never(is("turn-in", "throttle")), never(is("front-tyres", "same"))})),
              IsEmpty());
}

TEST_F(SupposedFacts, LeaveNothingSupposedBehind) {
  const SmallCase entered(rules());
  const Situation situation = entered.settled();
  const Condition when = all({is("turn-in", "brake"), is("hit", "yes")});
  const Rule rule{};
  const RuleRef ref{.rule = &rule, .kind = RuleKind::evidence, .when = &when};
  why_not(ref, situation);
  EXPECT_THAT(situation.supposed, IsEmpty());
}

TEST_F(SupposedFacts, AreNotAskedOfARuleThatFires) {
  const NearMiss miss =
      why(any({is("hit", "yes"), is("turn-in", "brake")}), SmallCase(rules(), {}, {"hit=yes"}));
  EXPECT_TRUE(miss.fires);
  EXPECT_THAT(miss.open, IsEmpty());
  EXPECT_THAT(miss.alternatives, IsEmpty());
}

// --- alternatives -------------------------------------------------------------------------------

TEST_F(SupposedFacts, EightAlternativesAreToldAndThoseTheNearest) {
  std::vector<Condition> ten;
  for (const char* const fact : {"one-corner", "opposite-ways", "inconsistent", "sudden",
                                 "overshoots", "revs-drop", "blisters", "hot-disc"}) {
    ten.push_back(all({is(fact, "yes"), is("cured-before", "no")}));
  }
  ten.push_back(is("hit", "yes"));
  ten.push_back({.op = Op::test, .test = ReportTest{"hop", Phase::mid, 3}});
  const NearMiss miss = why(any(ten), SmallCase(rules(), {"hop@mid=2"}, {"hit=no"}));
  ASSERT_THAT(miss.alternatives, SizeIs(8));
  EXPECT_EQ(miss.alternatives[0].distance(), 1.0) << "a grade of severity";
  EXPECT_EQ(miss.alternatives[1].distance(), 2.0) << "what was stated otherwise";
  for (std::size_t i = 2; i < 8; ++i) {
    EXPECT_THAT(miss.alternatives[i].lacks, SizeIs(2));
    EXPECT_EQ(miss.alternatives[i].distance(), 2.0);
  }
}

TEST_F(SupposedFacts, OfTheSameChangesOneAlternativeIsTold) {
  EXPECT_THAT(why(any({is("hit", "yes"), is("hit", "yes")}), SmallCase(rules())).alternatives,
              SizeIs(1));
  EXPECT_THAT(why(any({all({is("hit", "yes"), is("sudden", "yes")}),
                       all({is("sudden", "yes"), is("hit", "yes")})}),
                  SmallCase(rules()))
                  .alternatives,
              SizeIs(1))
      << "in whatever order they are named";
}

TEST_F(SupposedFacts, LacksStandNearestFirst) {
  const NearMiss miss =
      why(all({is("hit", "yes"), is("sudden", "yes")}), SmallCase(rules(), {}, {"hit=no"}));
  ASSERT_THAT(miss.alternatives, SizeIs(1));
  const std::vector<Lack>& lacks = miss.alternatives[0].lacks;
  ASSERT_THAT(lacks, SizeIs(2));
  EXPECT_EQ(std::get<FactTest>(lacks[0].asked.ask).fact, "sudden");
  EXPECT_EQ(std::get<FactTest>(lacks[1].asked.ask).fact, "hit");
}

}  // namespace
}  // namespace kartwright
