// json_line.h - a line of JSON as a document, so that everything in it knows its column.
//
// JSON is YAML, but the reader of YAML takes longer over a line than its advice does.

#pragma once

#include <optional>
#include <string>

#include "engine/document/document.h"

namespace kartwright::cli {

/// The document that parse_document would make of a line of JSON, with the same places; numbers and
/// truths are scalars as they are written. Nothing where the line is not one object in UTF-8, or
/// holds what parse_document refuses: that can say what is wrong.
std::optional<Document> parse_json_line(std::string name, std::string line);

}  // namespace kartwright::cli
