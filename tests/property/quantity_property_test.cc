// Properties of quantities: what is printed can be read back, and no text at all upsets the reader.

#include <cmath>
#include <cstdint>
#include <numbers>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "engine/quantity/quantity.h"

namespace kartwright {
namespace {

/// Half of the last printed decimal, in SI.
double printed_precision(Kind kind, System system) {
  const bool metric = system == System::metric;
  switch (kind) {
    case Kind::length:
      return metric ? 0.5e-6 : 0.005 * 0.0254;
    case Kind::mass:
      return metric ? 0.005 : 0.005 * 0.45359237;
    case Kind::angle:
      return 0.005 * std::numbers::pi / 180;
    case Kind::pressure:
      return metric ? 0.0005e5 : 0.005 * 6894.757293168;
    case Kind::ratio:
      return 0.005 / 100;
    case Kind::stiffness:
      return 0.005 * 1000.0;
    case Kind::twist:
      return 0.005 * 180 / std::numbers::pi;
    case Kind::count:
      break;
  }
  return 0.0005;
}

/// Values as karts have them and far beyond, in steps no printed form knows of.
double any_value() {
  const auto thousandths = *rc::gen::inRange<std::int64_t>(-5'000'000'000, 5'000'000'000);
  return static_cast<double>(thousandths) / *rc::gen::element(7e2, 7e4, 7e6, 7e8);
}

Kind any_kind() {
  return *rc::gen::element(Kind::length, Kind::mass, Kind::angle, Kind::pressure, Kind::ratio,
                           Kind::stiffness, Kind::twist, Kind::count);
}

System any_system() { return *rc::gen::element(System::metric, System::imperial); }

RC_GTEST_PROP(PrintThenParse, GivesTheSameWithinThePrintedPrecision, ()) {
  const double si = any_value();
  const Kind kind = any_kind();
  const System system = any_system();
  const std::string text = print_quantity(si, kind, system);
  RC_LOG() << si << " prints as " << text << '\n';
  const ParsedQuantity parsed = parse_quantity(text, kind);
  RC_ASSERT(std::holds_alternative<Quantity>(parsed));
  const double rounding = 1e-12 * std::abs(si);
  // What is longer than a kart is printed in metres, to a tenth of a millimetre.
  const double precision = text.ends_with(" m") ? 0.00005 : printed_precision(kind, system);
  RC_ASSERT(std::abs(std::get<Quantity>(parsed).si - si) <= precision * (1 + 1e-9) + rounding);
}

/// The first print of 44.2499999 in is `44.25 in`, which is exact and prints as `44 1/4 in` from
/// then on: the words may change once, the number may not.
RC_GTEST_PROP(PrintThenParse, PrintingAgainLosesNothingMore, ()) {
  const Kind kind = any_kind();
  const System system = any_system();
  const auto reprint = [&](double si) {
    return std::get<Quantity>(parse_quantity(print_quantity(si, kind, system), kind)).si;
  };
  const double once = reprint(any_value());
  RC_ASSERT(std::abs(reprint(once) - once) <= 1e-14 * std::abs(once));
}

RC_GTEST_PROP(PrintThenParse, SixtyFourthsOfAnInchComeBackExactly, ()) {
  const int parts = *rc::gen::inRange(-64 * 200, 64 * 200);
  const double si = parts * 0.0254 / 64;
  const std::string text = print_quantity(si, Kind::length, System::imperial);
  RC_ASSERT(text.find('.') == std::string::npos);
  const double read = std::get<Quantity>(parse_quantity(text, Kind::length)).si;
  RC_ASSERT(std::abs(read - si) <= 1e-15);
}

RC_GTEST_PROP(PrintThenParse, AChangeIsTheSameNumberWithItsSign, ()) {
  const double si = any_value();
  const Kind kind = any_kind();
  const System system = any_system();
  const std::string text = print_change(si, kind, system);
  const double read = std::get<Quantity>(parse_quantity(text, kind)).si;
  RC_ASSERT(read == std::get<Quantity>(parse_quantity(print_quantity(si, kind, system), kind)).si);
  RC_ASSERT(text.starts_with('+') == (read > 0));
  RC_ASSERT(text.starts_with('-') == (read < 0));
}

/// Whatever the reader says, it says it within its contract.
void check_any_text(const std::string& text) {
  for (const Kind kind :
       {Kind::length, Kind::mass, Kind::angle, Kind::pressure, Kind::ratio, Kind::count}) {
    const ParsedQuantity parsed = parse_quantity(text, kind);
    if (const auto* quantity = std::get_if<Quantity>(&parsed)) {
      RC_ASSERT(std::isfinite(quantity->si));
    } else {
      RC_ASSERT(!std::get<QuantityError>(parsed).what.empty());
      RC_ASSERT(std::get<QuantityError>(parsed).expected == expected_form(kind));
    }
  }
  const auto spread = parse_spread(text);
  if (const auto* read = std::get_if<Spread>(&spread)) {
    RC_ASSERT(std::isfinite(read->mean) && std::isfinite(read->sd) && read->sd > 0);
  }
}

RC_GTEST_PROP(AnyText, RandomBytesNeverThrow, (const std::string& text)) { check_any_text(text); }

RC_GTEST_PROP(AnyText, PiecesOfQuantitiesInAnyOrderNeverThrow, ()) {
  const auto pieces = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
      "1", "53", "0", "1/2", "/", ".", "-", "+", "e", "999", " ", ",", "mm", "in", "ft", "'", "\"",
      "°", "%", "kg", "±", "+/-", "inf", "nan", "\u2212", "\u2033", "\xe2", "\xe2\x80", "5 in"));
  std::string text;
  for (const std::string& piece : pieces) text += piece;
  check_any_text(text);
}

}  // namespace
}  // namespace kartwright
