// gauge.h - how much room an adjustment has: where it stands, where it would go, what is left.

#pragma once

#include <cstddef>
#include <string>

#include "engine/decision/options.h"

namespace kartwright::cli {

/// `···○··●·····` over the places the class allows, left end to right end in ascending value: ○
/// now, ● proposed. REQUIRES: width > 1.
std::string gauge(const Option& option, std::size_t width);

}  // namespace kartwright::cli
