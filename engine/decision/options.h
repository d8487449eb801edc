// options.h - every place every adjustment could be moved to, and whether it may be.

#pragma once

#include <array>
#include <string>
#include <vector>

#include "engine/kart/kart.h"

namespace kartwright {

/// Why a move is not offered. The names in the contract are those of name_of.
enum class Refusal {
  none,
  end_stop,
  class_limit,
  no_part,
  no_time,
  makes_worse,
  not_on_this_kart,
  effect_unknown,
};
std::string_view name_of(Refusal refusal);

/// One place an adjustment could go to from where it stands.
struct Option {
  const Setting* setting = nullptr;  ///< in the kart
  std::size_t direction = 0;         ///< index into Adjustment::directions
  double from = 0.0, to = 0.0;       ///< as Setting::now
  double steps = 0.0;                ///< u: signed reference steps, + is direction 0
  double minutes = 0.0;
  bool last_notch = false;  ///< lands on an end of an adjustment with five or more places
  bool at_once = true;      ///< not farther than the adjustment's most at once
  double room_left = 0.0;   ///< reference steps still open behind it, the same way
  Refusal refusal = Refusal::none;

  bool legal() const { return refusal == Refusal::none && at_once; }
  /// Allowed by the class and the box, whatever the time and the size of one move.
  bool open() const { return refusal == Refusal::none || refusal == Refusal::no_time; }
};

/// All places of one adjustment in one direction, nearest first; empty at an end stop.
struct Way {
  const Adjustment* adjustment = nullptr;
  const Setting* setting = nullptr;  ///< null where the kart has no such adjustment
  std::size_t direction = 0;
  std::vector<Option> options;
};

/// What keeps a setting at an end from going further that way: end_stop, class_limit or no_part.
Refusal stopped_by(const Setting& setting, std::size_t direction);

/// How far a setting can go down and up, whatever the time and the size of one move, and what ends
/// it there: end_stop, class_limit or no_part. Values as Setting::now.
struct OpenTravel {
  double low = 0.0, high = 0.0;
  Refusal below = Refusal::end_stop, above = Refusal::end_stop;
};
OpenTravel open_travel(const Setting& setting);

/// Every adjustment of the pack in both directions, by id, direction 0 first. An option is refused
/// for the class limit, the part, or the time, in that order.
std::vector<Way> all_ways(const Pack& pack, const Kart& kart, double minutes_left);

/// The two ways of one adjustment.
std::array<Way, 2> ways_of(const Adjustment& adjustment, const Setting* setting,
                           double minutes_left);

/// The same ways with all the time there could be.
std::vector<Way> with_time(std::vector<Way> ways);

/// u of a move between two places, signed: + is direction 0.
double steps_between(const Setting& setting, double from, double to);

/// Reference steps between neighbouring places; 1 for named positions.
double grid_of(const Setting& setting);

/// The last place the class allows in a direction, on this kart.
double legal_end(const Setting& setting, std::size_t direction);

}  // namespace kartwright
