#include "cli/sheet/run_picture.h"

#include <algorithm>
#include <array>
#include <string_view>

#include <fmt/format.h>

#include "cli/sheet/lap_chart.h"

namespace kartwright::cli {
namespace {

constexpr std::array<std::string_view, 4> kLapKinds{"counts", "out-lap", "in-lap", "traffic"};
constexpr std::size_t kLapsInPicture = 300;

std::size_t kind_of_lap(const RunLap& lap) { return static_cast<std::size_t>(lap.flag); }

std::size_t laps_of_kind(const Run& run, std::size_t kind) {
  return static_cast<std::size_t>(
      std::count_if(run.laps.begin(), run.laps.end(),
                    [&](const RunLap& lap) { return kind_of_lap(lap) == kind; }));
}

/// The fastest and the slowest lap that count; of all laps where none does.
std::pair<std::size_t, std::size_t> ends_of(const Run& run) {
  const bool all = laps_of_kind(run, 0) == 0;
  std::optional<std::size_t> least, most;
  for (std::size_t i = 0; i < run.laps.size(); ++i) {
    const RunLap& lap = run.laps[i];
    if (!all && lap.flag != LapFlag::counts) continue;
    if (!least || lap.seconds < run.laps[*least].seconds) least = i;
    if (!most || lap.seconds > run.laps[*most].seconds) most = i;
  }
  return {least.value_or(0), most.value_or(0)};
}

LapChart chart_of_run(const Run& run) {
  const auto [least, most] = ends_of(run);
  const auto number = [&](std::size_t i) {
    return AxisEnd{static_cast<double>(run.laps[i].number), fmt::format("/laps/{}/number", i)};
  };
  const auto seconds = [&](std::size_t i) {
    return AxisEnd{run.laps[i].seconds, fmt::format("/laps/{}/seconds", i)};
  };
  return {.first = number(0),
          .last = number(run.laps.size() - 1),
          .least = seconds(least),
          .most = seconds(most),
          .radius = lap_radius(run.laps.size())};
}

/// Every lap, or as many as can be told apart.
std::vector<RunLap> laps_in_picture(const Run& run) {
  const std::size_t each = 1 + (run.laps.size() - 1) / kLapsInPicture;
  std::vector<RunLap> out;
  for (std::size_t i = 0; i < run.laps.size(); i += each) out.push_back(run.laps[i]);
  return out;
}

void lap_line(Drawing& drawing, const LapChart& chart, const std::vector<RunLap>& laps) {
  std::vector<Point> points;
  const auto draw = [&] {
    if (points.size() > 1) drawing.path(points, "fit");
    points.clear();
  };
  for (const RunLap& lap : laps) {
    if (lap.flag == LapFlag::counts) points.push_back(chart.at(lap.number, lap.seconds));
    if (lap.flag != LapFlag::counts) draw();
  }
  draw();
}

void lap_kinds(Drawing& drawing, const Run& run) {
  double x = 16.0;
  for (std::size_t kind = 0; kind < kLapKinds.size(); ++kind) {
    if (laps_of_kind(run, kind) == 0) continue;
    lap_mark(drawing, {x, LapChart::kBelow - 4.0}, kind);
    drawing.words({x + 8.0, LapChart::kBelow}, kLapKinds.at(kind), Anchor::start);
    x += 78.0;
  }
}

std::string run_in_words(const Run& run, const LapChart& chart) {
  std::string text = fmt::format("Lap times against lap number: laps {:g} to {:g}, ",
                                 chart.first.value, chart.last.value);
  text += laps_of_kind(run, 0) > 0 ? "those that count" : "none of which counts,";
  text += fmt::format(" from {} to {}.", seconds_text(chart.least.value),
                      seconds_text(chart.most.value));
  for (std::size_t kind = 0; kind < kLapKinds.size(); ++kind) {
    const std::size_t laps = laps_of_kind(run, kind);
    if (laps > 0) text += fmt::format(" {}: {};", kLapKinds.at(kind), laps);
  }
  text.back() = '.';
  return text;
}

}  // namespace

Picture run_picture(const Run& run) {
  Drawing drawing(LapChart::kBelow + 8.0);
  const LapChart chart = chart_of_run(run);
  const std::vector<RunLap> laps = laps_in_picture(run);
  lap_axes(drawing, chart);
  lap_line(drawing, chart, laps);
  for (const RunLap& lap : laps)
    lap_in_chart(drawing, chart, lap.number, lap.seconds, kind_of_lap(lap));
  lap_kinds(drawing, run);
  return drawing.picture(run_in_words(run, chart));
}

}  // namespace kartwright::cli
