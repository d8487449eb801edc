// mass_moves.h - the moves of seat and ballast that a kart can make, and those that bring the
// weight into its bands.

#pragma once

#include <string>
#include <vector>

#include "engine/chassis/balance.h"
#include "engine/chassis/parameters.h"
#include "engine/chassis/scales.h"

namespace kartwright {

/// One mass from one place to another, as the kart file writes them.
struct MassStep {
  std::string id;              ///< adjustment id, `seat sideways`, or the carried mass by name
  std::string what, from, to;  ///< "seat forward", "0 mm", "10 mm"
  double mass = 0;             ///< kg
};

/// Moves made together.
struct MovePlan {
  std::vector<MassStep> steps;
  CornerLoads predicted;  ///< kg
  Shares shares;          ///< after it, the scales' error in them
  double higher = 0;      ///< of the centre of mass, m
  double minutes = 0;
  bool reaches = false;  ///< both bands
  bool legal = true;     ///< still not under the class's minimum weight
};

/// What of the kart can be moved: the seat along (inside range and class limit) and across, the
/// ballast along, and every carried mass. Setting and seat stand among their own places. Names of
/// places are in `units`.
std::vector<Movable> movables_of(const Kart& kart, const KnownKart& known, System units);

/// The most moves that are tried at once: three, fewer where the places are so many that it would
/// take long.
int most_moves_tried(const std::vector<Movable>& movables);

/// The best of them, three at most. `sigma` is of one scale, kg.
std::vector<MovePlan> move_plans(const Kart& kart, const Unbalanced& unbalanced,
                                 const std::vector<Movable>& movables, double sigma);

}  // namespace kartwright
