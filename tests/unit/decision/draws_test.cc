// How often each move comes first when what is believed is drawn.

#include "engine/decision/draws.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <gtest/gtest.h>

#include "tests/support/pit.h"

namespace kartwright {
namespace {

Eigen::VectorXd pair(double a, double b) { return Eigen::Vector2d(a, b); }
Eigen::MatrixXd square(double a, double b, double both = 0.0) {
  return (Eigen::MatrixXd(2, 2) << a, both, both, b).finished();
}

/// Two axes with weights 1 and 0.5.
Stakes weighed_stakes(double a, double b) {
  return {.mean = pair(a, b), .weights = pair(1.0, 0.5)};
}

double four_errors(double share, int draws) {
  return 4.0 * std::sqrt(share * (1.0 - share) / draws);
}

double sum(const Draws& draws) {
  return std::accumulate(draws.first.begin(), draws.first.end(), draws.nothing);
}

TEST(Draws, WithNothingUncertainGiveTheLeaderAll) {
  const Effect strong{.per_step = pair(-1.0, 0.0), .covariance = square(0, 0)};
  const Effect weak{.per_step = pair(-0.5, 0.0), .covariance = square(0, 0)};
  const Draws draws =
      draw(weighed_stakes(2.0, 0.0), square(0, 0), {{1.0, &weak, -1.0}, {1.0, &strong, -1.0}});
  EXPECT_EQ(draws.first, (std::vector<double>{0.0, 1.0}));
  EXPECT_EQ(draws.nothing, 0.0);
  EXPECT_FALSE(coin_toss(draws));
}

TEST(Draws, LeaveTheKartAloneWhereEveryMoveCostsMoreThanItMends) {
  const Effect weak{.per_step = pair(-0.1, 0.0), .covariance = square(0, 0)};
  const Draws draws = draw(weighed_stakes(2.0, 0.0), square(0, 0), {{1.0, &weak, -30.0}});
  EXPECT_EQ(draws.nothing, 1.0);
}

TEST(Draws, WeighWhatAMoveMendsInHundredthsOfTheHandlingError) {
  // From 2 notches to 1 takes three quarters of the error away, to -1 as much by two steps.
  const Effect sure{.per_step = pair(-1.0, 0.0), .covariance = square(0, 0)};
  const auto nothing_beats = [&](double steps, double fixed) {
    return draw(weighed_stakes(2.0, 0.0), square(0, 0), {{steps, &sure, fixed}}).nothing == 1.0;
  };
  EXPECT_FALSE(nothing_beats(1.0, -74.9));
  EXPECT_FALSE(nothing_beats(1.0, -75.0)) << "of equals the move comes first";
  EXPECT_TRUE(nothing_beats(1.0, -75.1));
  EXPECT_FALSE(nothing_beats(3.0, -74.9));
  EXPECT_TRUE(nothing_beats(3.0, -75.1));
  EXPECT_TRUE(nothing_beats(4.0, -0.1)) << "as far off on the other side";
}

TEST(Draws, OfEqualMovesPutTheEarlierFirst) {
  const Effect sure{.per_step = pair(-1.0, 0.0), .covariance = square(0, 0)};
  const Draws draws =
      draw(weighed_stakes(2.0, 0.0), square(0, 0), {{1.0, &sure, -5.0}, {1.0, &sure, -5.0}});
  EXPECT_EQ(draws.first, (std::vector<double>{1.0, 0.0}));
}

TEST(Draws, WhereNothingIsWrongGoByWhatNoDrawChanges) {
  const Effect strong{.per_step = pair(-3.0, 0.0), .covariance = square(0, 0)};
  const auto led = [&](double fixed) {
    return draw(weighed_stakes(0.0, 0.0), square(0, 0), {{1.0, &strong, fixed}}).first[0];
  };
  EXPECT_EQ(led(0.5), 1.0);
  EXPECT_EQ(led(-0.5), 0.0);
}

TEST(Draws, AreTwoThousandFromTheFirstSeedWhereNobodySaysOtherwise) {
  const Effect one{.per_step = pair(-1.0, 0.2), .covariance = square(0.2, 0.1)};
  const Stakes stakes = weighed_stakes(1.0, 0.5);
  const std::vector<Contender> moves{{1.0, &one, -20.0}};
  const Draws usual = draw(stakes, square(0.5, 0.3), moves);
  EXPECT_EQ(usual.draws, 2000);
  EXPECT_EQ(usual.first, draw(stakes, square(0.5, 0.3), moves, {.draws = 2000, .seed = 1}).first);
}

TEST(Contenders, TakeTheEffectOfTheirAdjustmentAndThePointsThatStayTheSame) {
  const std::vector<Setting> settings(3);
  std::vector<Way> ways;
  for (const Setting& setting : settings) {
    ways.push_back({.setting = &setting, .direction = 0, .options = {}});
    ways.push_back({.setting = &setting, .direction = 1, .options = {}});
  }
  const std::vector<Effect> effects(3);
  const Candidate first{
      .option = {.setting = &settings[2], .direction = 1, .steps = -2.0},
      .parts = {.effect = 40.0, .room = -8.0, .effort = -4.0, .last_notch = -1.0}};
  const Candidate comfort{.option = {.setting = &settings[1], .steps = 1.0}, .only_comfort = true};
  const Candidate against{.option = {.setting = &settings[0]}, .against_complaint = true};
  const auto contenders = contenders_of({first, comfort, against}, ways, effects);
  ASSERT_EQ(contenders.size(), 3U);
  EXPECT_EQ(contenders[0].effect, &effects[2]);
  EXPECT_EQ(contenders[0].steps, -2.0);
  EXPECT_EQ(contenders[0].fixed, -13.0);
  EXPECT_TRUE(contenders[0].may_lead);
  EXPECT_EQ(contenders[1].effect, &effects[1]);
  EXPECT_FALSE(contenders[1].may_lead);
  EXPECT_EQ(contenders[2].effect, &effects[0]);
  EXPECT_FALSE(contenders[2].may_lead);
}

TEST(Draws, NeverPutFirstWhatMayNotLead) {
  const Effect strong{.per_step = pair(-1.0, 0.0), .covariance = square(0, 0)};
  const Draws draws = draw(weighed_stakes(2.0, 0.0), square(0.1, 0), {{1.0, &strong, 0.0, false}});
  EXPECT_EQ(draws.nothing, 1.0);
}

TEST(Draws, ShareEvenlyBetweenTwoOfAKind) {
  const Effect one{.per_step = pair(-1.0, 0.2), .covariance = square(0.2, 0.1)};
  const Effect other = one;
  const int n = 20000;
  const Draws draws = draw(weighed_stakes(2.0, 0.5), square(0.5, 0.3, 0.1),
                           {{1.0, &one, 500.0}, {1.0, &other, 500.0}}, {.draws = n});
  EXPECT_NEAR(draws.first[0], 0.5, four_errors(0.5, n));
  EXPECT_NEAR(sum(draws), 1.0, 1e-12);
}

TEST(Draws, OfOneAdjustmentUseOneDrawOfItsEffect) {
  // The two steps are one as good as the other wherever the effect is zero; drawn apart, a step
  // each way would both win now and then by luck of their own.
  const Effect unknown{.per_step = pair(0.0, 0.0), .covariance = square(1.0, 0.0)};
  const Draws draws = draw(weighed_stakes(2.0, 0.0), square(0, 0),
                           {{0.001, &unknown, 0.0}, {-0.001, &unknown, 0.0}}, {.draws = 4000});
  EXPECT_NEAR(draws.first[0] + draws.first[1], 1.0, 1e-3) << "one of them always helps";
}

TEST(Draws, AreTheSameForTheSameSeed) {
  const Effect one{.per_step = pair(-1.0, 0.2), .covariance = square(0.2, 0.1)};
  const Effect other{.per_step = pair(-0.9, 0.1), .covariance = square(0.1, 0.0)};
  const std::vector<Contender> moves{{1.0, &one, 0.0}, {1.0, &other, 0.0}};
  const Stakes stakes = weighed_stakes(2.0, 0.5);
  const Draws a = draw(stakes, square(0.5, 0.3), moves, {.seed = 7});
  const Draws b = draw(stakes, square(0.5, 0.3), moves, {.seed = 7});
  const Draws c = draw(stakes, square(0.5, 0.3), moves, {.seed = 8});
  EXPECT_EQ(a.first, b.first);
  EXPECT_EQ(a.nothing, b.nothing);
  EXPECT_NE(a.first, c.first);
}

TEST(Draws, AgreeWithTheClosedFormOfTwoLinearScores) {
  // With certain effects a score is linear in z: A - B = -100/J (2 z'W(a - b) + a'Wa - b'Wb), which
  // is Gaussian, so A comes first with the probability that it is above zero. Exact.
  const Stakes stakes = weighed_stakes(1.5, -0.8);
  const Eigen::MatrixXd covariance = square(0.6, 0.9, 0.3);
  const Effect a{.per_step = pair(-0.8, 0.1), .covariance = square(0, 0)};
  const Effect b{.per_step = pair(-0.2, 0.9), .covariance = square(0, 0)};
  const Eigen::VectorXd slope = -2.0 * stakes.weights.cwiseProduct(a.per_step - b.per_step);
  const double mean = slope.dot(stakes.mean) - stakes.weights.dot(a.per_step.cwiseAbs2()) +
                      stakes.weights.dot(b.per_step.cwiseAbs2());
  const double sd = std::sqrt(slope.dot(covariance * slope));
  const double exact = gsl_cdf_ugaussian_P(mean / sd);
  ASSERT_GT(exact, 0.1);
  ASSERT_LT(exact, 0.9);
  const int n = 40000;
  // So many points that doing nothing never comes first.
  const Draws draws =
      draw(stakes, covariance, {{1.0, &a, 1e5}, {1.0, &b, 1e5}}, {.draws = n, .seed = 3});
  EXPECT_NEAR(draws.first[0], exact, four_errors(exact, n));
}

/// Shares by plain loops, the root of a two by two matrix written out, another library's numbers.
std::vector<double> by_plain_loops(const Stakes& stakes, const Eigen::MatrixXd& covariance,
                                   const std::vector<Contender>& moves, int n) {
  gsl_rng* random = gsl_rng_alloc(gsl_rng_mt19937);
  const auto drawn = [&](const Eigen::VectorXd& mean, const Eigen::MatrixXd& c) {
    const double p = gsl_ran_ugaussian(random), q = gsl_ran_ugaussian(random);
    const double root = std::sqrt(c(0, 0));
    const double slope = root > 0.0 ? c(0, 1) / root : 0.0;
    return std::array<double, 2>{mean[0] + root * p,
                                 mean[1] + slope * p + std::sqrt(c(1, 1) - slope * slope) * q};
  };
  const auto loss = [&](double x, double y) {
    return stakes.weights[0] * x * x + stakes.weights[1] * y * y;
  };
  std::vector<double> shares(moves.size() + 1, 0.0);
  for (int i = 0; i < n; ++i) {
    const auto z = drawn(stakes.mean, covariance);
    std::size_t best = moves.size();
    double best_score = 0.0;
    for (std::size_t k = 0; k < moves.size(); ++k) {
      const auto b = drawn(moves[k].effect->per_step, moves[k].effect->covariance);
      const double u = moves[k].steps;
      const double score = 100.0 * (loss(z[0], z[1]) - loss(z[0] + u * b[0], z[1] + u * b[1])) /
                               loss(stakes.mean[0], stakes.mean[1]) +
                           moves[k].fixed;
      if (score > best_score) {
        best = k;
        best_score = score;
      }
    }
    shares[best] += 1.0 / n;
  }
  gsl_rng_free(random);
  return shares;
}

TEST(Draws, AgreeWithPlainLoops) {
  const Effect a{.per_step = pair(-0.8, 0.1), .covariance = square(0.3, 0.2, 0.1)};
  const Effect b{.per_step = pair(-0.3, 0.4), .covariance = square(0.2, 0.4, -0.1)};
  const Effect c{.per_step = pair(0.5, -0.6), .covariance = square(0.1, 0.0)};
  const std::vector<Contender> moves{{1.0, &a, -5.0}, {2.0, &b, -12.0}, {-1.0, &c, -3.0}};
  const Stakes stakes = weighed_stakes(1.2, -0.9);
  const Eigen::MatrixXd covariance = square(0.7, 0.5, -0.2);
  const int n = 40000;
  const std::vector<double> plain = by_plain_loops(stakes, covariance, moves, n);
  const Draws draws = draw(stakes, covariance, moves, {.draws = n, .seed = 5});
  for (std::size_t i = 0; i < moves.size(); ++i) {
    EXPECT_GT(plain[i], 0.05);
    EXPECT_NEAR(draws.first[i], plain[i], std::sqrt(2.0) * four_errors(plain[i], n)) << i;
  }
  EXPECT_NEAR(draws.nothing, plain.back(), std::sqrt(2.0) * four_errors(plain.back(), n));
}

TEST(Draws, TakeACovarianceOfLessThanFullRank) {
  // The mixture over a fact's two values: both axes move together.
  const Effect tied{.per_step = pair(-0.5, -0.5), .covariance = square(0.25, 0.25, 0.25)};
  const Draws draws = draw(weighed_stakes(1.0, 1.0), square(0.1, 0.1), {{1.0, &tied, 0.0}});
  EXPECT_GT(draws.first[0], 0.5);
  EXPECT_NEAR(sum(draws), 1.0, 1e-12);
}

TEST(Draws, OfTheBuiltInRulesSumToOne) {
  Pit pit{.track = "rubbered-in", .reports = {"push@entry=2", "hop@mid=2"}};
  const Advice advice = pit.answer();
  std::vector<Candidate> candidates;
  for (const Change& change : advice.changes) candidates.push_back(change.candidate);
  const Stakes stakes{.mean = advice.belief.mean, .weights = advice.weights};
  const Draws draws = draw(stakes, advice.belief.covariance,
                           contenders_of(candidates, advice.ways, advice.effects));
  EXPECT_EQ(draws.draws, 2000);
  EXPECT_NEAR(sum(draws), 1.0, 1e-9);
  EXPECT_GT(*std::max_element(draws.first.begin(), draws.first.end()), 0.1);
}

// --- a coin toss --------------------------------------------------------------------------------

TEST(CoinToss, IsWhenSamplingCannotTellTheFirstTwoApart) {
  EXPECT_TRUE(coin_toss({.first = {0.505, 0.495}, .nothing = 0.0, .draws = 2000}));
  EXPECT_FALSE(coin_toss({.first = {0.56, 0.44}, .nothing = 0.0, .draws = 2000}));
  EXPECT_TRUE(coin_toss({.first = {0.56, 0.44}, .nothing = 0.0, .draws = 100}));
}

TEST(CoinToss, IsWhenNoneHasHalfAndTheNextIsNear) {
  EXPECT_TRUE(coin_toss({.first = {0.40, 0.32, 0.2}, .nothing = 0.08, .draws = 100000}));
  EXPECT_FALSE(coin_toss({.first = {0.40, 0.25, 0.2}, .nothing = 0.15, .draws = 100000}));
}

// 0.06 apart, the error of the difference is sqrt(0.9964 / n): twice that is 0.0631 of 1000 draws
// and 0.0576 of 1200. 0.8 apart it is sqrt(0.36 / n): 0.849 of two draws, 0.693 of three.
TEST(CoinToss, EndsAtTwoErrorsOfTheDifference) {
  const auto tossed = [](double a, double b, int draws) {
    return coin_toss({.first = {a, b}, .nothing = 0.0, .draws = draws});
  };
  EXPECT_TRUE(tossed(0.53, 0.47, 1000));
  EXPECT_FALSE(tossed(0.53, 0.47, 1200));
  EXPECT_TRUE(tossed(0.9, 0.1, 2));
  EXPECT_FALSE(tossed(0.9, 0.1, 3));
}

TEST(CoinToss, EndsAtATenthApartAndAtAHalf) {
  const auto tossed = [](const std::vector<double>& first, double nothing) {
    return coin_toss({.first = first, .nothing = nothing, .draws = 1'000'000});
  };
  EXPECT_TRUE(tossed({0.2, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1}, 0.1));
  EXPECT_TRUE(tossed({0.49, 0.41}, 0.1));
  EXPECT_FALSE(tossed({0.5, 0.42}, 0.08));
}

TEST(CoinToss, IsBetweenAMoveAndDoingNothingToo) {
  EXPECT_TRUE(coin_toss({.first = {0.505}, .nothing = 0.495, .draws = 2000}));
}

TEST(CoinToss, IsNotWhereNobodyDrew) {
  EXPECT_FALSE(coin_toss({.first = {0.6, 0.4}, .nothing = 0.0, .draws = 0}));
  EXPECT_TRUE(coin_toss({.first = {0.6, 0.4}, .nothing = 0.0, .draws = 1}));
}

TEST(CoinToss, IsNotWhereDoingNothingIsSureToBeBest) {
  EXPECT_FALSE(coin_toss({.first = {}, .nothing = 1.0, .draws = 2000}));
}

}  // namespace
}  // namespace kartwright
