// Faults as odds: an exact sum of weights of evidence, looked at in the order that costs least.

#include "engine/inference/fault_odds.h"

#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::SizeIs;

std::vector<FaultOdds> weighed(const SmallCase& entered) { return weigh_faults(entered.settled()); }

FaultOdds odds_of(const SmallCase& entered, std::string_view fault) {
  for (const FaultOdds& odds : weighed(entered)) {
    if (odds.fault->id == fault) return odds;
  }
  ADD_FAILURE() << "no fault " << fault;
  return {};
}

std::vector<std::string> rules_of(const FaultOdds& odds) {
  std::vector<std::string> ids;
  for (const Weight& weight : odds.because) ids.emplace_back(weight.rule);
  return ids;
}

// --- the sum ------------------------------------------------------------------------------------

TEST(Probability, OfDecibansIsByTheOdds) {
  EXPECT_EQ(probability_of(0.0), 0.5);
  EXPECT_NEAR(probability_of(10.0), 10.0 / 11.0, 1e-15);
  EXPECT_NEAR(probability_of(-20.0), 1.0 / 101.0, 1e-15);
  EXPECT_NEAR(probability_of(3.0) + probability_of(-3.0), 1.0, 1e-15);
}

TEST(Odds, WithNoEvidenceAreThePrior) {
  const FaultOdds axle = odds_of(SmallCase(rules()), "bent-axle");
  EXPECT_EQ(axle.decibans, -17.0);
  EXPECT_FALSE(axle.evidence);
  EXPECT_THAT(rules_of(axle), ElementsAre("prior"));
}

TEST(Odds, AddTheWeightOfEverythingThatSpeaks) {
  const FaultOdds axle = odds_of(
      SmallCase(rules(), {"vibration=2"}, {"axle-spun=tight-loose", "hit=yes"}), "bent-axle");
  // prior -17, chain tight and loose as the axle turns +22, vibration +8, a knock +6
  EXPECT_THAT(axle.because, SizeIs(4));
  EXPECT_EQ(axle.decibans, 19.0);
  EXPECT_NEAR(axle.probability, 1.0 / (1.0 + std::pow(10.0, -1.9)), 1e-15);
  EXPECT_TRUE(axle.evidence);
}

TEST(Odds, AreTheSumOfTheirReasonsForEveryFault) {
  const SmallCase entered(
      rules(), {"vibration=2", "pulls=2", "bog@exit=2", "chain-noise=1", "drags=2", "hop@mid=0"},
      {"hit=yes", "sudden=yes", "collars=tight", "steering=play", "fuel=smell"}, "cold");
  const std::vector<FaultOdds> all = weighed(entered);
  ASSERT_THAT(all, SizeIs(rules().faults.size()));
  int spoken = 0;
  for (const FaultOdds& odds : all) {
    double sum = 0.0;
    for (const Weight& weight : odds.because) sum += weight.decibans;
    EXPECT_EQ(sum, odds.decibans) << odds.fault->id;
    EXPECT_EQ(odds.because.front().rule, "prior");
    EXPECT_EQ(odds.because.front().decibans, odds.fault->prior);
    EXPECT_NEAR(odds.probability, 1.0 / (1.0 + std::pow(10.0, -odds.decibans / 10.0)), 1e-15);
    spoken += static_cast<int>(odds.because.size()) - 1;
  }
  EXPECT_GT(spoken, 10);
}

TEST(CheckPassed, ClearsWithoutBeingEvidence) {
  const FaultOdds before = odds_of(SmallCase(rules(), {"vibration=2"}), "bent-axle");
  const FaultOdds after =
      odds_of(SmallCase(rules(), {"vibration=2"}, {"axle-spun=true"}), "bent-axle");
  EXPECT_EQ(after.decibans, before.decibans - 15.0);
  const FaultOdds cleared =
      odds_of(SmallCase(rules(), {}, {"collars=tight"}), "axle-free-to-slide");
  EXPECT_EQ(cleared.decibans, -15.0 - 20.0);
  EXPECT_FALSE(cleared.evidence) << "what speaks against a fault is no evidence for it";
}

TEST(CheckFailed, SettlesIt) {
  EXPECT_GT(odds_of(SmallCase(rules(), {}, {"fuel=wet"}), "fuel-leak").probability, 0.98);
  EXPECT_GT(odds_of(SmallCase(rules(), {}, {"welds=cracked"}), "cracked-frame").probability, 0.98);
}

// --- what to look at, and in which order --------------------------------------------------------

FaultOdds shown(double probability, bool evidence) {
  return {.probability = probability, .evidence = evidence};
}

TEST(WorthALook, NeedsLessWhereSomethingSpeaksForIt) {
  EXPECT_TRUE(worth_a_look(shown(0.05, true)));
  EXPECT_FALSE(worth_a_look(shown(0.0499, true)));
  EXPECT_TRUE(worth_a_look(shown(0.15, false)));
  EXPECT_FALSE(worth_a_look(shown(0.1499, false)));
}

TEST(WorthALook, IsNoFaultOfAKartNobodyComplainedOf) {
  for (const FaultOdds& odds : weighed(SmallCase(rules()))) {
    EXPECT_FALSE(worth_a_look(odds)) << odds.fault->id;
  }
}

/// Faults without evidence, of these decibans, losses and minutes.
Pack faults(const std::vector<std::tuple<std::string, double, double, double>>& all) {
  Pack pack;
  for (const auto& [id, prior, loss, minutes] : all) {
    Fault fault;
    fault.id = id;
    fault.prior = prior;
    fault.loss = loss;
    fault.minutes = minutes;
    pack.faults.push_back(fault);
  }
  return pack;
}

std::vector<std::string> order_of(const Pack& pack) {
  std::vector<std::string> ids;
  for (const FaultOdds& odds : weighed(SmallCase(pack))) ids.push_back(odds.fault->id);
  return ids;
}

TEST(LookOrder, IsByProbabilityTimesLossOverMinutes) {
  // 0.5 x 2 / 10 = 0.1; 0.5 x 2 / 4 = 0.25; 10/11 x 1 / 3 = 0.303
  EXPECT_THAT(order_of(faults({{"a", 0, 2, 10}, {"b", 0, 2, 4}, {"c", 10, 1, 3}})),
              ElementsAre("c", "b", "a"));
}

TEST(LookOrder, OfEqualWorthIsById) {
  EXPECT_THAT(order_of(faults({{"a", 0, 1, 2}, {"b", 0, 2, 4}, {"c", 0, 3, 6}})),
              ElementsAre("a", "b", "c"));
}

TEST(WorthALook, AreThoseOfAllThatAreInTheSameOrder) {
  const SmallCase entered(rules(), {"vibration=2", "pulls=1"}, {"hit=yes"}, "cold");
  std::vector<FaultOdds> expected = weighed(entered);
  std::erase_if(expected, [](const FaultOdds& odds) { return !worth_a_look(odds); });
  const std::vector<FaultOdds> found = faults_worth_a_look(entered.settled());
  ASSERT_EQ(found.size(), expected.size());
  ASSERT_GT(found.size(), 1U);
  for (std::size_t i = 0; i < found.size(); ++i) {
    EXPECT_EQ(found[i].fault, expected[i].fault);
    EXPECT_EQ(found[i].probability, expected[i].probability);
    EXPECT_EQ(rules_of(found[i]), rules_of(expected[i]));
  }
}

TEST(LookOrder, OfTheBuiltInFaultsNeverRises) {
  const std::vector<FaultOdds> all =
      weighed(SmallCase(rules(), {"vibration=2", "pulls=1"}, {"hit=yes"}, "cold"));
  for (std::size_t i = 1; i < all.size(); ++i) {
    EXPECT_GE(all[i - 1].worth_per_minute(), all[i].worth_per_minute()) << all[i].fault->id;
  }
}

}  // namespace
}  // namespace kartwright
