#include "tests/support/sprint_karts.h"

namespace kartwright {
namespace {

void lay_out(Random& random, SprintKart& kart) {
  kart.mass = any_between(random, 145.0, 185.0);
  kart.wheelbase = any_between(random, 1.03, 1.06);
  kart.front_share = any_between(random, 0.40, 0.45);
  kart.mass_height = any_between(random, 0.23, 0.32);
  kart.front_track = any_between(random, 1.06, 1.16);
  kart.rear_track = any_between(random, 1.34, 1.40) - any_between(random, 0.18, 0.21);
  kart.front_mass_share = any_between(random, 0.10, 0.22);
  kart.front_mass_height = any_between(random, 0.15, 0.25);
  kart.twist_axis_height = any_between(random, 0.05, 0.12);
}

void make_springy(Random& random, SprintKart& kart) {
  kart.front_frame = any_between(random, 250.0, 800.0) / kDegree;
  kart.rear_frame = any_between(random, 250.0, 800.0) / kDegree;
  kart.front_bar = one_in(random, 2) ? 0.35 * kart.front_frame : 0.0;
  kart.front_tyre = any_between(random, 70e3, 110e3);
  kart.rear_tyre = any_between(random, 75e3, 120e3);
  kart.spindle = any_between(random, 300e3, 900e3);
  kart.carrier = any_between(random, 200e3, 600e3);
}

void fit_axle_and_steering(Random& random, SprintKart& kart) {
  const bool thick = one_in(random, 2);
  kart.axle_diameter = thick ? 0.050 : 0.040;
  kart.axle_wall =
      thick ? any_between(random, 1.8e-3, 2.8e-3) : any_between(random, 2.5e-3, 3.5e-3);
  kart.bearing_half_distance = any_between(random, 0.29, 0.34);
  kart.hub_length = any_between(random, 0.060, 0.110);
  kart.middle_bearing = one_in(random, 2);
  kart.caster = any_between(random, 10.0, 18.0) * kDegree;
  kart.kingpin_inclination = any_between(random, 9.0, 13.0) * kDegree;
  kart.kingpin_width = any_between(random, 0.76, 0.84);
  kart.ackermann = any_between(random, 0.5, 1.8);
}

}  // namespace

SprintKart any_sprint_kart(Random& random) {
  SprintKart kart = default_sprint_kart();
  lay_out(random, kart);
  make_springy(random, kart);
  fit_axle_and_steering(random, kart);
  if (one_in(random, 2)) return kart;
  kart.twist = any_between(random, -0.5, 0.5) * kDegree;
  kart.mass_left = any_between(random, -0.02, 0.02);
  kart.toe_out = any_between(random, -0.5, 0.5) * kDegree;
  return kart;
}

Manoeuvre any_turn(Random& random) {
  const double lateral = any_between(random, -2.6, 2.6) * kGravity;
  return {.lateral = lateral,
          .longitudinal = any_between(random, -0.9, 0.6) * kGravity,
          .steer = any_between(random, -25.0, 25.0) * kDegree,
          .side_force = one_in(random, 4) ? 0.0 : lateral / kGravity};
}

SprintKart mirrored(SprintKart kart) {
  kart.mass_left = -kart.mass_left;
  kart.twist = -kart.twist;
  return kart;
}

Manoeuvre mirrored(Manoeuvre turn) {
  turn.lateral = -turn.lateral;
  turn.steer = -turn.steer;
  turn.side_force = -turn.side_force;
  return turn;
}

}  // namespace kartwright
