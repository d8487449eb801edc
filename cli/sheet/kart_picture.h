// kart_picture.h - the kart from above with what its wheels carry, and from behind with the line
// from the centre of mass to the outside rear tyre. Both are to scale.

#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "cli/sheet/drawing.h"
#include "engine/chassis/on_paper.h"
#include "engine/quantity/quantity.h"

namespace kartwright::cli {

/// A load beside a wheel. `json` points at it in the command's JSON.
struct WheelFigure {
  std::string text, json;
  std::string style = {};
};

/// What a line beside every wheel is, in the look of that line.
struct LegendWord {
  std::string text;
  std::string style;
};

/// A line below the kart: what, how much, and what is said of it.
struct ShareLine {
  std::string label;
  WheelFigure figure;
  std::string note = {};
};

/// Sizes in m.
struct KartOutline {
  double wheelbase = 0, front_track = 0, rear_track = 0;
  double front_tyre_width = 0, rear_tyre_width = 0;
  double front_tyre_radius = 0, rear_tyre_radius = 0;
};
KartOutline outline_of(const SprintKart& kart, double front_tyre_width, double rear_tyre_width);

/// Where the centre of mass is, m: in front of the rear axle, left of the centre line.
struct MassPlace {
  double forward = 0, left = 0;
};
MassPlace mass_place(const SprintKart& kart);
/// By what stands under the four wheels.
MassPlace mass_place(const CornerLoads& on, const KartOutline& kart);

/// Within which places the class or the crew wants the centre of mass, m.
struct MassBand {
  double back = 0, front = 0, right = 0, left = 0;
};

struct FromAbove {
  KartOutline kart;
  /// Left front, right front, left rear, right rear; up to three lines each.
  std::array<std::vector<WheelFigure>, 4> wheels;
  /// Bars beside the wheels, one scale for all: what is, and what would be. Any unit.
  std::optional<CornerLoads> was = {}, is = {};
  MassPlace mass;
  std::optional<MassPlace> mass_after = {};  ///< where a move would bring it
  std::optional<MassBand> band = {};
  std::vector<LegendWord> legend = {};
  std::vector<ShareLine> shares = {};
  System units = System::metric;
  bool turns_left = false;  ///< else it stands
};

/// `in_words` is what stands in the picture, for whoever cannot see it.
Picture from_above(const FromAbove& view, std::string_view in_words);

/// Before and after, in a left turn: the outside is the right.
struct FromBehind {
  SprintKart was;
  std::optional<SprintKart> is;
  double rear_tyre_width = 0;
  PatchLine line;
  std::optional<PatchLine> line_after;
  std::string json_before, json_after;  ///< of the objects that hold `line`
  System units = System::metric;
};
Picture from_behind(const FromBehind& view);

/// Left front, right front, left rear, right rear.
std::array<double, 4> by_wheel(const CornerLoads& on);
std::string_view wheel_name(std::size_t wheel);

/// A force as a picture tells it: "843 N", "189.5 lbf".
std::string force_text(double newtons, System units);

}  // namespace kartwright::cli
