// number_text.h - numbers into texts, character for character as fmt writes them, and sooner.

#pragma once

#include <string>

namespace kartwright {

/// Appends a number with so many decimals, as `{:.2f}`. REQUIRES: finite, 0 to 9 decimals.
void append_fixed(std::string& text, double value, int decimals);

/// Appends a number with up to six digits, as `{:g}`. REQUIRES: finite.
void append_short(std::string& text, double value);

}  // namespace kartwright
