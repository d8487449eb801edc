#include "engine/chassis/corner.h"

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

struct Held {
  Transfers moved;
  Contact contact = Contact::all_four;
};

/// What the wheels can hold of the free transfers. A wheel off the ground fixes its axle's, and the
/// roll then fixes the other's; `most` is half of what each axle carries. Where both would lift a
/// wheel only one of the two can, and where neither can alone, the kart tips.
Held held_by(const SprintKart& kart, const AxleTotals& most, double roll, const Transfers& free) {
  const bool rear_over = std::abs(free.rear) > most.rear;
  const bool front_over = std::abs(free.front) > most.front;
  if (!rear_over && !front_over) return {free, Contact::all_four};
  if (rear_over) {
    const double rear = std::copysign(most.rear, free.rear);
    const double front = (roll - kart.rear_track * rear) / kart.front_track;
    if (std::abs(front) <= most.front) return {{front, rear}, Contact::inside_rear_off};
  }
  if (front_over) {
    const double front = std::copysign(most.front, free.front);
    const double rear = (roll - kart.front_track * front) / kart.rear_track;
    if (std::abs(rear) <= most.rear) return {{front, rear}, Contact::inside_front_off};
  }
  return {{std::copysign(most.front, roll), std::copysign(most.rear, roll)}, Contact::tipping};
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
  const AxleTotals half{halves.front_axle / 2.0, halves.rear_axle / 2.0};
  const Transfers free = solve(kart, halves);
  const Held held = held_by(kart, half, halves.front_moment + halves.rear_moment, free);

  Cornering out;
  out.contact = held.contact;
  out.front_axle = halves.front_axle;
  out.rear_axle = halves.rear_axle;
  out.front_transfer = free.front;
  out.rear_transfer = free.rear;
  out.loads = {half.front - held.moved.front, half.front + held.moved.front,
               half.rear - held.moved.rear, half.rear + held.moved.rear};
  if (out.contact == Contact::inside_rear_off)
    out.inside_rear_lift = lift_of_rear(kart, halves, held.moved);
  return out;
}

}  // namespace kartwright
