// save_corner_weights.h - the four readings of the scales written into a kart file in place: every
// other byte of it stays as it is.
//
// What was written is read back before it may stand; a file that would not say the same is not
// written.

#pragma once

#include <optional>
#include <string>

#include "engine/document/document.h"
#include "engine/kart/corner_loads.h"
#include "engine/quantity/quantity.h"

namespace kartwright {

/// The text of a kart file with `measured: corner-weights` as given, kg, written in the units of
/// `units` so that they read back exactly. Where four readings stand already their values are
/// replaced, else an entry is put in. Nothing where the file is in a form that cannot be edited so
/// (such as a root in braces), or where the result would not read back as the same document with
/// these weights. REQUIRES: a document that was read from text.
std::optional<std::string> with_corner_weights(const Document& document, const CornerLoads& on,
                                               System units);

}  // namespace kartwright
