#include "engine/algebra/crossing.h"

#include <cstdint>

#include <boost/math/tools/toms748_solve.hpp>

namespace kartwright {

std::optional<double> crossing(const std::function<double(double)>& function, double from,
                               double to) {
  const double low = function(from);
  const double high = function(to);
  if (low == 0.0) return from;
  if ((low > 0.0) == (high > 0.0)) return {};
  std::uintmax_t rounds = 100;
  const auto found = boost::math::tools::toms748_solve(
      function, from, to, low, high, boost::math::tools::eps_tolerance<double>(50), rounds);
  return (found.first + found.second) / 2.0;
}

}  // namespace kartwright
