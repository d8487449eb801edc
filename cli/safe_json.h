// safe_json.h - JSON that may be shown on a terminal as it is.

#pragma once

#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

namespace kartwright::cli {

/// JSON text in which every character that could change how a terminal shows the rest (controls,
/// text-direction marks) is escaped as \uXXXX. It reads back the same. REQUIRES: valid JSON in
/// UTF-8.
std::string safe_json(std::string_view json);

/// A whole answer on one line, safe as above.
std::string json_line(const nlohmann::ordered_json& json);

/// True where safe_json would have nothing to escape in a text.
bool is_safe(std::string_view text);

}  // namespace kartwright::cli
