#include "engine/quantity/quantity.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numeric>
#include <utility>

#include <fmt/format.h>

#include "engine/quantity/number_text.h"
#include "engine/quantity/units.h"

namespace kartwright {
namespace {

using namespace std::string_view_literals;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

/// A text in backticks for a message, cut short between characters where it is long.
std::string in_quotes(std::string_view text) {
  constexpr std::size_t longest = 40;
  std::size_t end = std::min(text.size(), longest);
  if (end == text.size()) return fmt::format("`{}`", text);
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
  return fmt::format("`{}...`", text.substr(0, end));
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

std::size_t count_digits(std::string_view text) {
  return static_cast<std::size_t>(std::find_if_not(text.begin(), text.end(), is_digit) -
                                  text.begin());
}

/// Walks over a text once. The first fault stays.
struct Scan {
  std::string_view rest;
  std::string fault = {};

  bool failed() const { return !fault.empty(); }
  double fail(std::string what) {
    if (fault.empty()) fault = std::move(what);
    return 0.0;
  }
  void skip(std::size_t count) { rest.remove_prefix(count); }
  void skip_spaces() {
    while (!rest.empty() && is_space(rest.front())) skip(1);
  }
  bool starts_with_digit() const { return !rest.empty() && is_digit(rest.front()); }
};

/// A row of digits; infinite where they are too many.
double whole_number(std::string_view digits) {
  double value = 0.0;
  const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return read.ec == std::errc{} ? value : std::numeric_limits<double>::infinity();
}

struct Fraction {
  double top;
  double bottom;
  std::size_t length;  ///< characters
};

/// The `3/16` at the front of a text.
std::optional<Fraction> fraction_at(std::string_view text) {
  const std::size_t top = count_digits(text);
  if (top == 0 || top == text.size() || text[top] != '/') return std::nullopt;
  const std::string_view below = text.substr(top + 1);
  const std::size_t bottom = count_digits(below);
  if (bottom == 0) return std::nullopt;
  return Fraction{whole_number(text.substr(0, top)), whole_number(below.substr(0, bottom)),
                  top + 1 + bottom};
}

double take_fraction(Scan& scan, const Fraction& fraction) {
  const std::string_view text = scan.rest.substr(0, fraction.length);
  scan.skip(fraction.length);
  if (fraction.bottom == 0.0) return scan.fail(in_quotes(text) + " divides by nothing");
  const double value = fraction.top / fraction.bottom;
  return std::isfinite(value) ? value : scan.fail(in_quotes(text) + " is not a finite number");
}

/// The ` 1/2` or `-1/2` behind a whole number, which is below one; 0 where there is none.
double take_mixed_part(Scan& scan) {
  Scan ahead = scan;
  ahead.skip_spaces();
  if (ahead.rest.size() == scan.rest.size() && ahead.rest.starts_with('-')) ahead.skip(1);
  if (ahead.rest.size() == scan.rest.size()) return 0.0;
  const auto fraction = fraction_at(ahead.rest);
  if (!fraction) return 0.0;
  const std::string_view text = ahead.rest.substr(0, fraction->length);
  const double value = take_fraction(ahead, *fraction);
  scan = ahead;
  return value < 1.0 ? value
                     : scan.fail(in_quotes(text) + " behind a whole number is not below one");
}

/// `inf` and `nan` are numbers to the standard library, not on a kart.
double no_number(Scan& scan) {
  if (scan.rest.empty()) return scan.fail("no number");
  const bool not_finite = scan.rest.starts_with("inf") || scan.rest.starts_with("nan");
  return scan.fail(in_quotes(scan.rest) +
                   (not_finite ? " is not a finite number" : " does not start with a number"));
}

/// `010` is ten to one reader and eight to another.
bool has_leading_zero(std::string_view number) {
  return number.size() > 1 && number[0] == '0' && is_digit(number[1]);
}

double take_decimal(Scan& scan) {
  const bool point_first = scan.rest.starts_with('.');
  const auto after_point = scan.rest.substr(point_first ? 1 : 0);
  if (after_point.empty() || !is_digit(after_point.front())) return no_number(scan);
  double value = 0.0;
  const char* const begin = scan.rest.data();
  const auto read = std::from_chars(begin, begin + scan.rest.size(), value);
  const auto length = static_cast<std::size_t>(read.ptr - begin);
  const std::string_view text = scan.rest.substr(0, length);
  if (has_leading_zero(text))
    return scan.fail(in_quotes(text) + " begins with a zero: write it without");
  scan.skip(length);
  if (read.ec != std::errc{}) return scan.fail(in_quotes(text) + " is not a finite number");
  return value;
}

/// A number without a sign: `53.5`, `53`, `3/16`, `53 1/2`.
double take_number(Scan& scan) {
  const std::string_view start = scan.rest;
  double value = 0.0;
  if (const auto fraction = fraction_at(start)) {
    value = take_fraction(scan, *fraction);
  } else {
    value = take_decimal(scan);
    if (start.size() - scan.rest.size() == count_digits(start)) value += take_mixed_part(scan);
  }
  if (scan.rest.starts_with(',')) {
    scan.fail(in_quotes(start) +
              " has a comma: write thousands without one, and decimals with a point");
  }
  return value;
}

double take_signed_number(Scan& scan) {
  const bool negative = scan.rest.starts_with('-');
  if (negative || scan.rest.starts_with('+')) scan.skip(1);
  scan.skip_spaces();
  const double value = take_number(scan);
  scan.skip_spaces();
  return negative ? -value : value;
}

std::string_view take_unit_name(Scan& scan) {
  const auto ends = [](char c) { return is_space(c) || is_digit(c) || c == '+' || c == '-'; };
  const auto* const end = std::find_if(scan.rest.begin(), scan.rest.end(), ends);
  const std::string_view name(scan.rest.begin(), end);
  scan.skip(name.size());
  scan.skip_spaces();
  return name;
}

std::string_view measured(Kind kind) {
  switch (kind) {
    case Kind::length:
      return "length";
    case Kind::mass:
      return "mass";
    case Kind::angle:
      return "an angle";
    case Kind::pressure:
      return "pressure";
    case Kind::ratio:
      return "a share";
    case Kind::stiffness:
      return "stiffness";
    case Kind::twist:
      return "stiffness in twist";
    case Kind::count:
      break;
  }
  return "nothing";
}

/// The unit that stands next, or nullptr with the fault told.
const Unit* take_unit(Scan& scan, Kind expected) {
  if (scan.starts_with_digit()) scan.fail("two numbers where one was expected");
  const std::string_view name = take_unit_name(scan);
  const Unit* const unit = unit_named(name);
  if (name.empty()) {
    scan.fail(scan.rest.empty() ? "no unit" : in_quotes(scan.rest) + " is not a unit");
  } else if (unit == nullptr) {
    scan.fail("unknown unit " + in_quotes(name));
  } else if (unit->kind != expected) {
    scan.fail(fmt::format("{} measures {}", in_quotes(name), measured(unit->kind)));
  }
  return scan.failed() ? nullptr : unit;
}

/// The `5 in` behind the feet, in metres.
double take_inches(Scan& scan) {
  const double inches = take_number(scan);
  scan.skip_spaces();
  const Unit* const unit = take_unit(scan, Kind::length);
  if (scan.failed()) return 0.0;
  if (unit->name != kInch || inches >= 12.0) {
    return scan.fail("only inches below twelve may stand behind feet");
  }
  return unit->to_si(inches);
}

/// A number and its unit, up to the end of the text.
Quantity take_quantity(Scan& scan, Kind expected) {
  const double value = take_signed_number(scan);
  if (expected == Kind::count && scan.rest.empty()) return {value};
  const Unit* const unit = scan.failed() ? nullptr : take_unit(scan, expected);
  if (unit == nullptr) return {};
  double si = unit->to_si(value);
  if (unit->name == kFoot && scan.starts_with_digit()) {
    si += std::copysign(take_inches(scan), value);
  }
  if (!std::isfinite(si)) scan.fail("not a finite number");
  if (!scan.rest.empty()) scan.fail(in_quotes(scan.rest) + " is left over");
  return {si, unit->system};
}

/// At most so many decimals, no trailing zeros, no negative zero.
std::string decimal(double value, int places) {
  std::string text;
  append_fixed(text, value, places);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

/// Inches in whole sixty-fourths, where they are that.
std::optional<std::string> inch_fraction(double inches) {
  constexpr std::int64_t parts = 64;
  constexpr double largest = 1e6;  // inches; beyond it a double's own steps blur the fraction
  constexpr double slack = 1e-6;   // of a sixty-fourth: rounding of the conversion, nothing more
  const double scaled = std::abs(inches) * static_cast<double>(parts);
  if (std::abs(inches) > largest || std::abs(scaled - std::round(scaled)) > slack) return {};
  const std::int64_t total = std::llround(scaled);
  const std::int64_t whole = total / parts;
  const std::int64_t over = total % parts;
  const char* const sign = inches < 0.0 && total > 0 ? "-" : "";
  if (over == 0) return fmt::format("{}{}", sign, whole);
  const std::int64_t divisor = std::gcd(over, parts);
  const std::string fraction = fmt::format("{}/{}", over / divisor, parts / divisor);
  return whole == 0 ? sign + fraction : fmt::format("{}{} {}", sign, whole, fraction);
}

/// Units are read in small letters; these have capitals where they are printed.
std::string_view as_printed(const Unit& unit) {
  if (unit.kind == Kind::stiffness) return "kN/m";
  if (unit.kind == Kind::twist) return "Nm/deg";
  if (unit.name == "gpa") return "GPa";
  return unit.name;
}

/// Of an amount in a unit. What a dial gauge reads in inches wants thousandths.
int decimals_of(const Unit& unit, double value) {
  if (unit.name == "m") return 4;
  if (unit.name == kInch && std::abs(value) < 0.01) return 4;
  if (unit.name == kInch && std::abs(value) < 0.5) return 3;
  return unit.name == "mm" || unit.name == "bar" ? 3 : 2;
}

/// The usual unit, but for what no kart has: the radius of a corner, the stiffness of steel.
const Unit& unit_for(double si, Kind kind, System system) {
  constexpr double kLongerThanAKart = 5.0;      // m
  constexpr double kMoreThanAPressure = 1.0e9;  // Pa
  if (kind == Kind::length && si >= kLongerThanAKart && system == System::metric)
    return *unit_named("m");
  if (kind == Kind::pressure && si >= kMoreThanAPressure) return *unit_named("gpa");
  return unit_printed(kind, system);
}

}  // namespace

ParsedQuantity parse_quantity(std::string_view text, Kind expected) {
  const std::string clean = plain_characters(text);
  Scan scan{trimmed(clean)};
  if (scan.rest.empty())
    return QuantityError{"nothing is written", std::string(expected_form(expected))};
  const Quantity quantity = take_quantity(scan, expected);
  if (scan.failed()) return QuantityError{scan.fault, std::string(expected_form(expected))};
  return quantity;
}

std::vector<std::string> parts_of_list(std::string_view text) {
  std::vector<std::string> parts(1);
  for (const char c : text) {
    if (c == ',') {
      parts.emplace_back();
    } else {
      parts.back() += c;
    }
  }
  return parts;
}

std::variant<Spread, QuantityError> parse_spread(std::string_view text) {
  constexpr std::string_view form = "a mean with its spread, such as `-0.5 ± 0.2`";
  const auto error = [&](std::string what) {
    return QuantityError{std::move(what), std::string(form)};
  };
  const std::string clean = plain_characters(text);
  Scan scan{trimmed(clean)};
  const double mean = take_signed_number(scan);
  if (scan.failed()) return error(scan.fault);
  const auto marks = {"±"sv, "+/-"sv};
  const auto* const mark = std::find_if(marks.begin(), marks.end(), [&](std::string_view each) {
    return scan.rest.starts_with(each);
  });
  if (mark == marks.end()) return error("no spread");
  scan.skip(mark->size());
  scan.skip_spaces();
  const double sd = take_signed_number(scan);
  if (!scan.rest.empty()) scan.fail(in_quotes(scan.rest) + " is left over");
  if (sd <= 0.0) scan.fail("the spread is not above zero");
  if (scan.failed()) return error(scan.fault);
  return Spread{mean, sd};
}

std::string print_quantity(double si, Kind kind, System system) {
  if (kind == Kind::count) return decimal(si, 3);
  const Unit& unit = unit_for(si, kind, system);
  const double value = unit.from_si(si);
  const auto fraction = unit.name == kInch ? inch_fraction(value) : std::nullopt;
  std::string text = fraction ? *fraction : decimal(value, decimals_of(unit, value));
  return text.append(" ").append(as_printed(unit));
}

std::string print_change(double si, Kind kind, System system) {
  const std::string text = print_quantity(si, kind, system);
  const bool nothing = text == print_quantity(0.0, kind, system);
  return si > 0.0 && !nothing ? "+" + text : text;
}

std::string_view expected_form(Kind kind) {
  switch (kind) {
    case Kind::length:
      return "a length, such as `1360 mm` or `53 1/2 in`";
    case Kind::mass:
      return "a mass, such as `74.5 kg` or `164 lb`";
    case Kind::angle:
      return "an angle, such as `12 deg`";
    case Kind::pressure:
      return "a pressure, such as `0.8 bar` or `12 psi`";
    case Kind::ratio:
      return "a share, such as `41.5 %`";
    case Kind::stiffness:
      return "a stiffness, such as `90 kN/m`";
    case Kind::twist:
      return "a stiffness in twist, such as `400 Nm/deg`";
    case Kind::count:
      break;
  }
  return "a bare number, such as `3`";
}

}  // namespace kartwright
