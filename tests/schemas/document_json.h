// document_json.h - a YAML document as an editor sees it: JSON, with plain scalars taken as the
// core schema of YAML 1.2 takes them, so that `27` is a number and `"27"` is not.

#pragma once

#include <string_view>

#include <nlohmann/json.hpp>

#include "engine/document/document.h"

namespace kartwright {

/// A plain scalar: a truth, a number, or else its text.
nlohmann::json plain_scalar(std::string_view text);

/// REQUIRES: the document's text is there.
nlohmann::json json_of(const Document& document);

/// The same by the YAML library alone, which lets pass what our reader refuses (a key twice,
/// anchors).
nlohmann::json json_of_lenient(const std::string& text);

}  // namespace kartwright
