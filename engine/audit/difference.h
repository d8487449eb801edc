// difference.h - two rule packs side by side: which rules differ, and which scenarios' advice
// changes by it.

#pragma once

#include <string>
#include <vector>

#include "engine/audit/advice_difference.h"
#include "engine/audit/rule_difference.h"

namespace kartwright {

/// A rule pack with the name that the crew gave it.
struct NamedPack {
  std::string name;
  Pack pack;
};

/// The built-in rules where the name is `built-in`, else those with a folder of rule files on top.
/// Throws InputError as read_rule_folder and load_pack.
NamedPack read_named_pack(const std::string& name);

struct PackDifference {
  std::string before, after;  ///< names of the packs
  std::vector<PartDifference> rules;
  ScenariosApart scenarios;

  /// Neither a rule nor an answer differs.
  bool none() const { return rules.empty() && scenarios.differing.empty(); }
};

/// Pure; the order of scenarios is kept.
PackDifference compare_packs(const NamedPack& before, const NamedPack& after,
                             const std::vector<ScenarioFile>& scenarios);

}  // namespace kartwright
