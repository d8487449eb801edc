// ground_rules.h - rule sets made up from a seed: three layers, and in every rule two facts that
// must hold and one that must not.

#pragma once

#include <cstdint>
#include <vector>

#include "engine/inference/chain.h"

namespace kartwright {

/// A rule set with the facts that it starts from.
struct GroundRules {
  Program program;
  std::vector<Atom> given;
};

/// Half of the rules look at given facts only, three tenths at what those conclude too, and the
/// rest at conclusions only; a rule denies facts of a lower layer or given ones. About half of the
/// rules fire. The rules stand in no order of layers. REQUIRES: rules > 9, facts > 0.
GroundRules ground_rules(int rules, int facts, std::uint64_t seed);

}  // namespace kartwright
