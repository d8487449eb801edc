#include "engine/audit/kart_text.h"

#include <variant>

#include <fmt/format.h>

namespace kartwright {
namespace {

/// The unit that a kind is written in; a count has none.
std::string_view unit_of(Kind kind, System system) {
  const bool metric = system == System::metric;
  switch (kind) {
    case Kind::length:
      return metric ? "mm" : "in";
    case Kind::mass:
      return metric ? "kg" : "lb";
    case Kind::pressure:
      return metric ? "bar" : "psi";
    case Kind::angle:
      return "deg";
    case Kind::ratio:
      return "%";
    case Kind::stiffness:
      return "kN/m";
    case Kind::twist:
      return "Nm/deg";
    case Kind::count:
      break;
  }
  return "";
}

/// Every figure that a double has, and never an exponent.
std::string amount(double si, Kind kind, System system) {
  const std::string_view unit = unit_of(kind, system);
  const auto one = parse_quantity(fmt::format("1 {}", unit), kind);
  return fmt::format("{:.15f} {}", si / std::get<Quantity>(one).si, unit);
}

std::string in_quotes(const std::string& name) {
  std::string text = "'";
  for (const char c : name) text += c == '\'' ? std::string("''") : std::string(1, c);
  return text + "'";
}

std::string value_text(const Setting& setting, System system) {
  if (!setting.travel.names.empty()) {
    return in_quotes(print_setting(setting, setting.now, system));
  }
  return amount(setting.now, setting.adjustment->kind, system);
}

std::string range_text(const Adjustment& adjustment, System system) {
  const auto text = [&](double si) { return amount(si, adjustment.kind, system); };
  return fmt::format("  {}: {{from: {}, to: {}, step: {}}}\n", adjustment.id, text(adjustment.from),
                     text(adjustment.to), text(adjustment.step));
}

}  // namespace

std::string kart_text(const Kart& kart, const Pack& pack, System system) {
  std::string settings, ranges, limits, measured;
  for (const auto& [id, setting] : kart.settings) {
    settings += fmt::format("  {}: {}\n", id, value_text(setting, system));
    if (!setting.adjustment->listed()) ranges += range_text(*setting.adjustment, system);
    if (!setting.limit.at_most) continue;
    limits += fmt::format("    {}: {{at-most: {}}}\n", id,
                          amount(*setting.limit.at_most, setting.adjustment->kind, system));
  }
  for (const auto& [id, value] : kart.measures) {
    measured += fmt::format("  {}: {}\n", id, amount(value, pack.measure(id)->kind, system));
  }
  return "kart: a kart\nclass:\n  limits:\n" + limits + "settings:\n" + settings + "ranges:\n" +
         ranges + "measured:\n" + measured;
}

}  // namespace kartwright
