// learned_sheet.h - what a kart's log says of its adjustments as a sheet: drawn beside the rules,
// and in numbers.

#pragma once

#include <string>

#include "engine/advice/learned.h"

namespace kartwright::cli {

std::string learned_sheet(const Learned& learned, const Pack& pack);

}  // namespace kartwright::cli
