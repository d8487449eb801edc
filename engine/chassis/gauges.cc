#include "engine/chassis/gauges.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "engine/chassis/chain.h"

namespace kartwright {
namespace {

enum Tyre : std::size_t { left_front, right_front, left_rear, right_rear };

Amounts rises(const Amounts& hot, const Amounts& cold) {
  assert(hot.size() == 4 && cold.size() == 4);
  Amounts out;
  for (std::size_t i = 0; i < hot.size(); ++i) out.push_back(hot[i] - cold[i]);
  return out;
}

std::optional<double> links_for(std::span<const Amounts> in) {
  const double small = std::min(in[0][0], in[1][0]);
  const double large = std::max(in[0][0], in[1][0]);
  if (in[2][0] <= 0.0 || in[3][0] <= 0.0) return std::nullopt;
  return nearest_even_links(chain_pitches(small, large, in[3][0] / in[2][0]));
}

std::optional<double> distance_for(std::span<const Amounts> in) {
  const double small = std::min(in[0][0], in[1][0]);
  const double large = std::max(in[0][0], in[1][0]);
  const std::optional<double> pitches = chain_distance(small, large, in[3][0]);
  return pitches ? std::optional(*pitches * in[2][0]) : std::nullopt;
}

}  // namespace

std::optional<double> toe_angle(double front, double rear, double apart) {
  const double sine = (front - rear) / (2.0 * apart);
  if (!(apart > 0.0) || std::abs(sine) > 1.0) return std::nullopt;
  return 2.0 * std::asin(sine);
}

double mean_rise(const Amounts& hot, const Amounts& cold) {
  const Amounts r = rises(hot, cold);
  return (r[left_front] + r[right_front] + r[left_rear] + r[right_rear]) / 4.0;
}

double front_over_rear_rise(const Amounts& hot, const Amounts& cold) {
  const Amounts r = rises(hot, cold);
  return (r[left_front] + r[right_front] - r[left_rear] - r[right_rear]) / 2.0;
}

double left_over_right_rise(const Amounts& hot, const Amounts& cold) {
  const Amounts r = rises(hot, cold);
  return (r[left_front] + r[left_rear] - r[right_front] - r[right_rear]) / 2.0;
}

double side_difference(const Amounts& tyres) {
  assert(tyres.size() == 4);
  return std::max(std::abs(tyres[left_front] - tyres[right_front]),
                  std::abs(tyres[left_rear] - tyres[right_rear]));
}

std::optional<double> work_out(Formula formula, std::span<const Amounts> in, double by) {
  assert(in.size() == inputs_of(formula));
  switch (formula) {
    case Formula::itself:
      return in[0][0];
    case Formula::difference:
      return in[0][0] - in[1][0];
    case Formula::half:
      return in[0][0] / 2.0;
    case Formula::times:
      return in[0][0] * by;
    case Formula::toe_angle:
      return toe_angle(in[0][0], in[1][0], in[2][0]);
    case Formula::mean_rise:
      return mean_rise(in[0], in[1]);
    case Formula::front_over_rear_rise:
      return front_over_rear_rise(in[0], in[1]);
    case Formula::left_over_right_rise:
      return left_over_right_rise(in[0], in[1]);
    case Formula::side_difference:
      return side_difference(in[0]);
    case Formula::chain_links:
      return links_for(in);
    case Formula::chain_distance:
      return distance_for(in);
    case Formula::odd:
      return std::fmod(in[0][0], 2.0);
  }
  return std::nullopt;
}

}  // namespace kartwright
