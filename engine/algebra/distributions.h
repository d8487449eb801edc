// distributions.h - quantiles and tails of distributions, from a kept library that is compiled here
// and nowhere else. Held against printed tables.

#pragma once

namespace kartwright {

/// Share of a standard normal distribution below x.
double normal_below(double x);
/// What that share lies below. REQUIRES: 0 < p < 1.
double normal_quantile(double p);

/// Quantile of Student's t. REQUIRES: 0 < p < 1, degrees of freedom above 0.
double student_quantile(double p, double degrees_of_freedom);

/// Share of a chi-squared distribution beyond x. REQUIRES: x >= 0, degrees of freedom above 0.
double chi_squared_beyond(double x, double degrees_of_freedom);

}  // namespace kartwright
