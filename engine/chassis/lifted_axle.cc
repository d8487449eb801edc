#include "engine/chassis/lifted_axle.h"

#include <cmath>

namespace kartwright {

namespace {

double slope(const LiftedAxle& test) {
  const double sine = test.lift / test.wheelbase;
  return sine / std::sqrt(1.0 - sine * sine);
}

/// Of the wheels' middles, at the centre of mass along the kart.
double radius_at_mass(const LiftedAxle& test) {
  const double lifted_axle_share = 1.0 - test.level / test.mass;
  return test.radius_down + (test.radius_up - test.radius_down) * lifted_axle_share;
}

}  // namespace

WithError mass_height(const LiftedAxle& test) {
  const double tangent = slope(test);
  const double arm = test.wheelbase / (test.mass * tangent);
  const double more = test.lifted - test.level;
  const double sine = test.lift / test.wheelbase;
  const double by_scales = 2.0 * arm * test.sigma_scale;  // two axles weighed, of two scales each
  const double by_lift = arm * more * test.sigma_lift / (test.lift * (1.0 - sine * sine));
  return {radius_at_mass(test) + more * arm, std::hypot(by_scales, by_lift)};
}

double mass_height(std::span<const LiftedAxle> lifts) {
  double products = 0.0;
  double squares = 0.0;
  for (const LiftedAxle& test : lifts) {
    const double tangent = slope(test);
    products += tangent * (test.lifted - test.level) * test.wheelbase / test.mass;
    squares += tangent * tangent;
  }
  return radius_at_mass(lifts.front()) + products / squares;
}

}  // namespace kartwright
