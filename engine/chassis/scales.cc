#include "engine/chassis/scales.h"

#include <cmath>

namespace kartwright {

namespace {

WithError share(double part, double total, double sigma) {
  const double p = part / total;
  return {p, sigma / total * std::sqrt(2.0 * (1.0 - p) * (1.0 - p) + 2.0 * p * p)};
}

}  // namespace

Modes modes_of(const CornerLoads& on) {
  const double front = on.left_front + on.right_front;
  const double rear = on.left_rear + on.right_rear;
  const double left = on.left_front + on.left_rear;
  const double right = on.right_front + on.right_rear;
  const double diagonal = on.left_front + on.right_rear;
  const double cross = on.right_front + on.left_rear;
  return {front + rear, front - rear, left - right, diagonal - cross};
}

CornerLoads loads_of(const Modes& m) {
  return {(m.total + m.pitch + m.roll + m.warp) / 4.0, (m.total + m.pitch - m.roll - m.warp) / 4.0,
          (m.total - m.pitch + m.roll - m.warp) / 4.0, (m.total - m.pitch - m.roll + m.warp) / 4.0};
}

Shares shares_of(const CornerLoads& on, double sigma) {
  const double total = on.total();
  return {share(on.left_front + on.right_front, total, sigma),
          share(on.left_front + on.left_rear, total, sigma),
          share(on.right_front + on.left_rear, total, sigma)};
}

Pairs pairs_of(const CornerLoads& on, double sigma) {
  const double sd = std::sqrt(2.0) * sigma;
  return {{on.left_front - on.right_front, sd}, {on.left_rear - on.right_rear, sd}};
}

ScalesSwapped swap_scales(const CornerLoads& first, const CornerLoads& again, double sigma) {
  const auto mean = [](double a, double b) { return (a + b) / 2.0; };
  const auto too_much = [](double left, double left_again, double right, double right_again) {
    return ((left - left_again) - (right - right_again)) / 2.0;
  };
  ScalesSwapped out;
  out.on = {mean(first.left_front, again.left_front), mean(first.right_front, again.right_front),
            mean(first.left_rear, again.left_rear), mean(first.right_rear, again.right_rear)};
  out.sigma = sigma / std::sqrt(2.0);
  out.front_scales = {
      too_much(first.left_front, again.left_front, first.right_front, again.right_front), sigma};
  out.rear_scales = {too_much(first.left_rear, again.left_rear, first.right_rear, again.right_rear),
                     sigma};
  return out;
}

KartTurned turn_kart(const CornerLoads& first, const CornerLoads& again, double sigma) {
  const double one = modes_of(first).warp;
  const double other = modes_of(again).warp;
  const double sd = std::sqrt(2.0) * sigma;  // half of eight readings
  return {{(one + other) / 2.0, sd}, {(one - other) / 2.0, sd}};
}

}  // namespace kartwright
