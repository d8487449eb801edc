#include "engine/quantity/units.h"

#include <algorithm>
#include <array>
#include <numbers>
#include <utility>

namespace kartwright {
namespace {

using namespace std::string_view_literals;

constexpr double kPound = 0.45359237;
constexpr double kStandardGravity = 9.80665;
constexpr double kPsi = kPound * kStandardGravity / (0.0254 * 0.0254);

constexpr std::array kUnits{
    Unit{"mm", Kind::length, 1, 1000, System::metric},
    Unit{"cm", Kind::length, 1, 100, System::metric},
    Unit{"m", Kind::length, 1, 1, System::metric},
    Unit{kInch, Kind::length, 254, 10000, System::imperial},
    Unit{kFoot, Kind::length, 3048, 10000, System::imperial},
    Unit{"kg", Kind::mass, 1, 1, System::metric},
    Unit{"g", Kind::mass, 1, 1000, System::metric},
    Unit{"lb", Kind::mass, kPound, 1, System::imperial},
    Unit{"deg", Kind::angle, std::numbers::pi, 180, std::nullopt},
    Unit{"rad", Kind::angle, 1, 1, std::nullopt},
    Unit{"bar", Kind::pressure, 100000, 1, System::metric},
    Unit{"kpa", Kind::pressure, 1000, 1, System::metric},
    Unit{"gpa", Kind::pressure, 1e9, 1, System::metric},
    Unit{"psi", Kind::pressure, kPsi, 1, System::imperial},
    Unit{"%", Kind::ratio, 1, 100, std::nullopt},
    Unit{"kn/m", Kind::stiffness, 1000, 1, std::nullopt},
    Unit{"n/mm", Kind::stiffness, 1000, 1, std::nullopt},
    Unit{"nm/deg", Kind::twist, 180, std::numbers::pi, std::nullopt},
};

/// Other ways to write the units above.
constexpr std::array kAliases{
    std::pair{"\""sv, kInch},        std::pair{"''"sv, kInch},   std::pair{"inch"sv, kInch},
    std::pair{"inches"sv, kInch},    std::pair{"'"sv, kFoot},    std::pair{"foot"sv, kFoot},
    std::pair{"feet"sv, kFoot},      std::pair{"lbs"sv, "lb"sv}, std::pair{"pound"sv, "lb"sv},
    std::pair{"pounds"sv, "lb"sv},   std::pair{"°"sv, "deg"sv},  std::pair{"degree"sv, "deg"sv},
    std::pair{"degrees"sv, "deg"sv},
};

/// What typesetting and telephones turn plain characters into.
constexpr std::array kTypographic{
    std::pair{"\u2212"sv, "-"sv},   // minus sign
    std::pair{"\u2033"sv, "\""sv},  // double prime
    std::pair{"\u201d"sv, "\""sv},  // closing double quote
    std::pair{"\u2032"sv, "'"sv},   // prime
    std::pair{"\u2019"sv, "'"sv},   // closing single quote
    std::pair{"\u00a0"sv, " "sv},   // no-break space
    std::pair{"\u202f"sv, " "sv},   // narrow no-break space
};

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool is_ascii(char c) { return static_cast<unsigned char>(c) < 0x80U; }

/// The entry of kTypographic that a text starts with, or nullptr.
const std::pair<std::string_view, std::string_view>* typographic_at(std::string_view text) {
  if (is_ascii(text.front())) return nullptr;
  const auto* const found =
      std::find_if(kTypographic.begin(), kTypographic.end(),
                   [&](const auto& each) { return text.starts_with(each.first); });
  return found == kTypographic.end() ? nullptr : found;
}

}  // namespace

const Unit* unit_named(std::string_view name) {
  for (const auto& [alias, unit] : kAliases) {
    if (alias == name) name = unit;
  }
  const auto* const found = std::find_if(kUnits.begin(), kUnits.end(),
                                         [&](const Unit& unit) { return unit.name == name; });
  return found == kUnits.end() ? nullptr : found;
}

const Unit& unit_printed(Kind kind, System system) {
  const auto* const found = std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit& unit) {
    return unit.kind == kind && unit.system.value_or(system) == system;
  });
  return *found;
}

std::string plain_characters(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const auto* const found = typographic_at(text);
    if (found == nullptr) out += lower(text.front());
    if (found != nullptr) out += found->second;
    text.remove_prefix(found == nullptr ? 1 : found->first.size());
  }
  return out;
}

}  // namespace kartwright
