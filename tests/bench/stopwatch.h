// stopwatch.h - how long work takes, by the quickest of many goes: whatever else the machine does
// can only add to it.

#pragma once

#include <algorithm>
#include <chrono>
#include <limits>

namespace kartwright {

/// Seconds of the wall clock for one go of some work, of the quickest. REQUIRES: goes > 0.
template <typename Work>
double time_of(int goes, Work work) {
  double least = std::numeric_limits<double>::infinity();
  for (int go = 0; go < goes; ++go) {
    const auto start = std::chrono::steady_clock::now();
    work();
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
    least = std::min(least, taken.count());
  }
  return least;
}

}  // namespace kartwright
