// sketch.h - what a picture of an advised kart shows: the loads of its wheels as it stands and in
// the corner that the complaint is of, before and after the change that leads, on paper.

#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "engine/advice/advice.h"
#include "engine/chassis/on_paper.h"

namespace kartwright {

struct Sketch {
  PaperClass paper;          ///< in corners of the track; of an unknown one those of most grip
  bool moves_loads = false;  ///< else nothing leads that the physics claims: after is as before
  std::size_t phase = 1;  ///< of the left turn, as PaperSide::phases: that of the worst complaint
  CornerLoads standing;   ///< kg, on level ground
  bool weighed = false;   ///< by the scales; else by the kart's shares
  double front_tyre_width = 0, rear_tyre_width = 0;  ///< m
  std::size_t assumed = 0;                           ///< sizes that nobody gave

  const Cornering& before() const { return paper.before.phases.at(phase); }
  const Cornering& after() const { return paper.after.phases.at(phase); }
};

/// "entry", "mid" or "exit".
std::string_view phase_of(const Sketch& sketch);

/// Kilograms under each wheel: of the scales where the kart has been on them, else of its shares.
CornerLoads standing_loads(const Kart& kart, const KnownKart& known);

/// Nothing where the pack has no figures for the physics. The kart and the pack outlive it.
std::optional<Sketch> sketch_of(const Advice& advice, const Kart& kart, const Pack& pack);

}  // namespace kartwright
