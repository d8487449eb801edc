// praise.h - what a happy driver denies.
//
// Praise of one part of the corner speaks of that part alone. Praise of the kart, beside a
// complaint of one part, speaks of the others: "pushes going in, otherwise great" does not say that
// the kart grips going in.

#pragma once

#include <string>
#include <vector>

#include "engine/debrief/debrief.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

/// The praise of one debrief.
struct Praise {
  bool whole = false;              ///< some of it names no part of the corner
  std::vector<Phase> phases = {};  ///< the parts of the corner that it names, each once
  std::string words = {};          ///< the first of it, as said

  /// One stretch of praise with the phases said beside it; none: the whole kart.
  void add(const std::vector<Phase>& said);
};

/// Denials of every symptom that the pack lets praise deny and nobody complained of or spoke of at
/// that phase, in the pack's order. A symptom that reads the same at every phase is denied once,
/// and only by praise of the whole. `reports` are those made in words.
std::vector<Report> denied_by(const Praise& praise, const std::vector<Report>& reports,
                              const Pack& pack);

}  // namespace kartwright
