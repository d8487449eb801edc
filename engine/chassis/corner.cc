#include "engine/chassis/corner.h"

#include <algorithm>
#include <cmath>

#include "engine/chassis/axle.h"
#include "engine/chassis/steering.h"

namespace kartwright {

namespace {

struct AxleTotals {
  double front = 0, rear = 0;  ///< N
};

AxleTotals axle_totals(const SprintKart& kart, const Manoeuvre& turn) {
  const double behind =
      kart.front_share * kart.wheelbase;  // of the centre of mass, to the rear axle
  const double ahead = kart.wheelbase - behind;
  const double shifted = turn.longitudinal * kart.mass_height;
  return {kart.mass * (kGravity * behind - shifted) / kart.wheelbase,
          kart.mass * (kGravity * ahead + shifted) / kart.wheelbase};
}

struct Transfers {
  double front = 0, rear = 0;
};

Transfers solve(const SprintKart& kart, const FrontAndRear& halves) {
  const double twist = halves.rear_free - halves.front_free - kart.twist;
  const double a = kart.front_track + halves.frame * halves.front_give;
  const double b = -halves.frame * halves.rear_give;
  const double c = -halves.frame * halves.front_give;
  const double d = kart.rear_track + halves.frame * halves.rear_give;
  const double front = halves.front_moment + halves.frame * twist;
  const double rear = halves.rear_moment - halves.frame * twist;
  const double det = a * d - b * c;
  return {(front * d - b * rear) / det, (a * rear - c * front) / det};
}

/// The rear axle hangs by the frame: how far its lifted wheel is off the ground.
double lift_of_rear(const SprintKart& kart, const FrontAndRear& halves, const Transfers& held) {
  const double front_roll = halves.front_free + halves.front_give * held.front;
  const double rear_roll = front_roll + kart.twist +
                           (kart.front_track * held.front - halves.front_moment) / halves.frame;
  const double on_the_ground = halves.rear_free + halves.rear_give * held.rear;
  return std::abs(rear_roll - on_the_ground) * kart.rear_track;
}

}  // namespace

FrontAndRear front_and_rear(const SprintKart& kart, const Manoeuvre& turn) {
  const AxleTotals on = axle_totals(kart, turn);
  const FrontPush push = front_push(kart, turn.steer);
  const AxleCompliance give = axle_compliance(kart, turn.side_force);
  const double left = give.left_left - give.right_left;
  const double right = give.left_right - give.right_right;
  const double front_section = kart.front_frame + kart.front_bar;
  const double behind = kart.front_share * kart.wheelbase;
  const double front_mass = kart.front_mass_share * kart.mass;

  FrontAndRear halves;
  halves.front_axle = on.front;
  halves.rear_axle = on.rear;
  halves.front_free = (push.left - push.right) / kart.front_track;
  halves.front_give = 2.0 * (1.0 / kart.front_tyre + 1.0 / kart.spindle) / kart.front_track;
  halves.rear_free = -(left + right) * on.rear / (2.0 * kart.rear_track);
  halves.rear_give = (left - right) / kart.rear_track;
  halves.frame = front_section * kart.rear_frame / (front_section + kart.rear_frame);
  halves.front_moment =
      front_mass * turn.lateral * kart.front_mass_height +
      (kart.mass * turn.lateral * behind / kart.wheelbase - front_mass * turn.lateral) *
          kart.twist_axis_height -
      on.front * kart.mass_left;
  const double whole =
      kart.mass * turn.lateral * kart.mass_height - kart.mass * kGravity * kart.mass_left;
  halves.rear_moment = whole - halves.front_moment;
  return halves;
}

Cornering corner(const SprintKart& kart, const Manoeuvre& turn) {
  const FrontAndRear halves = front_and_rear(kart, turn);
  const Transfers free = solve(kart, halves);
  const double whole = halves.front_moment + halves.rear_moment;
  const double front_most = halves.front_axle / 2.0;
  const double rear_most = halves.rear_axle / 2.0;

  Cornering out;
  out.front_axle = halves.front_axle;
  out.rear_axle = halves.rear_axle;
  out.front_transfer = free.front;
  out.rear_transfer = free.rear;
  Transfers held = free;
  const double front_over = std::abs(free.front) / front_most;
  const double rear_over = std::abs(free.rear) / rear_most;
  if (std::max(front_over, rear_over) > 1.0) {
    if (rear_over >= front_over) {
      out.contact = Contact::inside_rear_off;
      held.rear = std::copysign(rear_most, free.rear);
      held.front = (whole - kart.rear_track * held.rear) / kart.front_track;
      if (std::abs(held.front) > front_most) out.contact = Contact::tipping;
    } else {
      out.contact = Contact::inside_front_off;
      held.front = std::copysign(front_most, free.front);
      held.rear = (whole - kart.front_track * held.front) / kart.rear_track;
      if (std::abs(held.rear) > rear_most) out.contact = Contact::tipping;
    }
  }
  if (out.contact == Contact::inside_rear_off)
    out.inside_rear_lift = lift_of_rear(kart, halves, held);
  held.front = std::clamp(held.front, -front_most, front_most);
  held.rear = std::clamp(held.rear, -rear_most, rear_most);
  out.loads = {front_most - held.front, front_most + held.front, rear_most - held.rear,
               rear_most + held.rear};
  return out;
}

}  // namespace kartwright
