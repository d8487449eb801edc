#include "engine/chassis/steering.h"

#include <cmath>

namespace kartwright {

FrontPush front_push(const SprintKart& kart, double steer) {
  const double along = std::tan(kart.caster);
  const double across = std::tan(kart.kingpin_inclination);
  const double length = std::sqrt(1.0 + along * along + across * across);
  const double ex = along / length;
  const double ey = across / length;
  const double ez = 1.0 / length;
  const double lever = (kart.front_track - kart.kingpin_width) / 2.0;
  // Even in the angle: in a right turn it is the right wheel that turns more.
  const double more_inside =
      kart.ackermann * steer * steer * kart.front_track / (2.0 * kart.wheelbase);
  const double left = steer + more_inside + kart.toe_out;
  const double right = steer - more_inside - kart.toe_out;
  const auto push = [&](double side, double angle) {
    return lever * (side * ex * std::sin(angle) + ez * ey * (1.0 - std::cos(angle)));
  };
  return {push(1.0, left), push(-1.0, right)};
}

}  // namespace kartwright
