// peers_chain.h - our chaining beside CLIPS on rule sets made up from a seed.

#pragma once

#include <cstddef>
#include <vector>

namespace kartwright {

/// The quickest of many goes, seconds of the wall clock.
struct ChainTimes {
  double load = 0.0;   ///< CLIPS reads its rules from a file; we layer and index ours in memory
  double reset = 0.0;  ///< CLIPS matches the given facts here; we have no such step
  double run = 0.0;
  std::vector<int> concluded = {};  ///< atoms that hold, ascending
};

struct ChainSize {
  int rules = 0, facts = 0;
  int loads = 0;   ///< how often CLIPS loads
  int resets = 0;  ///< how often it is reset and run, in one process
};

ChainTimes time_clips(const ChainSize& size);
ChainTimes time_ours(const ChainSize& size);

/// Our run again, but from another set of facts at each go: a processor learns the branches of a
/// small rule set by heart where every go is the same, and a large one's it cannot.
double time_from_many_starts(const ChainSize& size);

}  // namespace kartwright
