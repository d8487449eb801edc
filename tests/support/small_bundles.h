// small_bundles.h - cases for the search of the best set of moves, and the search done the slow
// way.

#pragma once

#include <cstddef>
#include <vector>

#include "engine/decision/bundles.h"
#include "tests/support/any.h"

namespace kartwright {

/// A few adjustments with several moves each, stands, exclusions and minutes. `whole_numbers` makes
/// every amount a whole number, so that equal sets are equal to the last bit and there are many.
BundleCase any_bundle_case(Random& random, bool whole_numbers);

namespace naive {

/// Every allowed set of at most `most` items, weighed one by one in plain loops.
struct Enumerated {
  std::vector<std::size_t> first;  ///< of the best: the fewest items, then the lowest indices
  double value = 0.0;
  std::size_t allowed = 0;  ///< how many sets there are
};

/// REQUIRES: most <= 3.
Enumerated enumerate(const BundleCase& c, std::size_t most);

}  // namespace naive
}  // namespace kartwright
