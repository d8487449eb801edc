// readings.h - what the debrief, the track and the kart as it stands say about the axes.
//
// A reading says: this combination of axes amounts to about so much, give or take. Its row, value
// and spread are all that the belief uses; the rest is there to explain it.

#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/inference/situation.h"

namespace kartwright {

struct Reading {
  std::string_view rule;           ///< in the pack
  const Source* source = nullptr;  ///< of the rule, in the pack
  Eigen::VectorXd row = {};        ///< over Pack::axes
  double value = 0.0;              ///< notches
  double sd = 1.0;                 ///< notches, above zero
  int report = -1;        ///< index of the report it came from, or -1: from the track or the kart
  std::string text = {};  ///< in words: "hop mid", or the rule's because

  bool complaint =
      false;  ///< a report of something wrong, as against a denial or a fact of the day
};

/// True where it matters at which phase a symptom is reported: a term of its row is a family with
/// phases.
bool reads_by_phase(const Symptom& symptom, const Pack& pack);

/// The row over Pack::axes that a report of a symptom at a phase reads; with Phase::any, the one
/// taken where the driver says no phase. Nothing where the symptom has no reading, or none at that
/// phase (the straight).
std::optional<Eigen::VectorXd> symptom_row(const Symptom& symptom, Phase phase, const Pack& pack);

/// The readings of a case, sorted by rule id, then phase, so that the order of entry plays no part.
/// Complaints are spread wider by the pack's factor where the fact laps:faster holds. A report at a
/// phase where the symptom's row has no axis (the straight) gives no reading.
std::vector<Reading> take_readings(const Situation& situation);

}  // namespace kartwright
