// The 1 % tail of chi-squared, as the test of whether reports fit together cuts it off.

#include <cmath>
#include <vector>

#include <gsl/gsl_cdf.h>
#include <gtest/gtest.h>

#include "engine/inference/belief.h"

namespace kartwright {
namespace {

/// Readings of `dof` axes that have nothing to do with one another, with this chi-squared: each
/// has a variance of 4 from twice the prior's spread and 5 of its own.
Coherence of_chi2(int dof, double chi2) {
  const Prior prior{Eigen::VectorXd::Zero(dof), Eigen::MatrixXd::Identity(dof, dof)};
  std::vector<Reading> readings;
  for (int i = 0; i < dof; ++i) {
    Reading reading{.rule = "a reading", .source = {}};
    reading.row = Eigen::VectorXd::Unit(dof, i);
    reading.value = 3.0 * std::sqrt(chi2 / dof);
    reading.sd = std::sqrt(5.0);
    readings.push_back(reading);
  }
  return fit_together(prior, readings);
}

struct UpperPoint {
  int dof;
  double chi2;
};

class ChiSquaredTable : public testing::TestWithParam<UpperPoint> {};

TEST_P(ChiSquaredTable, IsWhereReportsStopFittingTogether) {
  const auto [dof, chi2] = GetParam();
  const double half_a_digit = 0.0005;
  const Coherence inside = of_chi2(dof, chi2 - half_a_digit);
  EXPECT_EQ(inside.dof, dof);
  EXPECT_NEAR(inside.chi2, chi2 - half_a_digit, 1e-9);
  EXPECT_TRUE(inside.coherent);
  EXPECT_FALSE(of_chi2(dof, chi2 + half_a_digit).coherent);
}

// Upper 1 % points to three decimals, as tables of the distribution print them (from memory; the
// test below asks a numerical library for the same).
INSTANTIATE_TEST_SUITE_P(Published, ChiSquaredTable,
                         testing::Values(UpperPoint{1, 6.635}, UpperPoint{2, 9.210},
                                         UpperPoint{3, 11.345}, UpperPoint{4, 13.277},
                                         UpperPoint{5, 15.086}, UpperPoint{10, 23.209}));

TEST(ChiSquaredTail, AgreesWithANumericalLibraryForAnyNumberOfReadings) {
  for (int dof = 1; dof <= 40; ++dof) {
    const double point = gsl_cdf_chisq_Qinv(0.01, dof);
    EXPECT_TRUE(of_chi2(dof, point * (1.0 - 1e-8)).coherent) << dof;
    EXPECT_FALSE(of_chi2(dof, point * (1.0 + 1e-8)).coherent) << dof;
  }
}

}  // namespace
}  // namespace kartwright
