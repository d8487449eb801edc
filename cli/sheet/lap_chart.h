// lap_chart.h - lap time against lap number: the axes, and the signs that laps stand as. Each group
// of laps has another shape, so that no colour is needed to tell them apart.

#pragma once

#include <cstddef>
#include <string>

#include "cli/sheet/drawing.h"

namespace kartwright::cli {

/// An end of an axis: what stands there, and where it stands in the command's JSON.
struct AxisEnd {
  double value = 0;
  std::string json = {};
};

/// Laps and seconds to a picture as wide as a drawing. The slowest lap of the scale is on top.
struct LapChart {
  static constexpr double kLapRadius = 3.2;
  AxisEnd first, last;         ///< lap numbers, whole
  AxisEnd least, most;         ///< seconds
  double radius = kLapRadius;  ///< of a sign
  static constexpr double kLeft = 66.0, kRight = 310.0;
  static constexpr double kTop = 38.0, kFoot = 138.0;
  static constexpr double kAxis = kFoot + 23.0;
  static constexpr double kBelow = kAxis + 36.0;  ///< where a line of words may stand under it

  double x(int number) const;
  double y(double seconds) const;  ///< beyond the plot where a time is off the scale
  /// Where the sign of a lap stands; at the edge where it is off the scale.
  Point at(int number, double seconds) const;
};

void lap_axes(Drawing& drawing, const LapChart& chart);

/// The sign of a group, by its number; 25 of them differ.
void lap_mark(Drawing& drawing, Point at, std::size_t group, double radius = LapChart::kLapRadius);

/// A lap's sign where it belongs, under an arrow where that is off the scale.
void lap_in_chart(Drawing& drawing, const LapChart& chart, int number, double seconds,
                  std::size_t group);

/// What a lap has that is far off the rest: a ring about its sign.
void ring_in_chart(Drawing& drawing, const LapChart& chart, int number, double seconds);

/// Of a chart of so many laps.
double lap_radius(std::size_t laps);

/// "31.420 s", "1020 s"
std::string seconds_text(double seconds);

}  // namespace kartwright::cli
