// weigh_json.h - a weighing as JSON, in SI and unrounded.

#pragma once

#include <string>

#include "engine/chassis/lifted_weighing.h"
#include "engine/chassis/weighing.h"

namespace kartwright::cli {

/// Schema kartwright/weigh/1.
std::string weigh_json(const WeighingAnswer& answer);
/// Schema kartwright/weigh-lifted/1.
std::string height_json(const HeightAnswer& answer);

}  // namespace kartwright::cli
