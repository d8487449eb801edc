// frozen.h - documents as bytes, so that the built-in rule pack is parsed when the program is
// built.
//
// The bytes are private to one build: they are made and read by the same code and never kept.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/document/document.h"

namespace kartwright {

/// Names, nodes and places of the documents; their texts are left out.
std::string freeze(const std::vector<Document>& documents);

/// The documents again. REQUIRES: bytes made by `freeze` of the same build.
std::vector<Document> thaw(std::string_view bytes);

}  // namespace kartwright
