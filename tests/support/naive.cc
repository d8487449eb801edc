#include "tests/support/naive.h"

#include <memory>

#include <gsl/gsl_linalg.h>

namespace kartwright::naive {
namespace {

struct FreeMatrix {
  void operator()(gsl_matrix* m) const { gsl_matrix_free(m); }
};
struct FreeVector {
  void operator()(gsl_vector* v) const { gsl_vector_free(v); }
};
struct FreePermutation {
  void operator()(gsl_permutation* p) const { gsl_permutation_free(p); }
};

Matrix identity(std::size_t n) {
  Matrix one(n, Vector(n, 0.0));
  for (std::size_t i = 0; i < n; ++i) one[i][i] = 1.0;
  return one;
}

double dot(const Vector& a, const Vector& b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
  return sum;
}

}  // namespace

Matrix solve(const Matrix& a, const Matrix& b) {
  const std::size_t n = a.size();
  const std::unique_ptr<gsl_matrix, FreeMatrix> lu(gsl_matrix_alloc(n, n));
  const std::unique_ptr<gsl_permutation, FreePermutation> order(gsl_permutation_alloc(n));
  const std::unique_ptr<gsl_vector, FreeVector> right(gsl_vector_alloc(n));
  const std::unique_ptr<gsl_vector, FreeVector> x(gsl_vector_alloc(n));
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) gsl_matrix_set(lu.get(), i, j, a[i][j]);
  }
  int sign = 0;
  gsl_linalg_LU_decomp(lu.get(), order.get(), &sign);
  Matrix out(n, Vector(b.front().size()));
  for (std::size_t c = 0; c < b.front().size(); ++c) {
    for (std::size_t i = 0; i < n; ++i) gsl_vector_set(right.get(), i, b[i][c]);
    gsl_linalg_LU_solve(lu.get(), order.get(), right.get(), x.get());
    for (std::size_t i = 0; i < n; ++i) out[i][c] = gsl_vector_get(x.get(), i);
  }
  return out;
}

Matrix inverse(const Matrix& a) { return solve(a, identity(a.size())); }

Posterior information_form(const Vector& mean, const Matrix& covariance,
                           const std::vector<Reading>& readings) {
  const std::size_t n = mean.size();
  Matrix information = inverse(covariance);
  Matrix right(n, Vector(1, 0.0));
  for (std::size_t i = 0; i < n; ++i) right[i][0] = dot(information[i], mean);
  for (const Reading& reading : readings) {
    const double weight = 1.0 / (reading.sd * reading.sd);
    for (std::size_t i = 0; i < n; ++i) {
      right[i][0] += reading.row[i] * reading.value * weight;
      for (std::size_t j = 0; j < n; ++j)
        information[i][j] += reading.row[i] * reading.row[j] * weight;
    }
  }
  Posterior out{Vector(n), inverse(information)};
  const Matrix solved = solve(information, right);
  for (std::size_t i = 0; i < n; ++i) out.mean[i] = solved[i][0];
  return out;
}

Posterior one_at_a_time(Vector mean, Matrix covariance, const std::vector<Reading>& readings) {
  const std::size_t n = mean.size();
  for (const Reading& reading : readings) {
    Vector cross(n);
    for (std::size_t i = 0; i < n; ++i) cross[i] = dot(covariance[i], reading.row);
    const double variance = dot(cross, reading.row) + reading.sd * reading.sd;
    const double surprise = reading.value - dot(reading.row, mean);
    for (std::size_t i = 0; i < n; ++i) mean[i] += cross[i] / variance * surprise;
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = 0; j < n; ++j) covariance[i][j] -= cross[i] * cross[j] / variance;
    }
  }
  return {mean, covariance};
}

Matrix shares(const Vector& mean, const Matrix& covariance, const std::vector<Reading>& readings) {
  const Posterior posterior = information_form(mean, covariance, readings);
  Matrix out(mean.size(), Vector(readings.size()));
  for (std::size_t i = 0; i < mean.size(); ++i) {
    for (std::size_t r = 0; r < readings.size(); ++r) {
      const Reading& reading = readings[r];
      const double gain = dot(posterior.covariance[i], reading.row) / (reading.sd * reading.sd);
      out[i][r] = gain * (reading.value - dot(reading.row, mean));
    }
  }
  return out;
}

double quadratic(const Vector& x, const Vector& weights) {
  double sum = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) sum += weights[i] * x[i] * x[i];
  return sum;
}

double loss(const Vector& mean, const Vector& weights, const Vector& per_step, const Matrix& lambda,
            double steps) {
  Vector after = mean;
  double spread = 0.0;
  for (std::size_t i = 0; i < mean.size(); ++i) {
    after[i] += steps * per_step[i];
    spread += weights[i] * lambda[i][i];
  }
  return quadratic(after, weights) + steps * steps * spread;
}

}  // namespace kartwright::naive
