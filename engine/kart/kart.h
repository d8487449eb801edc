// kart.h - one kart as it stands: its settings, how far each can go, what the class allows and what
// is here.

#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/document/document.h"
#include "engine/kart/corner_loads.h"
#include "engine/knowledge/pack.h"
#include "engine/quantity/quantity.h"

namespace kartwright {

/// Where an adjustment can stand: SI values of a range's grid, from + k * step, or 0, 1, 2 ... for
/// named positions. Ascending is direction 0, unless the reference step is negative.
struct Travel {
  std::vector<double> places;      ///< ascending; within the mechanical range
  std::vector<std::string> names;  ///< of named positions, in the pack's order, else empty
  double step = 1.0;               ///< SI between places of a range
};

/// What the class allows. SI; absent ends are open.
struct ClassLimit {
  std::optional<double> at_least = {}, at_most = {};
  std::vector<std::string> allowed = {};  ///< named positions; empty: all
};

/// One adjustment on this kart.
struct Setting {
  const Adjustment* adjustment = nullptr;  ///< in the pack, which outlives the kart
  double now = 0.0;  ///< SI, or the index in `travel.names`; on a step it equals that place
  Travel travel;
  ClassLimit limit;
  /// Parts on hand, the fitted one among them, in the pack's order. Where the crew does not say,
  /// all of them; empty only for adjustments whose positions are not parts.
  std::vector<std::string> in_the_box = {};
  double minutes = 0.0;  ///< that a move takes: the crew's figure, else the pack's
};

/// Where a mass can be mounted, m from one point of the kart: forward, to the left, up.
struct CarriedMount {
  std::string name;
  double forward = 0.0, left = 0.0, up = 0.0;
};

/// A mass that can be moved between mounts, as a lead plate.
struct CarriedMass {
  std::string name;
  double mass = 0.0;  ///< kg
  std::vector<CarriedMount> mounts = {};
  std::size_t at = 0;  ///< the mount it is on
  double minutes = 0.0;
};

/// How far the seat can go sideways, m to the left.
struct SeatSideways {
  double at = 0.0;
  std::vector<double> places;  ///< ascending; `at` is one of them
};

struct Kart {
  std::string name = "a typical sprint kart";
  bool typical = false;  ///< no kart file was given
  std::string class_name;
  std::optional<double> minimum_weight;     ///< kg
  std::map<std::string, Setting> settings;  ///< by adjustment id; what is not here is not fitted
  std::map<std::string, double, std::less<>>
      measures;                               ///< by measure id, SI; also what corner weights give
  std::optional<CornerLoads> corner_weights;  ///< kg, where the four scales are given
  std::map<std::string, std::pair<double, double>> bands;  ///< the crew's own, by measure id, SI
  std::map<std::string, double, std::less<>> dimensions;   ///< where known, SI (wheelbase, ...)
  std::map<std::string, std::string> facts;                ///< that stand for this kart, by fact id
  std::vector<CarriedMass> carried;                        ///< in the file's order
  std::optional<SeatSideways> seat_sideways;  ///< where the file says that it can go sideways
  System units = System::metric;              ///< the system most of its lengths are written in

  /// The setting of an adjustment, or nullptr where this kart has none.
  const Setting* setting(std::string_view adjustment) const;
};

/// Reads a kart file. Findings hold every mistake with its place, all of them in one run; a kart
/// outside its own range, list or class limit is an error, a setting between two steps or two
/// settings that contradict each other a warning. Never throws. What cannot be read is left out, so
/// a kart with errors is not to be used. REQUIRES: the pack outlives the kart.
Kart read_kart(const Document& document, const Pack& pack, Findings& findings);
/// The same from a map inside another document (a debrief file may hold its kart).
Kart read_kart(const Document& document, const Node& node, const Pack& pack, Findings& findings);

/// The pack's own typical kart: every adjustment in the setting that the pack names as typical, no
/// class limit, every part on hand. REQUIRES: the pack outlives the kart.
Kart typical_kart(const Pack& pack);

/// A kart file to fill in: it reads as a kart without settings until lines are uncommented.
/// `example` gives the typical kart instead, complete. Reading that gives the settings of
/// typical_kart again, with one class limit at the end of a usual range.
std::string start_kart_file(const Pack& pack, bool example);

/// A setting's value, SI or index of a position, as a kart file writes it: `1360 mm`, `medium`. An
/// index beyond the list is taken as its end.
std::string print_setting(const Setting& setting, double value, System system);

/// True where the class allows this value of a setting, SI or index; a limit itself is allowed.
bool class_allows(const Setting& setting, double value);

}  // namespace kartwright
