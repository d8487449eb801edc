// kart_text.h - a kart as a kart file, in either system of units, with every figure of a double.

#pragma once

#include <string>

#include "engine/kart/kart.h"

namespace kartwright {

/// A kart file with the kart's settings, the usual ranges, class limits and measures. Amounts are
/// converted exactly: read again, they are the same to some units in the last place, whichever the
/// system. REQUIRES: the settings stand in their usual ranges.
std::string kart_text(const Kart& kart, const Pack& pack, System system);

}  // namespace kartwright
