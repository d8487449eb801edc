// pretty.h - JSON as the schema files are written: whole on one line where that fits into 100
// columns, else an entry a line; plain values of a list as many to a line as fit.

#pragma once

#include <string>

#include <nlohmann/json.hpp>

namespace kartwright {

/// The text of a file, its last line end included.
std::string pretty(const nlohmann::ordered_json& json);

}  // namespace kartwright
