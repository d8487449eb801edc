// any.h - random karts and debriefs from a seed, so that a test that fails can be run again.

#pragma once

#include <cstdint>
#include <random>
#include <vector>

#include "engine/debrief/debrief.h"
#include "engine/kart/kart.h"

namespace kartwright {

using Random = std::mt19937_64;

/// 0 .. end-1. REQUIRES: end > 0.
std::size_t any_below(Random& random, std::size_t end);
/// low .. high, both among them.
int whole(Random& random, int low, int high);
bool one_in(Random& random, std::size_t n);
double any_between(Random& random, double from, double to);

/// One of a list that is not empty.
template <typename T>
const T& any_of(Random& random, const std::vector<T>& all) {
  return all[any_below(random, all.size())];
}

/// A typical kart gone astray: some adjustments missing, others with a range, a setting, a class
/// limit, a box of parts and minutes of their own. Legal as it stands.
Kart any_kart(Random& random, const Pack& pack);

/// Up to five reports, one for each symptom and phase; some facts, and any track or none.
Debrief any_debrief(Random& random, const Pack& pack);

}  // namespace kartwright
