// near_miss.h - why a rule does not fire: what failed, what was seen, how far off, and what would
// have to be different, nearest first.
//
// Every alternative is tried before it is told: made exactly as named, it makes the rule fire; with
// any one of its changes left out, it does not.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/inference/case_change.h"
#include "engine/inference/requirement.h"
#include "engine/quantity/quantity.h"

namespace kartwright {

/// One thing in which the case falls short, and the nearest change that mends it.
struct Lack {
  Requirement asked;
  CaseChange change;
  /// How far off, in rough steps, to put the nearest first: a grade of severity, a reference step
  /// of a setting, a tenth of what is plausible of a measurement; a fact that nobody stated is 1,
  /// one that was stated otherwise 2.
  double distance = 0.0;
  /// Of the fact, as entered; of a setting, the name of its position. Empty: nobody said.
  std::vector<std::string> values = {};
  std::vector<Report> reports = {};  ///< of the symptom, as made
  /// The setting now (SI, or the index of a position), or what was measured (SI); nothing where the
  /// kart has no such adjustment, or the measurement was not taken.
  std::optional<double> seen = {};
  std::optional<double> limit = {};  ///< of a measurement, SI
  /// By how much the limit is missed, SI or grades of severity; where it is a matter of how much.
  std::optional<double> off_by = {};
};

/// Changes that together make the rule fire, nearest first.
struct Alternative {
  std::vector<Lack> lacks;
  double distance() const;  ///< the sum of its lacks'
};

/// An axis on which a rule without a condition is not heard, and the rule that took its place.
struct TakenCell {
  std::size_t axis = 0;
  const EffectRule* by = nullptr;
};

struct NearMiss {
  bool fires = false;
  /// Fewest changes first, then the nearest; at most 8. Empty where the rule fires, or where
  /// nothing that can be entered on this kart would make it.
  std::vector<Alternative> alternatives = {};
  std::vector<TakenCell> taken = {};  ///< of an effect rule
  /// Facts that nobody stated: supposing some values of them it would fire, so that an effect rule
  /// is heard in part, by their prior. By id.
  std::vector<std::string> open = {};
};

/// REQUIRES: the rule is of the situation's pack, and nothing is supposed in the situation.
NearMiss why_not(const RuleRef& rule, const Situation& situation);

/// A lack in a few plain words: "rear-width 1340 mm is 60 mm from its wider end, needs within 10 mm
/// (off by 50 mm)".
std::string in_words(const Lack& lack, const Pack& pack, System units);

}  // namespace kartwright
