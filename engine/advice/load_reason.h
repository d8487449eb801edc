// load_reason.h - the figure behind a change: what it does to the loads of this kart, and whether
// that is what crews report of it.

#pragma once

#include <string>

#include "engine/advice/advice.h"
#include "engine/chassis/load_measures.h"
#include "engine/decision/effects.h"

namespace kartwright {

struct LoadReason {
  LoadsSay say = LoadsSay::nothing;
  std::string text;  ///< "rear width wider by 20 mm: 4.6 N less on the outside rear, ..."
};

/// A setting that goes from one place to another: SI, or the indices of positions.
struct SettingMove {
  const Setting& setting;
  std::size_t direction = 0;
  double from = 0, to = 0, steps = 0;
};

/// Compares the middle of a corner before and after with what the move does to rear grip in the
/// middle and to unloading: more on the outside rear is more rear grip, less on the inside rear
/// more unloading. Of the front bar it also says in which corners it does the other.
LoadReason load_reason(const LoadsToday& today, const SettingMove& move, const Effect& effect,
                       const Pack& pack, System units);

/// Where the rear grips too much in the middle: which of the two things of that name it is, as far
/// as the belief and the loads tell; else empty.
std::string two_meanings(const Advice& advice, const Pack& pack);

/// "rear width wider by 20 mm", "front bar in".
std::string made_text(const SettingMove& move, System system);

}  // namespace kartwright
