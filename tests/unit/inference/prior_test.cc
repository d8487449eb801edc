// What is believed before a word is said, and correlations that cannot be.

#include <algorithm>
#include <set>

#include <gtest/gtest.h>

#include "engine/inference/belief.h"
#include "engine/knowledge/built_in.h"
#include "tests/support/kart_pack.h"
#include "tests/support/matrices.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

std::vector<Diagnostic> refused(const std::string& own) {
  const Pack pack = small_pack_with(own);
  return found_by([&] { make_prior(pack); });
}

TEST(MakePrior, OfTheRulesThatComeWithTheProgramIsPositiveDefinite) {
  const Pack pack = built_in_pack();
  const Prior prior = make_prior(pack);
  EXPECT_EQ(prior.mean, Eigen::VectorXd::Zero(8));
  EXPECT_EQ(prior.covariance, prior.covariance.transpose());
  EXPECT_GT(least_eigenvalue(prior.covariance), 0.1);
}

TEST(MakePrior, HoldsSpreadsAndCorrelationsOfTheRules) {
  const Pack pack = small_pack_with("");
  const Prior prior = make_prior(pack);
  const double grip = 1.2;
  EXPECT_NEAR(prior.covariance(0, 0), grip * grip, 1e-12);        // front-grip.entry
  EXPECT_NEAR(prior.covariance(0, 1), 0.6 * grip * grip, 1e-12);  // with its own middle
  EXPECT_NEAR(prior.covariance(0, 6), 0.4 * grip, 1e-12);         // with response, spread 1
  EXPECT_EQ(prior.covariance(0, 3), 0.0);                         // with rear-grip.entry: not said
}

TEST(MakePrior, OfTwoCorrelationsOfOnePairTheCrewsCounts) {
  const Pack pack =
      small_pack_with("correlations: [{a: front-grip.entry, b: front-grip.mid, value: 0.1}]");
  EXPECT_NEAR(make_prior(pack).covariance(0, 1), 0.1 * 1.2 * 1.2, 1e-12);
}

void expect_the_three_of_rear_grip(const std::vector<Diagnostic>& found) {
  ASSERT_EQ(found.size(), 3U) << told(found);
  for (const Diagnostic& each : found) {
    EXPECT_EQ(each.code, Code::not_positive_definite);
    EXPECT_EQ(each.file, "own.yaml");
    EXPECT_NE(each.message.find("rear-grip."), std::string::npos);
  }
  EXPECT_EQ(found[0].span.line, 2);
  EXPECT_NE(found[2].message.find("rear-grip.mid with rear-grip.exit"), std::string::npos);
  EXPECT_EQ(found[2].span.line, 4);
}

std::string rear_grip(const std::string& with_entry, const std::string& mid_with_exit) {
  return "correlations:\n"
         "  - {a: rear-grip.entry, b: rear-grip.mid, value: " +
         with_entry +
         "}\n"
         "  - {a: rear-grip.entry, b: rear-grip.exit, value: " +
         with_entry +
         "}\n"
         "  - {a: rear-grip.mid, b: rear-grip.exit, value: " +
         mid_with_exit + "}\n";
}

// Entry moves with mid and with exit, so those two cannot move against one another. Three equal
// correlations of r, one of them negative, can be where 1 - 3 r^2 - 2 r^3 > 0: up to r = 0.5.
TEST(MakePrior, TakesWhatCanJustBe) { EXPECT_TRUE(refused(rear_grip("0.49", "-0.49")).empty()); }

TEST(MakePrior, NamesEachCorrelationWithoutWhichTheOthersCouldBe) {
  expect_the_three_of_rear_grip(refused(rear_grip("0.51", "-0.51")));
}

TEST(MakePrior, WhereNoneIsGuiltyAloneNamesThoseAtFaultTogether) {
  expect_the_three_of_rear_grip(refused(rear_grip("0.8", "-0.8")));
}

TEST(MakePrior, DoesNotNameWhatIsInnocent) {
  const auto found = refused(
      "correlations:\n"
      "  - {a: front-grip.mid, b: response, value: -0.95}\n"
      "  - {a: rear-grip.mid, b: rear-grip.exit, value: 0.3}\n");
  ASSERT_FALSE(found.empty());
  for (const Diagnostic& each : found) {
    EXPECT_EQ(each.message.find("rear-grip"), std::string::npos) << told(found);
  }
  EXPECT_TRUE(std::any_of(found.begin(), found.end(), [](const Diagnostic& each) {
    return each.file == "own.yaml" && each.span.line == 2;
  })) << told(found);
}

}  // namespace
}  // namespace kartwright
