// change_setting.h - one setting of a kart file written anew in place: every other byte of the file
// stays as it is.

#pragma once

#include <optional>
#include <string>

#include "engine/document/document.h"
#include "engine/kart/kart.h"

namespace kartwright {

/// The text of a kart file with a setting at `to`, SI or index of a position, written in the units
/// the file has it in, so that it reads back as the same value. Nothing where the file does not
/// hold the setting as a plain value, or where the result would not read back as the same document
/// with only that changed. REQUIRES: the setting was read from this document.
std::optional<std::string> with_setting(const Document& document, const Setting& setting,
                                        double to);

/// The value, SI or index of a position, that a text is of a setting; nothing where it is none.
std::optional<double> setting_value(const Setting& setting, const std::string& text);

/// Where the value of a setting stands in a kart file; nullptr where it does not.
const Node* setting_node(const Document& document, std::string_view adjustment);

}  // namespace kartwright
