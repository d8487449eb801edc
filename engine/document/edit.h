// edit.h - a document edited in place: where its values stand in the bytes of the file, and whether
// two documents say the same.

#pragma once

#include <cstddef>

#include "engine/document/document.h"

namespace kartwright {

/// Byte offset of a place in the text; columns count characters.
std::size_t offset_of(const Document& document, Span span);

/// Behind a scalar that begins at byte `from`, its quotes included. REQUIRES: no quote of its own
/// kind stands inside it.
std::size_t end_of_value(const Document& document, Span span, std::size_t from);

/// The same values under the same keys in the same order; where they stand plays no part.
bool same_node(const Node& a, const Node& b);

}  // namespace kartwright
