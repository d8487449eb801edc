#include "engine/algebra/distributions.h"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/special_functions/gamma.hpp>

namespace kartwright {

double normal_below(double x) { return boost::math::cdf(boost::math::normal(), x); }

double normal_quantile(double p) { return boost::math::quantile(boost::math::normal(), p); }

double student_quantile(double p, double degrees_of_freedom) {
  return boost::math::quantile(boost::math::students_t(degrees_of_freedom), p);
}

// The tail is the regularised upper incomplete gamma function.
double chi_squared_beyond(double x, double degrees_of_freedom) {
  return boost::math::gamma_q(0.5 * degrees_of_freedom, 0.5 * x);
}

}  // namespace kartwright
