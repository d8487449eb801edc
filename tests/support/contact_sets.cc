#include "tests/support/contact_sets.h"

#include <Eigen/Dense>
#include <Eigen/Geometry>
#include <cmath>
#include <functional>
#include <numbers>
#include <vector>

namespace kartwright::naive {
namespace {

using Matrix8 = Eigen::Matrix<double, 8, 8>;
using Vector8 = Eigen::Matrix<double, 8, 1>;

// Columns: the four loads, then heave and roll of the front half and of the rear half. Heave and
// roll are counted in units of 10 micrometres and 10 microradians, so that all are of one size.
constexpr int kFrontHeave = 4;
constexpr int kRearHeave = 6;
constexpr double kUnit = 1e-5;

/// Bending moment along the axle; places are metres left of the centre line.
using Moments = std::function<double(double)>;

/// Of a product of two moments that are linear over each part: Simpson's rule is exact.
double integral(const Moments& a, const Moments& b, const std::vector<double>& ends) {
  double sum = 0.0;
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    const auto at = [&](double place) { return a(place) * b(place); };
    const double middle = (ends[i] + ends[i + 1]) / 2.0;
    sum += (ends[i + 1] - ends[i]) / 6.0 * (at(ends[i]) + 4.0 * at(middle) + at(ends[i + 1]));
  }
  return sum;
}

struct Axle {
  double half_track, bearing, free_end;  ///< free_end: of the axle outside its hub
};

/// Of an upward newton on the wheel at `side` (1 left, -1 right) with a couple of `arm` metres,
/// the axle held at its outer bearings only.
Moments of_wheel(const Axle& axle, double side, double arm) {
  return [=](double place) {
    const double out = side * place;
    const double at_bearing = axle.half_track - axle.bearing + side * arm;
    if (out > axle.bearing) return axle.half_track - out + side * arm;
    return out < -axle.bearing ? 0.0 : at_bearing * (out + axle.bearing) / (2.0 * axle.bearing);
  };
}

/// Of an upward newton in the middle.
Moments of_middle(const Axle& axle) {
  return [=](double place) { return std::min(std::abs(place) - axle.bearing, 0.0) / 2.0; };
}

struct Roll {
  double front, rear;
};

/// N m about the ground. The front tyres' side force goes up to the frame's twist axis but for what
/// the front half's own mass takes.
Roll roll_of(const SprintKart& kart, const Manoeuvre& turn, double on_front) {
  const double own = kart.front_mass_share * kart.mass * turn.lateral;
  const double tyres = kart.front_share * kart.mass * turn.lateral;
  const double whole = kart.mass * (turn.lateral * kart.mass_height - kGravity * kart.mass_left);
  const double front = own * kart.front_mass_height + (tyres - own) * kart.twist_axis_height -
                       on_front * kart.mass_left;
  return {front, whole - front};
}

double series(double a, double b) { return a * b / (a + b); }

struct Equations {
  Matrix8 matrix = Matrix8::Zero();
  Vector8 right = Vector8::Zero();
};

/// Rows 0..3: weight, pitch, and roll of either half.
void add_balance(const SprintKart& kart, const Manoeuvre& turn, Equations& s) {
  const double weight = kart.mass * kGravity;
  const double on_rear = weight * (1.0 - kart.front_share) +
                         kart.mass * turn.longitudinal * kart.mass_height / kart.wheelbase;
  const Roll roll = roll_of(kart, turn, weight - on_rear);
  const double frame = series(kart.front_frame + kart.front_bar, kart.rear_frame);
  s.matrix.row(0) << 1, 1, 1, 1, 0, 0, 0, 0;
  s.matrix.row(1) << 0, 0, 1, 1, 0, 0, 0, 0;
  const double half_front = kart.front_track / 2.0;
  const double half_rear = kart.rear_track / 2.0;
  const double k = frame * kUnit;
  s.matrix.row(2) << -half_front, half_front, 0, 0, 0, k, 0, -k;
  s.matrix.row(3) << 0, 0, -half_rear, half_rear, 0, -k, 0, k;
  s.right.head<4>() << weight, on_rear, roll.front - frame * kart.twist,
      roll.rear + frame * kart.twist;
}

/// How far each wheel is above the ground, in units: gap = matrix * unknowns - right.
struct Gaps {
  Eigen::Matrix<double, 4, 8> matrix = Eigen::Matrix<double, 4, 8>::Zero();
  Eigen::Vector4d right = Eigen::Vector4d::Zero();
};

Gaps gaps_of(const SprintKart& kart, const Manoeuvre& turn) {
  const double front = (1.0 / kart.front_tyre + 1.0 / kart.spindle) / kUnit;
  const AxleCompliance axle = axle_by_virtual_work(kart, turn.side_force);
  const FrontPush push = push_by_rotation(kart, turn.steer);
  Gaps out;
  out.matrix(0, 0) = out.matrix(1, 1) = front;
  out.matrix.block<2, 2>(2, 2) << axle.left_left, axle.left_right, axle.right_left,
      axle.right_right;
  out.matrix.block<2, 2>(2, 2) /= kUnit;
  out.matrix.block<2, 2>(0, kFrontHeave) << 1, kart.front_track / 2.0, 1, -kart.front_track / 2.0;
  out.matrix.block<2, 2>(2, kRearHeave) << 1, kart.rear_track / 2.0, 1, -kart.rear_track / 2.0;
  out.right << push.left / kUnit, push.right / kUnit, 0, 0;
  return out;
}

/// The stand with these wheels on the ground, or nothing where there is none or more than one.
std::optional<Stand> stand_on(unsigned wheels, Equations s, const Gaps& gaps) {
  for (int wheel = 0; wheel < 4; ++wheel) {
    const int row = 4 + wheel;
    if ((wheels >> wheel & 1U) != 0U) {
      s.matrix.row(row) = gaps.matrix.row(wheel);
      s.right[row] = gaps.right[wheel];
    } else {
      s.matrix(row, wheel) = 1.0;
    }
  }
  Eigen::FullPivLU<Matrix8> lu(s.matrix);
  lu.setThreshold(1e-10);
  if (!lu.isInvertible()) return {};
  const Vector8 x = lu.solve(s.right);
  const Eigen::Vector4d above = gaps.matrix * x - gaps.right;
  Stand out{.loads = {x[0], x[1], x[2], x[3]}};
  for (std::size_t wheel = 0; wheel < 4; ++wheel) {
    const auto i = static_cast<Eigen::Index>(wheel);
    if (x[i] < -1e-9 || above[i] < -1e-9) return {};
    out.on_the_ground[wheel] = (wheels >> wheel & 1U) != 0U;
    out.above[wheel] = above[i] * kUnit;
  }
  return out;
}

}  // namespace

std::optional<Stand> stand_of(const SprintKart& kart, const Manoeuvre& turn) {
  Equations s;
  add_balance(kart, turn, s);
  const Gaps gaps = gaps_of(kart, turn);
  for (unsigned wheels = 0; wheels < 16; ++wheels) {
    if (const std::optional<Stand> found = stand_on(wheels, s, gaps)) return found;
  }
  return {};
}

AxleCompliance axle_by_virtual_work(const SprintKart& kart, double side_force) {
  const double inner = kart.axle_diameter - 2.0 * kart.axle_wall;
  const double area = std::numbers::pi / 4.0 * (std::pow(kart.axle_diameter, 2) - inner * inner);
  const double gyration = (std::pow(kart.axle_diameter, 2) + inner * inner) / 16.0;
  const double stiffness = kart.axle_modulus * area * gyration;
  const double half = kart.rear_track / 2.0;
  const double bearing = kart.bearing_half_distance;
  const double free = std::max(half - std::max(kart.hub_length - kart.hub_outboard, 0.0), bearing);
  const Axle axle{half, bearing, free};
  const std::vector<double> ends{-free, -bearing, 0.0, bearing, free};
  const Moments middle = of_middle(axle);
  const double middle_gives = integral(middle, middle, ends);
  const auto at_of = [&](double at, double of) {
    const Moments unit = of_wheel(axle, at, 0.0);
    const Moments load = of_wheel(axle, of, kart.rear_tyre_radius * side_force);
    const double held = kart.middle_bearing ? integral(load, middle, ends) *
                                                  integral(middle, unit, ends) / middle_gives
                                            : 0.0;
    const double own = at == of ? 1.0 / kart.rear_tyre + 1.0 / kart.carrier : 0.0;
    return (integral(load, unit, ends) - held) / stiffness + own;
  };
  return {at_of(1, 1), at_of(1, -1), at_of(-1, 1), at_of(-1, -1)};
}

FrontPush push_by_rotation(const SprintKart& kart, double steer) {
  const double half = kart.front_track / 2.0;
  const double differ = kart.ackermann * steer * steer * half / kart.wheelbase + kart.toe_out;
  const auto pushed = [&](double side, double angle) {
    // Leaning back at its upper end, and inboard.
    const Eigen::Vector3d kingpin(-std::tan(kart.caster),
                                  -side * std::tan(kart.kingpin_inclination), 1.0);
    const Eigen::Vector3d wheel(0.0, side * (half - kart.kingpin_width / 2.0), 0.0);
    return -(Eigen::AngleAxisd(angle, kingpin.normalized()) * wheel).z();
  };
  return {pushed(1.0, steer + differ), pushed(-1.0, steer - differ)};
}

}  // namespace kartwright::naive
