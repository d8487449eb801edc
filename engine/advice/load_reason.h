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

/// Compares the middle of a corner before and after with what `steps` of the effect do to rear grip
/// in the middle and to unloading: more on the outside rear is more rear grip, less on the inside
/// rear more unloading. `made` says what was done: "rear width wider by 20 mm".
LoadReason load_reason(const LoadsToday& before, const Figures& after, const Effect& effect,
                       double steps, const std::string& made, const Pack& pack);

/// Where the rear grips too much in the middle: which of the two things of that name it is, as far
/// as the belief and the loads tell; else empty.
std::string two_meanings(const Advice& advice, const Pack& pack);

/// "rear width wider by 20 mm", "front bar in".
std::string made_text(const Setting& setting, std::size_t direction, double from, double to,
                      System system);

}  // namespace kartwright
