#include "cli/sheet/lap_chart.h"

#include <algorithm>
#include <array>
#include <string_view>

#include <fmt/format.h>

namespace kartwright::cli {
namespace {

constexpr std::array<std::string_view, 5> kMarkStyles{"was-dot", "is-dot", "wanted", "was-fill",
                                                      "is-fill"};

void off_scale_arrow(Drawing& drawing, Point at, bool above) {
  const double tip = above ? at.y - 11.0 : at.y + 11.0;
  const double foot = above ? tip + 3.5 : tip - 3.5;
  drawing.path({{at.x - 4.0, foot}, {at.x, tip}, {at.x + 4.0, foot}}, "limit");
}

}  // namespace

double LapChart::x(int number) const {
  const double range = last.value - first.value;
  return kLeft + (range > 0.0 ? (number - first.value) / range : 0.5) * (kRight - kLeft);
}

double LapChart::y(double seconds) const {
  const double range = most.value - least.value;
  return kFoot - (range > 0.0 ? (seconds - least.value) / range : 0.5) * (kFoot - kTop);
}

Point LapChart::at(int number, double seconds) const {
  constexpr double kOff = 7.0;
  return {x(number), std::clamp(y(seconds), kTop - kOff, kFoot + kOff)};
}

void lap_axes(Drawing& drawing, const LapChart& chart) {
  constexpr double kOut = 4.0;  // how far lines reach beyond the plot
  for (const auto& [end, y] :
       {std::pair{&chart.most, LapChart::kTop}, std::pair{&chart.least, LapChart::kFoot}}) {
    drawing.line({LapChart::kLeft - kOut, y}, {LapChart::kRight + kOut, y}, "faint");
    if (chart.most.value > chart.least.value || end == &chart.least)
      drawing.figure({LapChart::kLeft - 2.0 * kOut, y + kOut}, seconds_text(end->value), end->json,
                     Anchor::end, "soft");
  }
  drawing.line({LapChart::kLeft - kOut, LapChart::kAxis},
               {LapChart::kRight + kOut, LapChart::kAxis}, "axis");
  const double foot = LapChart::kAxis + 14.0;
  drawing.words({LapChart::kLeft - 2.0 * kOut, foot}, "lap", Anchor::end, "soft");
  drawing.figure({LapChart::kLeft, foot}, fmt::format("{:g}", chart.first.value), chart.first.json,
                 Anchor::start, "soft");
  if (chart.last.value == chart.first.value) return;
  drawing.figure({LapChart::kRight, foot}, fmt::format("{:g}", chart.last.value), chart.last.json,
                 Anchor::end, "soft");
}

void lap_mark(Drawing& drawing, Point at, std::size_t group, double r) {
  const std::size_t shape = group % kMarkStyles.size();
  const std::string_view style =
      kMarkStyles[(group + group / kMarkStyles.size()) % kMarkStyles.size()];
  const auto [x, y] = at;
  switch (shape) {
    case 0:
      return drawing.circle(at, r, style);
    case 1:
      return drawing.box({x - r + 0.4, y - r + 0.4}, 2.0 * r - 0.8, 2.0 * r - 0.8, style);
    case 2:
      return drawing.area({{x, y - r - 0.6}, {x + r + 0.6, y + r}, {x - r - 0.6, y + r}}, style);
    case 3:
      return drawing.area({{x, y - r - 1.0}, {x + r + 1.0, y}, {x, y + r + 1.0}, {x - r - 1.0, y}},
                          style);
    default:
      return drawing.area({{x - r - 0.6, y - r}, {x + r + 0.6, y - r}, {x, y + r + 0.6}}, style);
  }
}

void lap_in_chart(Drawing& drawing, const LapChart& chart, int number, double seconds,
                  std::size_t group) {
  const Point at = chart.at(number, seconds);
  const double y = chart.y(seconds);
  if (at.y != y) off_scale_arrow(drawing, at, y < at.y);
  lap_mark(drawing, at, group, chart.radius);
}

void ring_in_chart(Drawing& drawing, const LapChart& chart, int number, double seconds) {
  constexpr double kAbout = 2.6;
  drawing.circle(chart.at(number, seconds), chart.radius + kAbout, "limit");
}

double lap_radius(std::size_t laps) {
  constexpr std::size_t kCrowd = 80;
  constexpr double kSmall = 2.2;
  return laps > kCrowd ? kSmall : LapChart::kLapRadius;
}

std::string seconds_text(double seconds) {
  constexpr double kLong = 1000.0;  // of which nobody needs thousandths
  return seconds < kLong ? fmt::format("{:.3f} s", seconds) : fmt::format("{:.0f} s", seconds);
}

}  // namespace kartwright::cli
