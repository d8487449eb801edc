// learned_json.h - what a log has taught, as JSON.

#pragma once

#include <string>

#include "engine/advice/learned.h"

namespace kartwright::cli {

std::string learned_json(const Learned& learned, const Pack& pack);

}  // namespace kartwright::cli
