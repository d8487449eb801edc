// What a rule asks of what was entered: the ways in which it would fire, walked back through the
// rules that conclude what it looks at.

#include "engine/inference/requirement.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

using testing::Each;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

class WaysToFire : public testing::Test {
 protected:
  using Op = Condition::Op;
  static Condition says(const char* fact, const char* value = "yes") {
    return {.op = Op::test, .test = FactTest{fact, {value}}};
  }
  static Condition hop() { return {.op = Op::test, .test = ReportTest{"hop", Phase::mid, 2}}; }
  static Condition all(std::vector<Condition> parts) {
    return {.op = Op::all, .parts = std::move(parts)};
  }
  static Condition any(std::vector<Condition> parts) {
    return {.op = Op::any, .parts = std::move(parts)};
  }
  static Condition never(Condition part) { return {.op = Op::negated, .parts = {std::move(part)}}; }

  /// Concludes a fact of the pack from a condition.
  void derive(const char* fact, Condition when) {
    DeriveRule& rule = pack_.derives.emplace_back();
    rule.id = "so-" + std::to_string(pack_.derives.size());
    rule.fact = fact;
    rule.value = "yes";
    rule.when = std::move(when);
  }

  /// "hit", or "not hit" where it must not be; "(via)" behind it; `+` before what is met.
  static std::string words(const Requirement& one) {
    std::string out = one.met ? "+" : "";
    if (!one.wanted) out += "not ";
    if (const auto* fact = std::get_if<FactTest>(&one.ask)) out += fact->fact;
    if (const auto* report = std::get_if<ReportTest>(&one.ask)) out += report->symptom;
    if (const auto* read = std::get_if<ReadTest>(&one.ask)) out += "reads " + read->symptom;
    if (const auto* fitted = std::get_if<FittedTest>(&one.ask)) out += "has " + fitted->adjustment;
    for (const std::string& rule : one.through) out += " (" + rule + ")";
    return out + (one.silences.empty() ? "" : " [" + one.silences + "]");
  }
  std::vector<std::vector<std::string>> ways(const RuleRef& rule, const SmallCase& entered) const {
    std::vector<std::vector<std::string>> out;
    for (const Requirements& way : ways_to_fire(rule, entered.settled())) {
      out.emplace_back();
      for (const Requirement& one : way) out.back().push_back(words(one));
    }
    return out;
  }
  std::vector<std::vector<std::string>> ways(const Condition& when,
                                             std::vector<std::string> reports = {},
                                             std::vector<std::string> facts = {}) const {
    static const Rule rule{};
    return ways({.rule = &rule, .kind = RuleKind::evidence, .when = &when},
                SmallCase(pack_, std::move(reports), std::move(facts)));
  }

  WaysToFire() { pack_.derives.clear(); }
  Pack pack_ = rules();
};

TEST_F(WaysToFire, OfAllAreOneAndOfAnyAreEach) {
  EXPECT_THAT(ways(all({says("hit"), hop()})), ElementsAre(ElementsAre("hit", "hop")));
  EXPECT_THAT(ways(any({says("hit"), hop()})), ElementsAre(ElementsAre("hit"), ElementsAre("hop")));
  EXPECT_THAT(ways(never(all({says("hit"), hop()}))),
              ElementsAre(ElementsAre("+not hit"), ElementsAre("+not hop")));
  EXPECT_THAT(ways(never(any({says("hit"), hop()}))),
              ElementsAre(ElementsAre("+not hit", "+not hop")));
  EXPECT_THAT(ways(never(never(says("hit")))), ElementsAre(ElementsAre("hit")));
  EXPECT_THAT(ways(Condition{}), ElementsAre(IsEmpty()));
  EXPECT_THAT(ways(never(Condition{})), IsEmpty());
}

TEST_F(WaysToFire, StandNearestFirst) {
  const Condition either = any({all({says("hit"), says("sudden")}), says("blisters"), hop()});
  EXPECT_THAT(ways(either, {"hop@mid=2"}), ElementsAre(ElementsAre("+hop"), ElementsAre("blisters"),
                                                       ElementsAre("hit", "sudden")));
  EXPECT_THAT(ways(either, {}, {"hit=yes", "sudden=yes"}).front(), ElementsAre("+hit", "+sudden"));
}

TEST_F(WaysToFire, AreSixtyFourAtMostAndThoseTheNearest) {
  // Seven choices of two are 128 ways.
  std::vector<Condition> choices;
  for (int i = 0; i < 7; ++i) choices.push_back(any({says("sudden"), says("hit")}));
  const auto found = ways(all(choices), {}, {"hit=yes"});
  ASSERT_THAT(found, SizeIs(64));
  EXPECT_THAT(found.front(), Each("+hit")) << "though it came last";
  EXPECT_THAT(found.front(), SizeIs(7));
  choices.pop_back();
  EXPECT_THAT(ways(all(choices)), SizeIs(64));
  choices.pop_back();
  EXPECT_THAT(ways(all(choices)), SizeIs(32));
}

TEST_F(WaysToFire, GoBackThroughTheRulesThatConclude) {
  derive("blisters", says("sudden"));
  derive("sudden", hop());
  EXPECT_THAT(ways(says("blisters")),
              ElementsAre(ElementsAre("blisters"), ElementsAre("sudden (so-1)"),
                          ElementsAre("hop (so-1) (so-2)")));
  EXPECT_THAT(ways(says("blisters", "no")), ElementsAre(ElementsAre("blisters")))
      << "nothing concludes that";
  EXPECT_THAT(
      ways(never(says("blisters")), {"hop@mid=2"}),
      ElementsAre(ElementsAre("+not blisters", "+not sudden (so-1)", "not hop (so-1) (so-2)")));
}

TEST_F(WaysToFire, OfWhatNobodyEntersAreOnlyThroughRules) {
  const auto fact = std::find_if(pack_.facts.begin(), pack_.facts.end(),
                                 [](const FactDef& each) { return each.id == "blisters"; });
  fact->entered = false;
  EXPECT_THAT(ways(says("blisters")), IsEmpty());
  derive("blisters", hop());
  EXPECT_THAT(ways(says("blisters")), ElementsAre(ElementsAre("hop (so-1)")));
  EXPECT_THAT(ways(never(says("blisters"))),
              ElementsAre(ElementsAre("+not blisters", "+not hop (so-1)")));
}

TEST_F(WaysToFire, DoNotLetARuleHoldItselfUp) {
  derive("blisters", says("sudden"));
  derive("sudden", says("blisters"));
  EXPECT_THAT(ways(says("blisters")),
              ElementsAre(ElementsAre("blisters"), ElementsAre("sudden (so-1)"),
                          ElementsAre("blisters (so-1) (so-2)")));
}

TEST_F(WaysToFire, LookAtWhatWasEnteredAndNotAtWhatWasConcluded) {
  derive("blisters", hop());
  EXPECT_THAT(ways(says("blisters"), {"hop@mid=3"}),
              ElementsAre(ElementsAre("+hop (so-1)"), ElementsAre("blisters")));
  EXPECT_THAT(ways(says("blisters"), {}, {"blisters=yes"}).front(), ElementsAre("+blisters"));
}

TEST_F(WaysToFire, OfASymptomAreThatItReads) {
  const Symptom& push = *pack_.symptom("push");
  const RuleRef rule{.rule = &*push.reading, .kind = RuleKind::symptom, .symptom = &push};
  const auto found = [&](std::vector<std::string> reports) {
    return ways(rule, SmallCase(pack_, std::move(reports)));
  };
  EXPECT_THAT(found({}), ElementsAre(ElementsAre("reads push")));
  EXPECT_THAT(found({"hop@mid=2"}), ElementsAre(ElementsAre("reads push")));
  EXPECT_THAT(found({"hop@mid=2", "push@mid=1"}), ElementsAre(ElementsAre("+reads push")));
  EXPECT_THAT(found({"push@mid=0"}), ElementsAre(ElementsAre("+reads push"))) << "a denial reads";
  EXPECT_THAT(found({"push@straight=2"}), ElementsAre(ElementsAre("reads push")));
}

/// An adjustment of three rules: one without a condition, and two that take cells of it.
class WaysOfAnEffect : public WaysToFire {
 protected:
  WaysOfAnEffect() {
    const auto found = std::find_if(pack_.adjustments.begin(), pack_.adjustments.end(),
                                    [](const Adjustment& each) { return each.id == "rear-width"; });
    found->effects.clear();
    add(*found, "plain", {}, {0, 1});
    add(*found, "when-hit", says("hit"), {1});
    add(*found, "when-sudden", says("sudden"), {1, 2});
    width_ = &*found;
  }
  static void add(Adjustment& adjustment, const char* id, Condition when,
                  const std::vector<std::size_t>& axes) {
    EffectRule& rule = adjustment.effects.emplace_back();
    rule.id = id;
    rule.when = std::move(when);
    for (const std::size_t axis : axes) rule.cells.push_back({.axis = axis, .mean = 1.0});
  }
  RuleRef rule(std::size_t number) const {
    const EffectRule& effect = width_->effects.at(number);
    return {.rule = &effect, .kind = RuleKind::effect, .when = &effect.when, .adjustment = width_};
  }
  const Adjustment* width_ = nullptr;
};

TEST_F(WaysOfAnEffect, NeedTheAdjustmentAndTheirCondition) {
  EXPECT_THAT(ways(rule(1), SmallCase(pack_)), ElementsAre(ElementsAre("+has rear-width", "hit")));
  SmallCase without(pack_);
  without.kart.settings.erase("rear-width");
  EXPECT_THAT(ways(rule(1), without), ElementsAre(ElementsAre("has rear-width", "hit")));
}

TEST_F(WaysOfAnEffect, WithoutAConditionNeedACellThatNobodyTakes) {
  EXPECT_THAT(ways(rule(0), SmallCase(pack_, {}, {"hit=yes"})),
              ElementsAre(ElementsAre("+has rear-width"),
                          ElementsAre("+has rear-width", "not hit [when-hit]",
                                      "+not sudden [when-sudden]")))
      << "nobody takes the first cell; the second is taken by either";
}

}  // namespace
}  // namespace kartwright
