// naive.h - the engine's linear algebra done another way: plain loops, and the solver of another
// library.

#pragma once

#include <vector>

namespace kartwright::naive {

using Vector = std::vector<double>;
using Matrix = std::vector<Vector>;

/// A reading: row, value, standard deviation.
struct Reading {
  Vector row;
  double value = 0.0;
  double sd = 1.0;
};

struct Posterior {
  Vector mean;
  Matrix covariance;
};

/// Solves A X = B by LU decomposition with partial pivoting, as GSL does it.
Matrix solve(const Matrix& a, const Matrix& b);

/// Inverse of a square matrix.
Matrix inverse(const Matrix& a);

/// Information form: P^-1 = P0^-1 + sum h h'/sd^2, m = P (P0^-1 m0 + sum h y/sd^2).
Posterior information_form(const Vector& mean, const Matrix& covariance,
                           const std::vector<Reading>& readings);

/// One reading at a time, by scalar updates.
Posterior one_at_a_time(Vector mean, Matrix covariance, const std::vector<Reading>& readings);

/// What each reading moved on each axis: axes by readings, by the gain K = P H' R^-1 of the
/// information form.
Matrix shares(const Vector& mean, const Matrix& covariance, const std::vector<Reading>& readings);

/// sum over i, j of x_i W_ij x_j with W diagonal, in plain loops.
double quadratic(const Vector& x, const Vector& weights);

/// (m + u b)' W (m + u b) + u^2 tr(W Lambda).
double loss(const Vector& mean, const Vector& weights, const Vector& per_step, const Matrix& lambda,
            double steps);

}  // namespace kartwright::naive
