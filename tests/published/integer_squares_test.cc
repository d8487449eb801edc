// The search for the best pair and triple against optima that other programs proved.

#include "tests/published/integer_squares.h"

#include <gtest/gtest.h>

namespace kartwright {
namespace {

/// The objective written out, with nothing of the search in it.
double objective(const IntegerSquares& problem, const std::array<double, 10>& x) {
  double sum = 0.0;
  for (std::size_t i = 0; i < problem.residuals.size(); ++i) {
    double left = problem.residuals.at(i);
    for (std::size_t j = 0; j < x.size(); ++j) left += problem.effects.at(i).at(j) * x.at(j);
    sum += problem.weights.at(i) * left * left;
  }
  for (std::size_t j = 0; j < x.size(); ++j) sum += problem.costs.at(j) * std::abs(x.at(j));
  return sum;
}

void expect_proven(const IntegerSquares& problem, std::size_t most,
                   const IntegerSquares::Proven& proven) {
  ASSERT_EQ(objective(problem, proven.x), proven.value) << "the data are not as they were";
  const BundleCase c = as_bundle_case(problem);
  const BundleChoice found = best_set(c, most);
  EXPECT_EQ(found.value, proven.value);
  EXPECT_EQ(numbers_of(c, found.items), proven.x);
}

class IntegerProblems : public testing::TestWithParam<std::size_t> {
 protected:
  const IntegerSquares& problem_ = integer_squares().at(GetParam());
};

TEST_P(IntegerProblems, HaveTheirProvenBestPair) { expect_proven(problem_, 2, problem_.pair); }

TEST_P(IntegerProblems, HaveTheirProvenBestTriple) { expect_proven(problem_, 3, problem_.triple); }

INSTANTIATE_TEST_SUITE_P(ThreeSeeds, IntegerProblems, testing::Values(0U, 1U, 2U));

TEST(IntegerProblemsTogether, HaveTheOptimaThatWereWrittenDown) {
  std::vector<double> pairs, triples;
  for (const IntegerSquares& each : integer_squares()) {
    pairs.push_back(each.pair.value);
    triples.push_back(each.triple.value);
  }
  EXPECT_EQ(pairs, (std::vector<double>{222, 281, 95}));
  EXPECT_EQ(triples, (std::vector<double>{93, 120, 61}));
}

}  // namespace
}  // namespace kartwright
