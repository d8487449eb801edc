#include "engine/chassis/figures.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/algebra/crossing.h"

namespace kartwright {

namespace {

constexpr double kMost = 4.0 * kGravity;  // no kart corners harder
constexpr double kTogether = 1e-6;        // m/s^2: both inside wheels leave the ground as one
constexpr double kBeyondTheCorner = 1.5 * std::numbers::pi / 180.0;

struct Shape {
  double lateral, longitudinal;  // of the class's lateral acceleration
};

Shape shape_of(CornerPhase phase) {
  switch (phase) {
    case CornerPhase::entry:
      return {0.75, -0.35};
    case CornerPhase::mid:
      return {1.0, 0.0};
    case CornerPhase::exit:
      return {0.80, 0.20};
  }
  return {};
}

double steer_of(const SprintKart& kart, double radius) {
  return kart.wheelbase / radius + kBeyondTheCorner;
}

Manoeuvre steady(double lateral, double steer) {
  return {.lateral = lateral, .steer = steer, .side_force = lateral / kGravity};
}

/// The rear transfer of corner() as a quotient.
struct Transfer {
  double top, bottom, rear_axle;
};

Transfer rear_transfer_at(const SprintKart& kart, const Manoeuvre& turn) {
  const FrontAndRear h = front_and_rear(kart, turn);
  const double twist = h.rear_free - h.front_free - kart.twist;
  const double front = kart.front_track + h.frame * h.front_give;
  return {front * (h.rear_moment - h.frame * twist) +
              h.frame * h.front_give * (h.front_moment + h.frame * twist),
          front * kart.rear_track + h.frame * h.rear_give * kart.front_track, h.rear_axle};
}

}  // namespace

Manoeuvre manoeuvre_of(const SprintKart& kart, const CornerClass& corner, CornerPhase phase) {
  const Shape shape = shape_of(phase);
  Manoeuvre turn = steady(shape.lateral * corner.lateral, steer_of(kart, corner.radius));
  turn.longitudinal = shape.longitudinal * corner.lateral;
  return turn;
}

double static_stability(const SprintKart& kart) {
  const double track =
      kart.front_share * kart.front_track + (1.0 - kart.front_share) * kart.rear_track;
  return track / (2.0 * kart.mass_height);
}

double equivalent_track(double track, double height, double other_height) {
  return track * other_height / height;
}

double tips_at(const SprintKart& kart) {
  return kGravity * (static_stability(kart) + kart.mass_left / kart.mass_height);
}

std::optional<double> release_of(const SprintKart& kart, double steer) {
  // With the side force growing as the acceleration does, both sides of transfer = top / bottom are
  // linear in it: two accelerations give them everywhere.
  const Transfer still = rear_transfer_at(kart, steady(0.0, steer));
  const Transfer hard = rear_transfer_at(kart, steady(kGravity, steer));
  const double inside = still.rear_axle / 2.0;
  const double short_of_it = inside * still.bottom - still.top;
  if (short_of_it <= 0.0) return 0.0;
  const double each_g = (hard.top - still.top) - inside * (hard.bottom - still.bottom);
  // Where the inside front goes first, the inside rear follows when the kart tips.
  const double with_the_front = tips_at(kart);
  const double alone = each_g > 0.0 ? short_of_it / each_g * kGravity : with_the_front;
  const double first = std::min(alone, with_the_front);
  return first <= kMost ? std::optional(first) : std::nullopt;
}

std::optional<double> bar_turns_at(const SprintKart& kart, double radius) {
  return crossing(
      [&](double lateral) {
        const FrontAndRear at = front_and_rear(kart, steady(lateral, steer_of(kart, radius)));
        const double rear = at.rear_free + at.rear_give * at.rear_moment / kart.rear_track;
        const double front = at.front_free + at.front_give * at.front_moment / kart.front_track;
        return rear - front - kart.twist;
      },
      0.0, kMost);
}

Figures figures_of(const SprintKart& kart, const CornerClass& corner_class) {
  const Manoeuvre mid = manoeuvre_of(kart, corner_class, CornerPhase::mid);
  Manoeuvre straight_wheels = mid;
  straight_wheels.steer = 0.0;
  const Cornering at = corner(kart, mid);

  Figures out;
  out.outside_rear = at.rear_axle / 2.0 + at.rear_transfer;
  out.inside_rear = at.rear_axle / 2.0 - at.rear_transfer;
  out.response = (at.rear_transfer - corner(kart, straight_wheels).rear_transfer) / mid.steer;
  out.static_stability = static_stability(kart);
  out.release = release_of(kart, mid.steer);
  if (out.release) {
    const double left = std::max(tips_at(kart) - *out.release, kTogether);
    out.hop = (corner_class.peak - *out.release) / left;
  }
  return out;
}

}  // namespace kartwright
