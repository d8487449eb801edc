// corner.h - the loads of the four wheels in a corner: quasi-static, in closed form.
//
// Front and rear half of the frame roll about a common axis and twist against each other; the
// steering pushes the inside front wheel down; a wheel can leave the ground but not pull it.

#pragma once

#include "engine/chassis/sprint_kart.h"
#include "engine/kart/corner_loads.h"

namespace kartwright {

inline constexpr double kGravity = 9.80665;  ///< m/s^2, standard gravity (ISO 80000-3)

/// What the kart is doing. SI; a left turn is positive.
struct Manoeuvre {
  double lateral = 0;       ///< acceleration to the left, m/s^2
  double longitudinal = 0;  ///< acceleration forward, m/s^2
  double steer = 0;         ///< mean angle of the front wheels, radians
  double side_force = 0;    ///< of a rear wheel, per newton of its load
};

/// Which wheels have left the ground.
enum class Contact { all_four, inside_rear_off, inside_front_off, tipping };

struct Cornering {
  CornerLoads loads;  ///< N; they sum to the weight
  Contact contact = Contact::all_four;
  double front_axle = 0, rear_axle = 0;  ///< N on both wheels of it
  double front_transfer = 0,
         rear_transfer =
             0;  ///< N from the left wheel to the right, as if no wheel could leave the ground
  double inside_rear_lift = 0;  ///< metres above the ground, where it is off
};

/// The exact solution of the contact problem of two axles on one twisting frame. Where the kart
/// tips, the loads are those of both inside wheels off the ground, and do not balance the roll.
Cornering corner(const SprintKart& kart, const Manoeuvre& turn);

/// The two equations that corner() solves, for those who look at the parts of it.
struct FrontAndRear {
  double front_free = 0, front_give = 0;  ///< roll of the front axle: free, and per newton moved
  double rear_free = 0, rear_give = 0;
  double frame = 0;                          ///< N m per radian between the halves
  double front_axle = 0, rear_axle = 0;      ///< N on both wheels of it
  double front_moment = 0, rear_moment = 0;  ///< N m of roll about the ground
};
FrontAndRear front_and_rear(const SprintKart& kart, const Manoeuvre& turn);

}  // namespace kartwright
