// The belief over axes on cases small enough for pencil and paper.

#include "engine/inference/belief.h"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/any.h"
#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

using testing::HasSubstr;

Reading reading(std::vector<double> row, double value, double sd) {
  Reading out{.rule = "a rule", .source = {}};
  out.row = Eigen::Map<Eigen::VectorXd>(row.data(), static_cast<Eigen::Index>(row.size()));
  out.value = value;
  out.sd = sd;
  return out;
}

/// One axis of variance `variance`.
Prior prior_of_one_axis(double variance, double mean = 0.0) {
  return {Eigen::VectorXd::Constant(1, mean), Eigen::MatrixXd::Constant(1, 1, variance)};
}

/// Two axes of variance 1 with a correlation.
Prior two_axes(double correlation) {
  Prior prior{Eigen::VectorXd::Zero(2), Eigen::MatrixXd::Identity(2, 2)};
  prior.covariance(0, 1) = prior.covariance(1, 0) = correlation;
  return prior;
}

// --- update -------------------------------------------------------------------------------------

TEST(Belief, WithNothingHeardIsThePrior) {
  const Belief belief = update(two_axes(0.6), {});
  EXPECT_EQ(belief.mean, Eigen::VectorXd::Zero(2));
  EXPECT_EQ(belief.covariance, two_axes(0.6).covariance);
  EXPECT_EQ(belief.shares.rows(), 2);
  EXPECT_EQ(belief.shares.cols(), 0);
}

TEST(Belief, OfOneReadingLiesBetweenThePriorAndTheReading) {
  // Variance 1.44 against 0.36: four fifths of the way, and a fifth of the variance is left.
  const Belief belief = update(prior_of_one_axis(1.44), {reading({1}, 2.0, 0.6)});
  EXPECT_NEAR(belief.mean[0], 1.6, 1e-12);
  EXPECT_NEAR(belief.covariance(0, 0), 0.288, 1e-12);
}

TEST(Belief, StartsAtThePriorsMean) {
  const Belief belief = update(prior_of_one_axis(1.0, 1.0), {reading({1}, 2.0, 1.0)});
  EXPECT_NEAR(belief.mean[0], 1.5, 1e-12);
  EXPECT_NEAR(belief.shares(0, 0), 0.5, 1e-12) << "a share counts from the prior's mean";
}

TEST(Belief, MovesACorrelatedAxisByItsCorrelation) {
  const Belief belief = update(two_axes(0.6), {reading({1, 0}, 2.0, 1.0)});
  EXPECT_NEAR(belief.mean[0], 1.0, 1e-12);
  EXPECT_NEAR(belief.mean[1], 0.6, 1e-12);
  EXPECT_NEAR(belief.covariance(1, 1), 1.0 - 0.36 / 2.0, 1e-12);
}

TEST(Belief, OfADifferenceSplitsItBetweenTheTwoEnds) {
  // Push reads front - rear = -2, with a variance of 2 to come from the prior and 2 from the words.
  const Belief belief = update(two_axes(0.0), {reading({1, -1}, -2.0, std::sqrt(2.0))});
  EXPECT_NEAR(belief.mean[0], -0.5, 1e-12);
  EXPECT_NEAR(belief.mean[1], 0.5, 1e-12);
  EXPECT_NEAR(belief.covariance(0, 1), 0.25, 1e-12) << "what one end is not, the other is";
}

TEST(Belief, MovesLessForVaguerWords) {
  const double sure = update(prior_of_one_axis(1.44), {reading({1}, 2.0, 0.4)}).mean[0];
  const double fair = update(prior_of_one_axis(1.44), {reading({1}, 2.0, 0.7)}).mean[0];
  const double unsure = update(prior_of_one_axis(1.44), {reading({1}, 2.0, 1.2)}).mean[0];
  EXPECT_GT(sure, fair);
  EXPECT_GT(fair, unsure);
  EXPECT_GT(unsure, 0.0);
}

TEST(Shares, SumToTheShiftOnEveryAxis) {
  const std::vector<Reading> readings{reading({1, -1}, -2.0, 0.7), reading({0, 1}, 0.7, 0.7),
                                      reading({1, 1}, 1.0, 1.2)};
  const Prior prior = two_axes(0.15);
  const Belief belief = update(prior, readings);
  for (Eigen::Index axis = 0; axis < 2; ++axis) {
    EXPECT_NEAR(belief.shares.row(axis).sum(), belief.mean[axis], 1e-14);
  }
}

TEST(Shares, OfADenialAreNothingWhereThePriorExpectedNothing) {
  const std::vector<Reading> readings{reading({1, 0}, 2.0, 0.7), reading({0, 1}, 0.0, 0.5)};
  const Belief with = update(two_axes(0.6), readings);
  EXPECT_EQ(with.shares(0, 1), 0.0);
  EXPECT_EQ(with.shares(1, 1), 0.0);
  const Belief without = update(two_axes(0.6), {readings.front()});
  EXPECT_LT(with.mean[1], without.mean[1]) << "yet it weakens what the other reading says there";
}

// --- the prior ----------------------------------------------------------------------------------

TEST(PackPrior, HasTheSpreadsAndCorrelationsOfTheAxes) {
  const Prior prior = make_prior(rules());
  const auto covariance = [&](const char* a, const char* b) {
    return prior.covariance(axis_index(rules(), a), axis_index(rules(), b));
  };
  EXPECT_EQ(prior.mean.cwiseAbs().maxCoeff(), 0.0);
  EXPECT_NEAR(covariance("front-grip.entry", "front-grip.entry"), 1.44, 1e-12);
  EXPECT_NEAR(covariance("response", "response"), 1.0, 1e-12);
  EXPECT_NEAR(covariance("rear-grip.entry", "rear-grip.exit"), 0.6 * 1.44, 1e-12);
  EXPECT_NEAR(covariance("front-grip.mid", "rear-grip.exit"), 0.15 * 1.44, 1e-12);
  EXPECT_NEAR(covariance("front-grip.entry", "response"), 0.4 * 1.2, 1e-12);
  EXPECT_EQ(covariance("front-grip.mid", "response"), 0.0);
}

std::vector<Diagnostic> refused_correlations(const std::string& correlations) {
  const Pack pack = pack_of({axes_text({"a", "b", "c", "d"}) + "correlations:\n" + correlations});
  try {
    make_prior(pack);
  } catch (const InputError& error) {
    return error.found();
  }
  return {};
}

TEST(PackPrior, ThatNoKartCanHaveIsRefusedAtEveryCorrelationThatBreaksIt) {
  // a goes with b and b with c, so a cannot go against c; any one of the three is to blame.
  const std::vector<Diagnostic> found = refused_correlations(
      "  - {a: a, b: b, value: 0.9}\n"
      "  - {a: b, b: c, value: 0.9}\n"
      "  - {a: a, b: c, value: -0.9}\n");
  ASSERT_EQ(found.size(), 3U);
  for (const Diagnostic& diagnostic : found) {
    EXPECT_EQ(diagnostic.code, Code::not_positive_definite);
    EXPECT_EQ(diagnostic.file, "file-1.yaml");
  }
  EXPECT_THAT(found[0].message, HasSubstr("a with b"));
  EXPECT_EQ(found[0].span.line, 7);
}

TEST(PackPrior, DoesNotBlameACorrelationThatBreaksNothing) {
  // b cannot go with both a and c where these two have nothing in common; c with d is harmless.
  const std::vector<Diagnostic> found = refused_correlations(
      "  - {a: a, b: b, value: 0.75}\n"
      "  - {a: b, b: c, value: 0.75}\n"
      "  - {a: c, b: d, value: 0.1}\n");
  ASSERT_EQ(found.size(), 2U);
  EXPECT_THAT(found[0].message, HasSubstr("a with b"));
  EXPECT_THAT(found[1].message, HasSubstr("b with c"));
}

TEST(PackPrior, OfPossibleCorrelationsIsTaken) {
  EXPECT_TRUE(refused_correlations("  - {a: a, b: b, value: 0.9}\n  - {a: b, b: c, value: 0.9}\n"
                                   "  - {a: a, b: c, value: 0.9}\n")
                  .empty());
}

// --- do the readings fit together? --------------------------------------------------------------

TEST(Coherence, OfNothingIsGiven) {
  const Coherence nothing = fit_together(prior_of_one_axis(1.0), {});
  EXPECT_TRUE(nothing.coherent);
  EXPECT_EQ(nothing.dof, 0);
  EXPECT_EQ(nothing.chi2, 0.0);
}

TEST(Coherence, AllowsAPriorOfTwiceTheSpread) {
  // T = 4 x 1.44 + 0.49.
  const Coherence one = fit_together(prior_of_one_axis(1.44), {reading({1}, 3.0, 0.7)});
  EXPECT_NEAR(one.chi2, 9.0 / 6.25, 1e-12);
  EXPECT_EQ(one.dof, 1);
  EXPECT_TRUE(one.coherent);
  EXPECT_EQ(one.odd_one_out, -1);
}

TEST(Coherence, OfAgreeingReadingsIsGoodHoweverSevere) {
  const Coherence agreeing =
      fit_together(prior_of_one_axis(1.44),
                   {reading({1}, 3.0, 0.7), reading({1}, 3.0, 0.7), reading({1}, 2.0, 0.4)});
  EXPECT_TRUE(agreeing.coherent);
  EXPECT_EQ(agreeing.dof, 3);
}

TEST(Coherence, OfTwoThatContradictEachOtherIsByHand) {
  // T = [[v + r, v], [v, v + r]] with v = 4, r = 0.16; for y = (2, -2), chi2 = 8 / r.
  const Coherence odd =
      fit_together(prior_of_one_axis(1.0), {reading({1}, 2.0, 0.4), reading({1}, -2.0, 0.4)});
  EXPECT_NEAR(odd.chi2, 8.0 / 0.16, 1e-9);
  EXPECT_FALSE(odd.coherent);
}

TEST(OddOneOut, IsTheReadingThatTheOthersSpeakAgainst) {
  const auto odd = [](const std::vector<Reading>& readings) {
    return fit_together(prior_of_one_axis(1.0), readings).odd_one_out;
  };
  const Reading loose = reading({1}, 2.0, 0.4);
  const Reading push = reading({1}, -2.0, 0.4);
  EXPECT_EQ(odd({loose, loose, push, loose}), 2);
  EXPECT_EQ(odd({push, loose, push, push}), 1);
  EXPECT_EQ(odd({push, loose, reading({1}, -2.0, 0.7)}), 1) << "the vaguer one is the odd one less";
}

/// The reading that lies farthest, in its own spread, from what the others expect of it: each left
/// out in turn.
int farthest_from_the_others(Prior prior, const std::vector<Reading>& readings) {
  prior.covariance *= 4.0;
  int worst = -1;
  double farthest = 0.0;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    std::vector<Reading> rest = readings;
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
    const Belief others = update(prior, rest);
    const Reading& left_out = readings[i];
    const double variance =
        left_out.row.dot(others.covariance * left_out.row) + left_out.sd * left_out.sd;
    const double away =
        std::abs(left_out.value - left_out.row.dot(others.mean)) / std::sqrt(variance);
    if (away <= farthest) continue;
    farthest = away;
    worst = static_cast<int>(i);
  }
  return worst;
}

TEST(OddOneOut, IsTheLargestDeletionResidual) {
  Random random(5);
  int compared = 0;
  for (int round = 0; round < 300; ++round) {
    std::vector<Reading> readings;
    for (int i = 0; i < 4; ++i) {
      readings.push_back(reading({any_between(random, -1.5, 1.5), any_between(random, -1.5, 1.5)},
                                 any_between(random, -4.0, 4.0), any_between(random, 0.3, 1.5)));
    }
    const Prior prior = two_axes(0.15);
    const Coherence found = fit_together(prior, readings);
    if (found.coherent) continue;
    ASSERT_EQ(found.odd_one_out, farthest_from_the_others(prior, readings)) << "round " << round;
    ++compared;
  }
  EXPECT_GT(compared, 50);
}

TEST(OddOneOut, MayBeTheTrackAsWellAsAReport) {
  // Everything slides and nothing bites, on a track said to be rubbered in.
  const SmallCase entered(rules(),
                          {"slide@entry=3,sure", "slide@mid=3,sure", "slide@exit=3,sure",
                           "inside-rear-never-lifts@mid=3,sure", "bind@mid=0"},
                          {}, "rubbered-in");
  const std::vector<Reading> readings = take_readings(entered.settled());
  const Coherence found = fit_together(make_prior(rules()), readings);
  ASSERT_FALSE(found.coherent) << found.chi2;
  const Reading& odd = readings[static_cast<std::size_t>(found.odd_one_out)];
  EXPECT_EQ(odd.rule, "rubber-gives-the-rear-too-much");
}

TEST(Coherence, OfADriverWhoSaysPushAndLooseOfOneCornerIsFlagged) {
  const SmallCase entered(rules(), {"push@mid=3,sure", "loose@mid=3,sure", "loose@mid=3,sure"});
  const std::vector<Reading> readings = take_readings(entered.settled());
  const Coherence found = fit_together(make_prior(rules()), readings);
  ASSERT_FALSE(found.coherent);
  ASSERT_EQ(found.dof, 3);
  EXPECT_EQ(readings[static_cast<std::size_t>(found.odd_one_out)].rule,
            "push-is-front-short-of-rear");
}

}  // namespace
}  // namespace kartwright
