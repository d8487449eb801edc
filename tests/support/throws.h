// throws.h - how often a test throws the dice.

#pragma once

#include <cstdlib>

namespace kartwright {

/// `usual` times in the build as it ships; a tenth of that where KARTWRIGHT_FEWER is set, as it is
/// where the sanitizers watch or lines are counted: every throw runs through the same lines there.
template <typename Count>
Count throws_of_the_dice(Count usual) {
  return std::getenv("KARTWRIGHT_FEWER") != nullptr ? usual / 10 : usual;
}

}  // namespace kartwright
