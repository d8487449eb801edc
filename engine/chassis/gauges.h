// gauges.h - the arithmetic of measured checks: what four tyres on a gauge or two readings across
// the front tyres amount to.

#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "engine/knowledge/gauge.h"

namespace kartwright {

/// One amount, SI; or four: left and right front, left and right rear.
using Amounts = std::vector<double>;

/// Angle between the planes of the two front wheels, radians, out positive, from the widths across
/// the front and the rear of the tyres at axle height, and how far apart those two are measured,
/// metres: 2 asin((front - rear) / 2 apart). Nothing where no wheels stand so.
std::optional<double> toe_angle(double front, double rear, double apart);

/// Mean over four tyres of hot less cold.
double mean_rise(const Amounts& hot, const Amounts& cold);
/// By how much the fronts rose more than the rears, in the mean.
double front_over_rear_rise(const Amounts& hot, const Amounts& cold);
/// By how much the left side rose more than the right, in the mean.
double left_over_right_rise(const Amounts& hot, const Amounts& cold);
/// The larger of the two differences between left and right of an axle, without its sign.
double side_difference(const Amounts& tyres);

/// Of a formula that looks for one tyre, its figure of each:
///   side-difference: what the other tyre of the axle has more (four tyres),
///   least-rise, most-rise: hot less cold; rise-behind: what the mean of the other three rose more
///   (hot, cold).
/// Empty of other formulas.
Amounts by_tyre(Formula formula, std::span<const Amounts> inputs);

/// "left front": the tyre that stands so in Amounts. REQUIRES: index < 4.
std::string_view tyre_at(std::size_t index);

/// A formula of a rule pack on its inputs:
///   itself (a), difference (a - b), half (a), times (a by),
///   toe-angle (front, rear, apart), mean-rise, front-over-rear-rise, left-over-right-rise (hot,
///   cold), side-difference (four tyres), least-rise, most-rise, rise-behind (hot, cold): of four
///   tyres the least or, of the last two, the most,
///   chain-links (teeth, teeth, pitch, distance between the shafts), an even number,
///   chain-distance (teeth, teeth, pitch, links), metres between the shafts, odd (a whole number).
/// Nothing where there is no such figure, as of a chain too short to go round. REQUIRES: as many
/// inputs as the formula takes, four amounts where it speaks of tyres.
std::optional<double> work_out(Formula formula, std::span<const Amounts> inputs, double by);

}  // namespace kartwright
