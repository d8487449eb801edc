// travel.h - the places where an adjustment can stand, and which two numbers are one place.
//
// Knows nothing of files: the reader of kart files and the typical kart both build on it.

#pragma once

#include <optional>
#include <string_view>

#include "engine/kart/kart.h"

namespace kartwright {

/// The ends of a range and the distance between two places, SI.
struct Range {
  double from = 0.0, to = 0.0, step = 0.0;
};

/// The most places that a range may have; more is a slip of the pen.
inline constexpr int kMostPlaces = 500;

/// True where two settings cannot be told apart: 1e-9 of the larger, or of `scale` near zero.
bool same_value(double a, double b, double scale = 0.0);

/// from, from + step, ... none beyond `to`, which is one itself only if it lies on the grid (1e-9
/// of a step). A range without a step or a width is the one place `from`; never over kMostPlaces.
Travel travel_over(const Range& range);
/// The range that the pack calls usual, all zero for named positions.
Range usual_range(const Adjustment& adjustment);
/// Where a kart goes whose file gives no range: the usual range, or every named position.
Travel usual_travel(const Adjustment& adjustment);

/// The place nearest to a value; the lower of two that are equally near. REQUIRES: a place.
double nearest_place(const Travel& travel, double value);
/// The index of a named position, or nothing.
std::optional<double> place_named(const Travel& travel, std::string_view name);

}  // namespace kartwright
