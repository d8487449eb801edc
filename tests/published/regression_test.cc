// Statistics against the Statistical Reference Datasets of NIST; see
// tests/published/nist/README.md.

#include "engine/algebra/regression.h"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/support/columns.h"

namespace kartwright {
namespace {

/// Digits that agree: log of the relative error, 15 where there is none.
double digits(double found, double certified) {
  if (found == certified) return 15.0;
  return std::min(15.0, -std::log10(std::abs(found - certified) / std::abs(certified)));
}

Regression regression_of(const char* file, const std::vector<std::string>& names) {
  const auto columns = numeric_columns(file);
  const Eigen::VectorXd& y = columns.at("y");
  Eigen::MatrixXd x(y.size(), static_cast<Eigen::Index>(names.size()) + 1);
  x.col(0).setOnes();
  for (std::size_t i = 0; i < names.size(); ++i)
    x.col(static_cast<Eigen::Index>(i) + 1) = columns.at(names[i]);
  return least_squares(x, y).value();
}

// Norris: 36 observations of a straight line. At least nine digits.
TEST(PublishedRegression, Norris) {
  const Regression found = regression_of("tests/published/nist/norris.csv", {"x"});
  EXPECT_GE(digits(found.coefficients[0], -0.262323073774029), 9.0);
  EXPECT_GE(digits(found.coefficients[1], 1.00211681802045), 9.0);
  EXPECT_GE(digits(found.standard_errors[0], 0.232818234301152), 9.0);
  EXPECT_GE(digits(found.standard_errors[1], 0.429796848199937e-3), 9.0);
  EXPECT_GE(digits(found.residual_sd, 0.884796396144373), 9.0);
  EXPECT_GE(digits(found.r_squared, 0.999993745883712), 9.0);
  EXPECT_GE(digits(found.f, 5436385.54079785), 9.0);
  EXPECT_EQ(found.degrees_of_freedom, 34);
}

// Longley: 16 observations, seven coefficients that nearly explain one another. At least seven
// digits; normal equations would lose half of them.
TEST(PublishedRegression, Longley) {
  const Regression found =
      regression_of("tests/published/nist/longley.csv", {"x1", "x2", "x3", "x4", "x5", "x6"});
  const double coefficients[] = {-3482258.63459582, 15.0618722713733,  -0.358191792925910e-1,
                                 -2.02022980381683, -1.03322686717359, -0.511041056535807e-1,
                                 1829.15146461355};
  const double errors[] = {890420.383607373,  84.9149257747669,  0.334910077722432e-1,
                           0.488399681651699, 0.214274163161675, 0.226073200069370,
                           455.478499142212};
  for (Eigen::Index i = 0; i < 7; ++i) {
    EXPECT_GE(digits(found.coefficients[i], coefficients[i]), 7.0) << i;
    EXPECT_GE(digits(found.standard_errors[i], errors[i]), 7.0) << i;
  }
  EXPECT_GE(digits(found.residual_sd, 304.854073561965), 7.0);
  EXPECT_GE(digits(found.r_squared, 0.995479004577296), 9.0);
  EXPECT_GE(digits(found.f, 330.285339234588), 7.0);
}

// Wampler5: a polynomial of the fifth degree under noise that nearly hides it.
TEST(PublishedRegression, Wampler5) {
  const auto columns = numeric_columns("tests/published/nist/wampler5.csv");
  const Eigen::VectorXd& x = columns.at("x");
  Eigen::MatrixXd powers(x.size(), 6);
  for (Eigen::Index k = 0; k < 6; ++k) powers.col(k) = x.array().pow(static_cast<double>(k));
  const Regression found = least_squares(powers, columns.at("y")).value();
  for (Eigen::Index k = 0; k < 6; ++k) EXPECT_NEAR(found.coefficients[k], 1.0, 1e-5) << k;
  EXPECT_GE(digits(found.residual_sd, 23601450.2379268), 9.0);
}

struct Univariate {
  const char* file;
  double mean, sd, lag1;
  double digits_of_sd;
};

TEST(PublishedDescription, MeanSpreadAndNeighbours) {
  const Univariate all[] = {
      {"tests/published/nist/michelso.csv", 299.8524, 0.790105478190518e-1, 0.535199668621283, 11},
      {"tests/published/nist/lew.csv", -177.435, 277.332168044316, -0.307304800605679, 13},
      // One pass over the squares would find no spread here at all.
      {"tests/published/nist/numacc4.csv", 10000000.2, 0.1, -0.999, 7},
  };
  for (const Univariate& each : all) {
    const Description found = describe(numeric_columns(each.file).at("y"));
    EXPECT_GE(digits(found.mean, each.mean), 13.0) << each.file;
    EXPECT_GE(digits(found.sd, each.sd), each.digits_of_sd) << each.file;
    EXPECT_GE(digits(found.lag1, each.lag1), std::min(each.digits_of_sd, 12.0)) << each.file;
  }
}

/// One-way analysis of variance as a regression on the groups.
Regression by_group(const char* file, const char* response) {
  const auto columns = numeric_columns(file);
  const Eigen::VectorXd& group = columns.at("instrument");
  const auto groups = static_cast<Eigen::Index>(group.maxCoeff());
  Eigen::MatrixXd x = Eigen::MatrixXd::Zero(group.size(), groups);
  x.col(0).setOnes();
  for (Eigen::Index i = 0; i < group.size(); ++i) {
    const auto at = static_cast<Eigen::Index>(group[i]) - 1;
    if (at > 0) x(i, at) = 1.0;
  }
  return least_squares(x, columns.at(response)).value();
}

TEST(PublishedAnova, SiRstvAndAtmWtAg) {
  const Regression resistance = by_group("tests/published/nist/sirstv.csv", "resistance");
  EXPECT_GE(digits(resistance.f, 1.18046237440255), 9.0);
  EXPECT_GE(digits(resistance.residual_sd, 0.104076068334656), 9.0);
  EXPECT_EQ(resistance.degrees_of_freedom, 20);
  const Regression silver = by_group("tests/published/nist/atmwtag.csv", "agwt");
  EXPECT_GE(digits(silver.f, 15.9467335677930), 7.0);
  EXPECT_GE(digits(silver.residual_sd, 1.51048314446410e-5), 8.0);
}

TEST(LeastSquares, RefusesWhatDoesNotTellApart) {
  Eigen::MatrixXd twice(4, 3);
  twice << 1, 1, 2, 1, 2, 4, 1, 3, 6, 1, 4, 8;
  EXPECT_FALSE(least_squares(twice, Eigen::VectorXd::LinSpaced(4, 0, 3)));
  EXPECT_FALSE(least_squares(Eigen::MatrixXd::Identity(2, 2), Eigen::VectorXd::Ones(2)));
}

}  // namespace
}  // namespace kartwright
