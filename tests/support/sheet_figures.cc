#include "tests/support/sheet_figures.h"

#include <cmath>
#include <map>
#include <numbers>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace kartwright {
namespace {

std::string between(std::string_view text, std::string_view before, std::string_view after) {
  const std::size_t start = text.find(before);
  if (start == std::string_view::npos) return {};
  const std::size_t from = start + before.size();
  return std::string(text.substr(from, text.find(after, from) - from));
}

/// A number as printed, the digits behind its point, and what stands behind it.
struct Printed {
  double number = 0.0, half_a_digit = 0.5;
  std::string unit;
};

Printed read_printed(const std::string& text) {
  Printed out;
  std::size_t used = 0;
  out.number = std::stod(text, &used);
  const std::size_t point = text.substr(0, used).find('.');
  if (point != std::string::npos)
    out.half_a_digit = 0.5 * std::pow(10.0, -static_cast<double>(used - point - 1));
  out.unit = text.substr(used);
  while (!out.unit.empty() && out.unit.front() == ' ') out.unit.erase(0, 1);
  return out;
}

/// SI in one of the unit. The pound and the inch of 1959 and standard gravity, all exact (NIST
/// Special Publication 811, appendix B, from memory).
double in_si(const std::string& unit) {
  static const std::map<std::string, double> kUnits{
      {"", 1.0},
      {"N", 1.0},
      {"lbf", 0.45359237 * 9.80665},
      {"kg", 1.0},
      {"lb", 0.45359237},
      {"mm", 0.001},
      {"in", 0.0254},
      {"%", 0.01},
      {"°", std::numbers::pi / 180.0},
      {"s", 1.0},
      {"g", 1.0},
      {"min", 1.0},
      {"points", 1.0},
      {"bar", 1e5},
      {"psi", 0.45359237 * 9.80665 / (0.0254 * 0.0254)},
      {"deg", std::numbers::pi / 180.0}};
  return kUnits.at(unit);
}

}  // namespace

std::vector<SheetFigure> figures_in(std::string_view html) {
  std::vector<SheetFigure> out;
  constexpr std::string_view kMark = " data-json=\"";
  for (std::size_t at = html.find(kMark); at != std::string_view::npos;
       at = html.find(kMark, at + 1)) {
    const std::string_view rest = html.substr(at);
    out.push_back({between(rest, kMark, "\""), between(rest, ">", "<")});
  }
  return out;
}

std::string wrong_with(const SheetFigure& figure, const std::string& json) {
  const nlohmann::json all = nlohmann::json::parse(json);
  const nlohmann::json::json_pointer pointer(figure.pointer);
  if (!all.contains(pointer)) return figure.pointer + " points at nothing";
  if (!all.at(pointer).is_number()) return figure.pointer + " is no number";
  const double value = all.at(pointer).get<double>();
  const Printed printed = read_printed(figure.text);
  const double unit = in_si(printed.unit);
  if (std::abs(value / unit - printed.number) <= printed.half_a_digit * (1.0 + 1e-9)) return {};
  return fmt::format("`{}` is not {} at {}", figure.text, value, figure.pointer);
}

}  // namespace kartwright
