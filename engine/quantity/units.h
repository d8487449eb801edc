// units.h - the units the pits write in, by name, and what they are in SI.
//
// For quantity.cc; everybody else goes through quantity.h.

#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "engine/quantity/quantity.h"

namespace kartwright {

/// One unit is `top / bottom` of the SI unit. Kept as a quotient so that whole millimetres and
/// inches come out as the double nearest to the true value.
struct Unit {
  std::string_view name;
  Kind kind;
  double top;
  double bottom;
  std::optional<System> system;  ///< empty where both systems use it

  double to_si(double value) const { return value * top / bottom; }
  double from_si(double si) const { return si * bottom / top; }
};

inline constexpr std::string_view kInch = "in";
inline constexpr std::string_view kFoot = "ft";

/// The unit of a name in small letters, or nullptr. Knows the marks (`"`, `'`, the degree sign)
/// too.
const Unit* unit_named(std::string_view name);

/// The unit that values of a kind are printed in. REQUIRES: kind is not count.
const Unit& unit_printed(Kind kind, System system);

/// The text with what typesetting and telephones make of plain characters turned back (minus sign,
/// primes, curled quotes, no-break spaces), and in small letters. Time is linear in the text.
std::string plain_characters(std::string_view text);

}  // namespace kartwright
