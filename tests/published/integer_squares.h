// integer_squares.h - small problems of least squares over whole numbers, with optima proven by
// four programs that have nothing in common with this one.
//
// Ten numbers x in -4..4, at most two or three of them not zero, are to make
//   sum w_i (r_i + sum_j J_ij x_j)^2 + sum c_j |x_j|
// least. The data were made up from a seed for this project; the optima were proven by GLPK 5.0
// and CBC 2.10.8 (as an exact mixed-integer programme), z3 4.8.12 (linear form) and an enumeration
// in numpy, which all agree, and each is the only one.

#pragma once

#include <array>
#include <vector>

#include "engine/decision/bundles.h"

namespace kartwright {

struct IntegerSquares {
  std::array<double, 7> residuals;                ///< r
  std::array<double, 7> weights;                  ///< w
  std::array<double, 10> costs;                   ///< c
  std::array<std::array<double, 10>, 7> effects;  ///< J

  struct Proven {
    double value = 0.0;
    std::array<double, 10> x = {};
  };
  Proven pair, triple;
};

/// The three problems.
const std::vector<IntegerSquares>& integer_squares();

constexpr int kFarthest = 4;  ///< |x| at most

/// A problem as a search for a set of moves: one item for each number and value that is not zero.
BundleCase as_bundle_case(const IntegerSquares& problem);

/// The numbers that a set of those items stands for.
std::array<double, 10> numbers_of(const BundleCase& c, const std::vector<std::size_t>& items);

}  // namespace kartwright
