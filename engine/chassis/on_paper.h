// on_paper.h - a change made on paper: the loads of the four wheels before and after it.

#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "engine/chassis/paper_change.h"

namespace kartwright {

/// The line from the centre of mass down to where the outside rear tyre stands, seen from behind.
/// What the mass pushes along it, stands on the tyre with the upright part and pushes the tyre
/// sideways with the other.
struct PatchLine {
  double angle = 0;                  ///< above the ground, radians
  double upright = 0, sideways = 0;  ///< parts of it, of 1
};
PatchLine patch_line(double rear_track, double mass_height);

/// A kart in one class of corner.
struct PaperSide {
  SprintKart kart;
  std::array<Cornering, 3> phases;  ///< entry, mid, exit
  Figures figures;
  std::optional<double> bar_turns;  ///< m/s^2, see bar_turns_at()
  PatchLine line;
};
PaperSide paper_side(const KnownKart& known, const CornerClass& corner);

/// Before and after, on one track state.
struct PaperClass {
  std::string track;  ///< id of the state
  CornerClass corner;
  PaperSide before, after;                              ///< in a left turn
  std::optional<Figures> right = {}, right_after = {};  ///< in a right turn, where that is another
};

struct OnPaper {
  std::vector<PaperChange> changes;
  std::vector<PaperClass> classes;  ///< one; with the track unknown the lowest and highest grip
  std::vector<std::string_view> assumed;  ///< see KnownKart
};

/// Nothing where the pack has no figures for the physics. The kart and the pack outlive it.
std::optional<OnPaper> on_paper(const Kart& kart, const Pack& pack, const std::string& track,
                                const std::vector<PaperChange>& changes);

/// The ids of the track states that stand for an unknown one: the dry one that a kart corners least
/// on, and the one it corners most on.
std::vector<std::string> classes_of(const Pack& pack, const std::string& track);

/// What stands on the tyres in the middle of a corner: with the inside rear off the ground the
/// outside rear carries the axle and no more.
struct RearLoads {
  double outside = 0, inside = 0;  ///< N
};
RearLoads rear_loads(const Figures& figures);

/// What the change does, in the words of the pits: "4.6 N less on the outside rear, 4.6 N more on
/// the inside rear, released at 1.70 g instead of 1.68". "the loads stay as they are" where nothing
/// moves by 0.05 N.
std::string load_change(const Figures& was, const Figures& is);

}  // namespace kartwright
