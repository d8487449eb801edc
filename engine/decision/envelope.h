// envelope.h - choosing the highest of some straight lines over a standard normal z: what it is
// worth to learn z before choosing, exactly.
//
// The upper envelope is a fan of straight pieces, so an expectation over it is a sum of one term a
// corner, none of them negative. Nothing is sampled, and no grid is laid.

#pragma once

#include <limits>
#include <vector>

namespace kartwright {

/// height + slope z.
struct Line {
  double height = 0.0;  ///< at z = 0
  double slope = 0.0;
};

/// Where the highest line changes: at `z` its slope goes up by `rise`.
struct Corner {
  double z = 0.0;
  double rise = 0.0;  ///< above zero
};

/// The corners of the upper envelope max_i (height_i + slope_i z), from left to right.
std::vector<Corner> corners_of(std::vector<Line> lines);

/// All z tell apart.
inline constexpr double kNoFloor = -std::numeric_limits<double>::infinity();

/// E[max_i line_i(z)] - max_i E[line_i(z)] for z ~ N(0, 1), in the unit of the heights; never
/// negative (Frazier, Powell and Dayanik 2009, the sum over corners). With a floor, all z up to it
/// look alike, so that one line must do for all of them:
///     max_i E[line_i(z); z <= floor] + E[max_i line_i(z); z > floor] - max_i E[line_i(z)].
double worth_of_seeing(std::vector<Line> lines, double floor = kNoFloor);

}  // namespace kartwright
