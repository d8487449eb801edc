// Odds as an exact sum of weights, against worked examples of Bayes' rule: each is told to the
// engine as a fault with one piece of evidence.

#include <cmath>

#include <gtest/gtest.h>

#include "engine/inference/fault_odds.h"

namespace kartwright {
namespace {

double decibans(double odds) { return 10.0 * std::log10(odds); }

/// The odds of the one fault once its sign is seen. The pack outlives them.
FaultOdds after_the_sign(const Pack& pack) {
  static const Kart kart;
  static const std::vector<Report> reports;
  return weigh_faults({.pack = pack,
                       .kart = kart,
                       .reports = reports,
                       .facts = {.all = {{"sign", "seen", "crew", {}}}}})
      .front();
}

/// A fault of this prior probability, with a sign that shows with probability `hit` where the fault
/// is there and `false_alarm` where it is not.
Pack one_fault(double prior, double hit, double false_alarm) {
  EvidenceRule sign;
  sign.id = "the-sign-was-seen";
  sign.when.op = Condition::Op::test;
  sign.when.test = FactTest{"sign", {"seen"}};
  sign.decibans = decibans(hit / false_alarm);
  Fault fault;
  fault.id = "a-fault";
  fault.prior = decibans(prior / (1.0 - prior));
  fault.evidence = {sign};
  Pack pack;
  pack.faults = {fault};
  return pack;
}

// The screening example of many textbooks, 1 %, 80 % and 9.6 %, answer 7.8 % (verified in a course
// handout, coursehero.com 8978092, and in copies of a well-known essay; the decibans are worked out
// from it).
TEST(PublishedScreening, OfOnePercentIsStillBelowOneInTwelve) {
  const Pack pack = one_fault(0.01, 0.80, 0.096);
  const FaultOdds odds = after_the_sign(pack);
  EXPECT_NEAR(odds.probability, 0.078, 0.0005);
  EXPECT_NEAR(odds.probability, 0.0776398, 1e-7);
  ASSERT_EQ(odds.because.size(), 2U);
  EXPECT_NEAR(odds.because[1].decibans, 9.208, 0.0005);
}

// Pearl and Mackenzie, The Book of Why: prior 1 in 700, 73 % and 12 %. P(positive) 12.1 % is
// verified in published reading notes; the posterior, under 1 %, is from memory.
TEST(PublishedScreening, OfOneInSevenHundredStaysUnderOnePercent) {
  const double prior = 1.0 / 700.0;
  const Pack pack = one_fault(prior, 0.73, 0.12);
  const FaultOdds odds = after_the_sign(pack);
  EXPECT_LT(odds.probability, 0.01);
  EXPECT_NEAR(odds.probability, 0.00863, 0.000005);
  // The long way round: P(positive) as printed, and Bayes' rule with it.
  const double positive = prior * 0.73 + (1.0 - prior) * 0.12;
  EXPECT_NEAR(positive, 0.121, 0.0005);
  EXPECT_NEAR(odds.probability, prior * 0.73 / positive, 1e-12);
}

// Good, Probability and the Weighing of Evidence (1950; from memory): ten decibans are odds of ten,
// and weights of independent evidence add.
TEST(PublishedDecibans, AddAndTenOfThemAreOddsOfTen) {
  EXPECT_NEAR(probability_of(10.0), 10.0 / 11.0, 1e-15);
  EXPECT_NEAR(probability_of(20.0), 100.0 / 101.0, 1e-15);
  EXPECT_NEAR(decibans(2.0), 3.01, 0.005);
  EXPECT_NEAR(probability_of(decibans(2.0) + decibans(3.0)), 6.0 / 7.0, 1e-15);
}

}  // namespace
}  // namespace kartwright
