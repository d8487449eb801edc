#include "tests/published/integer_squares.h"

#include <cmath>

namespace kartwright {

// clang-format off
const std::vector<IntegerSquares>& integer_squares() {
  static const std::vector<IntegerSquares> kProblems{
      {.residuals = {-10, -1, -3, 4, -2, -16, 16},
       .weights = {1, 3, 3, 1, 3, 3, 1},
       .costs = {1, 2, 1, 3, 3, 4, 3, 3, 2, 3},
       .effects = {{{0, 0, 2, 3, -3, 0, 0, 3, -2, 0},
                    {3, -1, 0, 2, 0, 0, 0, 0, 0, -3},
                    {3, 0, 0, 0, 2, -1, 0, 0, 0, 0},
                    {-3, 0, 0, 0, 0, -1, 3, 0, 0, -2},
                    {-3, 0, 0, 0, 0, 0, -3, 0, 2, 0},
                    {-3, 0, -1, 0, 3, 0, 2, -2, -1, 3},
                    {-1, 0, 0, -3, 0, 0, 0, 0, 0, 0}}},
       .pair = {222, {0, 0, 0, 4, 0, 0, 0, 0, 0, 4}},
       .triple = {93, {0, 0, 0, 4, 2, 0, 0, 0, 0, 3}}},
      {.residuals = {-1, 13, -8, 14, 6, -3, -11},
       .weights = {2, 1, 3, 3, 3, 3, 3},
       .costs = {2, 4, 2, 1, 4, 5, 5, 4, 5, 1},
       .effects = {{{2, -2, -3, 0, -1, 0, 0, 0, -1, 0},
                    {2, 2, 3, -2, 3, 0, 0, 0, 0, 1},
                    {0, 0, 0, -2, 2, 0, 1, 0, 3, -1},
                    {0, 1, 3, 3, 0, 1, 0, 0, -3, 0},
                    {-1, 0, 1, 0, 1, 3, 3, 0, 0, -1},
                    {3, 3, 0, 0, 0, 0, 1, -3, 0, -3},
                    {3, -2, 0, 3, 0, 1, 0, 0, 1, 0}}},
       .pair = {281, {0, 0, 0, 0, -3, 0, 0, 0, 4, 0}},
       .triple = {120, {0, 0, -3, 2, 0, 0, 0, 0, 4, 0}}},
      {.residuals = {8, 3, 3, 4, 2, -5, -7},
       .weights = {2, 3, 2, 2, 2, 1, 1},
       .costs = {2, 3, 1, 5, 5, 3, 4, 4, 1, 5},
       .effects = {{{0, -3, 0, 0, -2, 0, 0, 0, 0, -3},
                    {0, 0, 1, 0, -2, -2, 1, 0, -3, 0},
                    {0, -1, 3, 0, -1, 0, 0, 0, -2, 0},
                    {2, 0, 2, 0, 0, 0, 0, 0, 0, -1},
                    {3, -3, -3, 3, 0, -1, -3, -1, 0, 0},
                    {0, 1, -2, 0, -2, 0, 0, -3, 0, 0},
                    {0, -1, -2, -3, 1, 1, 0, 0, 3, -2}}},
       .pair = {95, {0, 2, -1, 0, 0, 0, 0, 0, 0, 0}},
       .triple = {61, {0, 0, -1, -2, 0, 0, 0, 0, 0, 2}}}};
  return kProblems;
}
// clang-format on

BundleCase as_bundle_case(const IntegerSquares& problem) {
  const auto rows = static_cast<Eigen::Index>(problem.residuals.size());
  BundleCase c{.mean = Eigen::Map<const Eigen::VectorXd>(problem.residuals.data(), rows),
               .weights = Eigen::Map<const Eigen::VectorXd>(problem.weights.data(), rows)};
  for (std::size_t j = 0; j < problem.costs.size(); ++j) {
    BundleStep step{.effect = Eigen::VectorXd(rows)};
    for (Eigen::Index i = 0; i < rows; ++i) {
      step.effect[i] = problem.effects.at(static_cast<std::size_t>(i)).at(j);
    }
    c.steps.push_back(step);
    for (int x = -kFarthest; x <= kFarthest; ++x) {
      if (x == 0) continue;
      c.items.push_back({.group = static_cast<int>(j),
                         .step = j,
                         .amount = static_cast<double>(x),
                         .cost = problem.costs.at(j) * std::abs(x)});
    }
  }
  return c;
}

std::array<double, 10> numbers_of(const BundleCase& c, const std::vector<std::size_t>& items) {
  std::array<double, 10> x{};
  for (const std::size_t i : items) x.at(c.items[i].step) = c.items[i].amount;
  return x;
}

}  // namespace kartwright
