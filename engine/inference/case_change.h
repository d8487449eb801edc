// case_change.h - one thing changed on a case: a fact, a report, a setting, a measurement, a
// band.
//
// Changes are values, so that what would have to be different can be shown, tried and taken back.

#pragma once

#include <optional>
#include <string>
#include <variant>

#include "engine/debrief/debrief.h"
#include "engine/inference/situation.h"
#include "engine/kart/kart.h"

namespace kartwright {

/// The crew states a fact; without a value nobody says anything of it. `track` is one of them.
struct FactChange {
  std::string fact;
  std::optional<std::string> to = {};
};

/// A symptom at a phase is reported once, with this severity (0 denies it), or not at all.
struct ReportChange {
  std::string symptom;
  Phase phase = Phase::any;
  std::optional<int> severity = {};
};

/// An adjustment stands at a place: SI, or the index of a named position. Where the kart has no
/// such adjustment it is fitted, with the usual travel.
struct SettingChange {
  std::string adjustment;
  double to = 0.0;
};

/// A measurement gives this, in SI.
struct MeasureChange {
  std::string measure;
  double to = 0.0;
};

/// The crew has a band of its own for a measurement, SI.
struct BandChange {
  std::string measure;
  double from = 0.0, to = 0.0;
};

using CaseChange = std::variant<FactChange, ReportChange, SettingChange, MeasureChange, BandChange>;

/// What a case is entered as.
struct EnteredCase {
  Kart kart;
  Debrief debrief;
};

/// The kart, the track, the reports and the stated facts behind a situation. The minutes and hours
/// left are not part of it.
EnteredCase case_of(const Situation& situation);

/// Makes a change and leaves all else as it is. REQUIRES: its ids are those of the pack.
void make(const CaseChange& change, const Pack& pack, EnteredCase& entered);

/// The setting that an adjustment would have on a kart that is fitted with it: the usual travel,
/// at the typical place or in the middle.
Setting fitted_setting(const Adjustment& adjustment);

/// The case with its facts settled; the pack and the case must outlive it.
Situation settled(const Pack& pack, const EnteredCase& entered);

}  // namespace kartwright
