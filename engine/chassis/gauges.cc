#include "engine/chassis/gauges.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <numeric>

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

/// Of each tyre, what the mean of the other three rose more.
Amounts behind_the_others(const Amounts& rise) {
  const double all = std::accumulate(rise.begin(), rise.end(), 0.0);
  Amounts out;
  for (const double own : rise) out.push_back((all - own) / 3.0 - own);
  return out;
}

Amounts less_than_beside(const Amounts& tyres) {
  assert(tyres.size() == 4);
  const double front = tyres[right_front] - tyres[left_front];
  const double rear = tyres[right_rear] - tyres[left_rear];
  return {front, -front, rear, -rear};
}

double most(const Amounts& all) { return *std::max_element(all.begin(), all.end()); }

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

double side_difference(const Amounts& tyres) { return most(less_than_beside(tyres)); }

Amounts by_tyre(Formula formula, std::span<const Amounts> in) {
  switch (formula) {
    case Formula::side_difference:
      return less_than_beside(in[0]);
    case Formula::least_rise:
    case Formula::most_rise:
      return rises(in[0], in[1]);
    case Formula::rise_behind:
      return behind_the_others(rises(in[0], in[1]));
    default:
      return {};
  }
}

std::string_view tyre_at(std::size_t index) {
  static constexpr std::array<std::string_view, 4> kNames{"left front", "right front", "left rear",
                                                          "right rear"};
  return kNames.at(index);
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
    case Formula::least_rise: {
      const Amounts all = by_tyre(formula, in);
      return *std::min_element(all.begin(), all.end());
    }
    case Formula::most_rise:
    case Formula::rise_behind:
      return most(by_tyre(formula, in));
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
