// readings.h - what the debrief, the track and the kart as it stands say about the axes.
//
// A reading says: this combination of axes amounts to about so much, give or take. Its row, value
// and spread are all that the belief uses; the rest is there to explain it.

#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "engine/inference/situation.h"

namespace kartwright {

struct Reading {
  std::string rule;
  Source source;
  Eigen::VectorXd row = {};  ///< over Pack::axes
  double value = 0.0;        ///< notches
  double sd = 1.0;           ///< notches, above zero
  int report = -1;        ///< index of the report it came from, or -1: from the track or the kart
  std::string text = {};  ///< in words: "hop mid", or the rule's because

  bool complaint =
      false;  ///< a report of something wrong, as against a denial or a fact of the day
};

/// The readings of a case, sorted by rule id, then phase, so that the order of entry plays no part.
/// Complaints are spread wider by the pack's factor where the fact laps:faster holds. A report at a
/// phase where the symptom's row has no axis (the straight) gives no reading.
std::vector<Reading> take_readings(const Situation& situation);

}  // namespace kartwright
