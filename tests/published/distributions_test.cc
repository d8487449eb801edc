// Distributions as printed tables have them.

#include "engine/algebra/distributions.h"

#include <gtest/gtest.h>

namespace kartwright {
namespace {

// Student's t as statistical tables print it, to three decimals (from memory: the two-sided 5 % and
// the one-sided 20 % points).
TEST(PublishedQuantiles, OfStudent) {
  struct Point {
    double degrees, p, t;
  };
  const Point all[] = {{1, 0.975, 12.706}, {2, 0.975, 4.303},   {5, 0.975, 2.571},
                       {10, 0.975, 2.228}, {29, 0.975, 2.045},  {30, 0.975, 2.042},
                       {60, 0.975, 2.000}, {120, 0.975, 1.980}, {10, 0.80, 0.879},
                       {30, 0.80, 0.854}};
  for (const Point& each : all)
    EXPECT_NEAR(student_quantile(each.p, each.degrees), each.t, 0.0006) << each.degrees;
}

// The standard normal distribution, to four decimals (from memory).
TEST(PublishedQuantiles, OfTheNormalDistributionAndItsShares) {
  struct Point {
    double p, x;
  };
  const Point all[] = {{0.5, 0.0},     {0.75, 0.6745},  {0.90, 1.2816},
                       {0.95, 1.6449}, {0.975, 1.9600}, {0.995, 2.5758}};
  for (const Point& each : all) {
    EXPECT_NEAR(normal_quantile(each.p), each.x, 0.00006) << each.p;
    EXPECT_NEAR(normal_quantile(1.0 - each.p), -each.x, 0.00006) << each.p;
    EXPECT_NEAR(normal_below(normal_quantile(each.p)), each.p, 1e-12);
  }
  EXPECT_NEAR(normal_below(1.0), 0.8413, 0.00006);
  EXPECT_NEAR(normal_below(-2.0), 0.0228, 0.00006);
}

// Chi-squared as statistical tables print it, to three decimals (from memory: the 5 % and the 1 %
// points).
TEST(PublishedQuantiles, BeyondOfChiSquared) {
  struct Point {
    double degrees, five, one;
  };
  const Point all[] = {
      {1, 3.841, 6.635}, {2, 5.991, 9.210}, {5, 11.070, 15.086}, {10, 18.307, 23.209}};
  for (const Point& each : all) {
    EXPECT_NEAR(chi_squared_beyond(each.five, each.degrees), 0.05, 0.00002) << each.degrees;
    EXPECT_NEAR(chi_squared_beyond(each.one, each.degrees), 0.01, 0.00001) << each.degrees;
  }
  EXPECT_DOUBLE_EQ(chi_squared_beyond(0.0, 3.0), 1.0);
}

}  // namespace
}  // namespace kartwright
