// pack_definitions.h - the parts of the schemas that list names of the built-in rules, so that an
// editor completes them. The schema files keep them; a test holds them against this.

#pragma once

#include <string>

#include <nlohmann/json.hpp>

#include "engine/knowledge/pack.h"

namespace kartwright {

/// By their name under `definitions`: `settings`, `stated-facts`, `symptom`, ... Not every schema
/// has every one.
nlohmann::ordered_json pack_definitions(const Pack& pack);

}  // namespace kartwright
