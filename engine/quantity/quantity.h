// quantity.h - numbers with units, as people in the pits write them, and back again.
//
// Everything inside the engine is SI; this is the only place that knows a unit by name. Conversion
// constants are the exact legal ones, so a length in inches and the same in millimetres agree.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace kartwright {

/// What a number measures. SI inside: metres, kilograms, radians, pascals, fraction of one, newtons
/// for each metre, newton metres for each radian, one.
enum class Kind { length, mass, angle, pressure, ratio, stiffness, twist, count };

/// The two systems people write in. Angles and ratios print the same in both.
enum class System { metric, imperial };

struct Quantity {
  double si = 0.0;                     ///< in the SI unit of its kind, always finite
  std::optional<System> written = {};  ///< set where the unit belongs to one system only
};

/// Why a text is not the quantity that was asked for.
struct QuantityError {
  std::string what;      ///< "no unit", "`kg` measures mass"
  std::string expected;  ///< "a length, such as `1360 mm` or `53 1/2 in`"
};

using ParsedQuantity = std::variant<Quantity, QuantityError>;

/// Reads `53 1/2 in`, `53.5"`, `1360mm`, `1.36 m`, `4 ft 5 in`, `-0.5 deg`, `12°`, `0.8 bar`, `12
/// psi`, `164 lb`, `41.5 %`; a count is a bare number. Typographic minus, primes and narrow spaces
/// count as plain ones, capitals as small letters. A comma is refused, since it means two things.
/// Never throws, takes time linear in the text; the locale plays no part.
/// Units: mm cm m in " ft '; kg g lb lbs; deg ° rad; bar kPa GPa psi; %; kN/m N/mm; Nm/deg.
/// Constants are exact: the international yard and pound of 1959 (1 in = 25.4 mm, 1 lb = 0.45359237
/// kg) and standard gravity, 9.80665 m/s2.
ParsedQuantity parse_quantity(std::string_view text, Kind expected);

/// What stands between the commas of a list, `36.8kg,34.2kg`; one part, perhaps empty, where there
/// is none.
std::vector<std::string> parts_of_list(std::string_view text);

/// A mean with its spread: `-0.5 ± 0.2`, or `-0.5 +/- 0.2`. Bare numbers, the spread positive.
struct Spread {
  double mean = 0.0;
  double sd = 0.0;
};
/// Reads one. Never throws.
std::variant<Spread, QuantityError> parse_spread(std::string_view text);

/// Prints with a unit as a kart file writes it: lengths in whole or decimal millimetres (at most
/// three decimals), or in inches, as a fraction down to sixty-fourths where that is exact (`53 1/2
/// in`) and with two decimals where it is not; kg or lb, psi, deg, % with at most two decimals, bar
/// and counts with at most three. No locale, no trailing zeros. REQUIRES: si is finite.
std::string print_quantity(double si, Kind kind, System system);

/// Prints a change with its sign in front: `+10 mm`, `-1/4 in`. What rounds to nothing has no sign.
std::string print_change(double si, Kind kind, System system);

/// "a length, such as `1360 mm` or `53 1/2 in`": for messages and for help.
std::string_view expected_form(Kind kind);

}  // namespace kartwright
