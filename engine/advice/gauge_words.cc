#include "engine/advice/gauge_words.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/advice/explain_gauge.h"

namespace kartwright {
namespace {

constexpr std::string_view kTyreMark = "{tyre}";
constexpr std::string_view kSizeMark = "{size}";

std::string filled_in(std::string_view text, std::string_view mark, std::string_view by) {
  std::string out(text);
  for (std::size_t at = out.find(mark); at != std::string::npos; at = out.find(mark)) {
    out.replace(at, mark.size(), by);
  }
  return out;
}

double as_shown(const GaugeFigure& figure, double value) {
  return figure.shown_to ? std::round(value / *figure.shown_to) * *figure.shown_to : value;
}

}  // namespace

std::string figure_text(const FigureFound& found, System system) {
  const GaugeFigure& figure = *found.figure;
  const double value = as_shown(figure, found.value);
  return figure.change ? print_change(value, figure.kind, system)
                       : print_quantity(value, figure.kind, system);
}

std::string verdict_text(const VerdictFound& found, std::string_view text, System system) {
  const std::string tyres = fmt::format("the {}", fmt::join(found.tyres, " and the "));
  std::string out = filled_in(text, kTyreMark, tyres);
  const GaugeFigure* const figure = found.found.figure;
  if (figure == nullptr) return out;
  const double size = std::abs(as_shown(*figure, found.found.value));
  return filled_in(out, kSizeMark, print_quantity(size, figure->kind, system));
}

std::string verdict_text(std::string_view text, std::string_view tyre) {
  return filled_in(filled_in(text, kTyreMark, tyre), kSizeMark, "...");
}

std::string verdict_line(const VerdictFound& found, System system) {
  const std::string& says = found.verdict->says;
  std::string out = verdict_text(found, says, system);
  const GaugeFigure* const figure = found.found.figure;
  const bool named = says.find(kSizeMark) != std::string::npos;
  if (figure == nullptr || figure->inner || named) return out;
  out += fmt::format(": {} {}", figure->label, figure_text(found.found, system));
  const std::string range = range_text(found.from, found.to, figure->kind, system);
  if (range.empty()) return out;
  const char* whose = found.crews_band ? " by the kart file's band" : "";
  return out + fmt::format("; in order{} {}", whose, range);
}

std::string odds_text(double decibans) {
  const double times = std::pow(10.0, std::abs(decibans) / 10.0);
  const double unit = std::pow(10.0, std::floor(std::log10(times)) - 1.0);
  const double shown = std::round(times / unit) * unit;
  return fmt::format("{:.{}f} times {}", shown, shown < 10.0 ? 1 : 0,
                     decibans < 0.0 ? "down" : "up");
}

}  // namespace kartwright
