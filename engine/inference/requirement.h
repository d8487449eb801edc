// requirement.h - what a rule asks of what was entered, with derived facts walked back to it.
//
// A condition asks for facts that other rules conclude; nobody enters those. Here every question
// is put to the crew's own entries, as a list of ways in which the rule would fire.

#pragma once

#include <string>
#include <variant>
#include <vector>

#include "engine/inference/situation.h"
#include "engine/knowledge/every_rule.h"

namespace kartwright {

/// The kart has this adjustment.
struct FittedTest {
  std::string adjustment;
};

/// A report of this symptom gives a reading: a denial counts, one on the straight may not.
struct ReadTest {
  std::string symptom;
};

using Ask = std::variant<FactTest, ReportTest, SettingTest, MeasureTest, FittedTest, ReadTest>;

struct Requirement {
  Ask ask;             ///< a FactTest here looks at what was entered, not at what was concluded
  bool wanted = true;  ///< false: it must not be so
  std::vector<std::string> through = {};  ///< derivations that lead from it to the rule, last first
  std::string silences = {};  ///< a rule that has taken this one's cells, and would be silent
  bool met = false;
};

/// Requirements that together make a rule fire.
using Requirements = std::vector<Requirement>;

bool is_met(const Requirement& requirement, const Situation& situation);

/// The ways in which a rule would fire on a case, those with the fewest unmet requirements first;
/// at most 64 of them. REQUIRES: nothing is supposed in the situation.
std::vector<Requirements> ways_to_fire(const RuleRef& rule, const Situation& situation);

}  // namespace kartwright
