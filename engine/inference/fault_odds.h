// fault_odds.h - how likely it is that something is broken, as an exact sum of weights of evidence.

#pragma once

#include <string_view>
#include <vector>

#include "engine/inference/situation.h"

namespace kartwright {

/// A weight in decibans (10 log10 of a likelihood ratio; Good 1950) and the rule it came from.
struct Weight {
  std::string_view rule;  ///< the evidence rule, in the pack, or `prior` for the fault's own
  double decibans = 0.0;
  std::string_view because;  ///< in the pack
};

struct FaultOdds {
  const Fault* fault = nullptr;      ///< in the pack
  double decibans = 0.0;             ///< sum of `because`
  double probability = 0.0;          ///< 1 / (1 + 10^(-dB/10))
  bool evidence = false;             ///< some evidence for it fired
  std::vector<Weight> because = {};  ///< the prior first, then the evidence by rule id

  /// Expected loss avoided per minute of looking, notches a minute: the order of looking that costs
  /// least until a single fault is found (Kadane and Simon 1977).
  double worth_per_minute() const;
};

double probability_of(double decibans);

/// Every fault of the pack, by worth per minute, highest first; ties by id.
std::vector<FaultOdds> weigh_faults(const Situation& situation);

/// Worth a look now: evidence fired and probability at least 0.05, or probability at least 0.15
/// without.
bool worth_a_look(const FaultOdds& odds);

/// Those of weigh_faults that are.
std::vector<FaultOdds> faults_worth_a_look(const Situation& situation);

}  // namespace kartwright
