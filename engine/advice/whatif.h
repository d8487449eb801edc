// whatif.h - changes made on paper: the loads before and after, and beside them what crews report
// of the same changes, each called what it is.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/advice/advice.h"
#include "engine/chassis/on_paper.h"

namespace kartwright {

/// What crews report of one change of a setting, by the rules that hold on this track.
struct Reported {
  std::string adjustment;                             ///< id
  std::string made;                                   ///< "rear width wider by 20 mm"
  std::vector<std::pair<std::size_t, double>> moves;  ///< axes, and by how many notches
  bool contested = false;
  bool loads_claim = false;            ///< the physics moves the loads with it
  LoadsSay loads = LoadsSay::nothing;  ///< of this change alone, on the first class
  std::string text;                    ///< of the loads, see load_reason()
};

/// An assumed size, and how far the answer hangs on it.
struct CountsMost {
  std::string id;                  ///< dimension or measure
  double low = 0, high = 0;        ///< SI, what karts usually have
  double at_low = 0, at_high = 0;  ///< N more on the outside rear, as RESULT has it, with each
};

struct WhatIf {
  OnPaper paper;
  double front_tyre_width = 0, rear_tyre_width = 0;  ///< m, for a picture
  /// The assumed size that moves the answer most within what karts usually have; the one to
  /// measure. Nothing where none moves it by a tenth of a newton.
  std::optional<CountsMost> counts_most = {};
  std::vector<Reported> reported;  ///< one for each changed setting, in the order asked
  /// With the mass at another height: the rear track that is as steady with it there as the kart's
  /// own was, m.
  std::optional<double> equivalent_track;
  std::vector<std::string_view> cautions;  ///< texts of what is changed, in the pack
};

/// The cautions of the settings that are changed, and that the last word is elsewhere.
std::vector<std::string_view> paper_cautions(const std::vector<PaperChange>& changes,
                                             const Pack& pack);

/// Nothing where the pack has no figures for the physics. The pack and the kart outlive it.
std::optional<WhatIf> whatif(const Kart& kart, const Pack& pack, const std::string& track,
                             const std::vector<PaperChange>& changes, System units);

/// One row of a sweep.
struct SweepRow {
  PaperChange change;
  Figures figures;
  Cornering middle;  ///< of the corner: what stands on the tyres
};
struct Sweep {
  std::string track;
  CornerClass corner;
  std::vector<SweepRow> rows;
  std::vector<std::string_view> assumed;  ///< see KnownKart
};
/// Every place of a sweep on top of `changes`; one sweep for each class of track, as OnPaper has.
std::vector<Sweep> sweep(const Kart& kart, const Pack& pack, const std::string& track,
                         const std::vector<PaperChange>& changes,
                         const std::vector<PaperChange>& places);

}  // namespace kartwright
