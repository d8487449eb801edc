// balance.h - which masses to move, and where, so that the shares of the weight come into their
// bands: every combination of few moves is tried, so that what it finds is the least there is.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/kart/corner_loads.h"

namespace kartwright {

/// Where a mass can stand: metres forward, to the left and up from anywhere fixed on the kart.
struct Mount {
  std::string name;
  double forward = 0, left = 0, up = 0;
};

/// A mass that can be moved between mounts; it stands on one of them.
struct Movable {
  std::string name;
  double mass = 0;  ///< kg
  std::vector<Mount> mounts;
  std::size_t at = 0;
  double minutes = 0;  ///< that a move takes
};

/// What a share has to lie in; fractions.
struct Band {
  double from = 0, to = 1;
};

/// The kart on its scales, and what is asked of it.
struct Unbalanced {
  CornerLoads on;                                         ///< kg
  double wheelbase = 0, front_track = 0, rear_track = 0;  ///< m
  Band front, left;
};

struct MassMove {
  std::size_t movable = 0, mount = 0;  ///< indices
};

struct Cure {
  std::vector<MassMove> moves;  ///< at most one of each movable, in their order
  CornerLoads predicted;        ///< kg
  double higher = 0;            ///< of the centre of mass, m
  double minutes = 0;
  double outside = 0;  ///< fraction by which shares still miss their bands, both added
};

/// Cures, best first: those that reach both bands, fewest moves first, then least minutes, then
/// nearest to the middles of the bands. Where none reaches them, the one that comes nearest with
/// the fewest moves; empty where nothing comes nearer than leaving it. The warp is taken to stay as
/// it is. In truth a mass moved sideways changes it by a tenth of what it changes the roll, on
/// plausible karts by a fifth at the most, the other way as a rule: 0.1 kg for the seat
/// moved by a centimetre.
std::vector<Cure> cures(const Unbalanced& kart, const std::vector<Movable>& movables,
                        int most_moves, std::size_t how_many);

/// The readings after moves, kg, by moments: a mass moved by dx forward takes dx / wheelbase of
/// itself to the front axle. Moved by dy to the left it takes dy / track from right to left, half
/// of it on either axle, since the warp stays; track is the mean of both.
CornerLoads after_moves(const Unbalanced& kart, const std::vector<Movable>& movables,
                        const std::vector<MassMove>& moves);

}  // namespace kartwright
