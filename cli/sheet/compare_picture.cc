#include "cli/sheet/compare_picture.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "cli/page.h"
#include "cli/sheet/lap_chart.h"

namespace kartwright::cli {
namespace {

constexpr double kLegendRow = 16.0;
constexpr std::size_t kNamedGroups = 6;     // more are named in the table alone
constexpr std::size_t kNameInPicture = 24;  // columns

std::string effect_figure(double seconds) { return fmt::format("{:+.3f} s", seconds); }
std::string drift_figure(double seconds) { return fmt::format("{:+.4f} s", seconds); }

LapChart chart_of(const LapComparison& all) {
  return {.first = {static_cast<double>(all.laps.front().number), "/laps/0/lap"},
          .last = {static_cast<double>(all.laps.back().number),
                   fmt::format("/laps/{}/lap", all.laps.size() - 1)},
          .least = {all.least, "/scale/least"},
          .most = {all.most, "/scale/most"},
          .radius = lap_radius(all.laps.size())};
}

/// Laps of one group, one behind the other.
struct Stint {
  std::size_t begin = 0, end = 0;
};

std::vector<Stint> stints_of(const LapComparison& all) {
  std::vector<Stint> out;
  for (std::size_t i = 0; i < all.laps.size(); ++i) {
    const bool goes_on = i > 0 && all.laps[i].group == all.laps[i - 1].group;
    if (!goes_on) out.push_back({i, i});
    out.back().end = i + 1;
  }
  return out;
}

/// Where a group comes back too often to draw each time: each from its first lap to its last.
std::vector<Stint> stints_to_draw(const LapComparison& all) {
  constexpr std::size_t kMostStints = 60;
  std::vector<Stint> stints = stints_of(all);
  if (stints.size() <= kMostStints) return stints;
  std::vector<Stint> whole(all.groups.size());
  for (std::size_t i = all.laps.size(); i-- > 0;) {
    Stint& stint = whole[all.laps[i].group];
    stint = {i, std::max(stint.end, i + 1)};
  }
  return whole;
}

void stint_letter(Drawing& drawing, const LapComparison& all, const LapChart& chart,
                  const Stint& stint, char letter, double& free_from) {
  const double from = chart.x(all.laps[stint.begin].number);
  const double middle = (from + chart.x(all.laps[stint.end - 1].number)) / 2.0;
  constexpr double kRoom = 6.0;
  if (middle - kRoom < free_from) return;
  drawing.words({middle, 12.0}, std::string(1, letter), Anchor::middle, "soft");
  free_from = middle + kRoom;
}

void fit_lines(Drawing& drawing, const LapComparison& all, const LapChart& chart,
               const std::string& letters) {
  double free_from = 0.0;
  for (const Stint& stint : stints_to_draw(all)) {
    const FittedLap& first = all.laps[stint.begin];
    const FittedLap& last = all.laps[stint.end - 1];
    const double widen = stint.end - stint.begin == 1 ? 4.0 : 0.0;
    drawing.line({chart.x(first.number) - widen, chart.y(first.fitted)},
                 {chart.x(last.number) + widen, chart.y(last.fitted)}, "fit");
    stint_letter(drawing, all, chart, stint, letters[first.group], free_from);
  }
}

/// One lap of each group in every cell of a grid.
std::vector<std::size_t> one_a_cell(const LapComparison& all, const LapChart& chart, double cell) {
  std::vector<std::size_t> out;
  std::set<std::tuple<std::size_t, bool, long, long>> taken;
  for (std::size_t i = 0; i < all.laps.size(); ++i) {
    const FittedLap& lap = all.laps[i];
    const Point at = chart.at(lap.number, lap.seconds);
    const bool fresh =
        taken.emplace(lap.group, lap.wild, std::lround(at.x / cell), std::lround(at.y / cell))
            .second;
    if (fresh) out.push_back(i);
  }
  return out;
}

/// Each lap; where there are too many, those that lie on one another once.
std::vector<std::size_t> laps_to_draw(const LapComparison& all, const LapChart& chart) {
  constexpr std::size_t kMostSigns = 1000;
  constexpr double kHardlySeen = 0.05, kWider = 1.5;
  std::vector<std::size_t> out = one_a_cell(all, chart, kHardlySeen);
  for (double cell = chart.radius; out.size() > kMostSigns; cell *= kWider)
    out = one_a_cell(all, chart, cell);
  return out;
}

void lap_signs(Drawing& drawing, const LapComparison& all, const LapChart& chart) {
  for (const std::size_t i : laps_to_draw(all, chart)) {
    const FittedLap& lap = all.laps[i];
    lap_in_chart(drawing, chart, lap.number, lap.seconds, lap.group);
    if (lap.wild) ring_in_chart(drawing, chart, lap.number, lap.seconds);
  }
}

std::string lettered(const LapComparison& all, const std::string& letters, std::size_t group,
                     std::size_t width) {
  const std::string name = printable(all.groups[group].name);
  const std::string start(fitting(name, width));
  return std::string(1, letters[group]) + " " + start + (start.size() < name.size() ? "…" : "");
}

std::size_t legend_rows(const LapComparison& all) {
  return all.groups.size() <= kNamedGroups ? all.groups.size() : (all.groups.size() + 9) / 10;
}

void legend(Drawing& drawing, const LapComparison& all, const std::string& letters, double top) {
  const bool named = all.groups.size() <= kNamedGroups;
  for (std::size_t i = 0; i < all.groups.size(); ++i) {
    const std::size_t row = named ? i : i / 10;
    const double x = named ? 16.0 : 16.0 + 30.0 * static_cast<double>(i % 10);
    const double y = top + kLegendRow * static_cast<double>(row);
    lap_mark(drawing, {x, y - 4.0}, i);
    drawing.words({x + 8.0, y},
                  named ? lettered(all, letters, i, kNameInPicture) : letters.substr(i, 1),
                  Anchor::start);
  }
}

std::string laps_in_words(const LapComparison& all, const std::string& letters) {
  std::string text = fmt::format(
      "Lap times against lap number: laps {} to {}, from {} to {}, with the line fitted to them, "
      "which drifts by {} a lap.",
      all.laps.front().number, all.laps.back().number, seconds_text(all.least),
      seconds_text(all.most), drift_figure(all.clock.fit.drift));
  for (std::size_t i = 0; i < all.groups.size(); ++i)
    text += fmt::format(" {}, {} laps;", lettered(all, letters, i, 40), all.groups[i].laps);
  text.back() = '.';
  if (!all.clock.wild.empty())
    text += fmt::format(" {} of them wild, in rings.", all.clock.wild.size());
  return text;
}

// --- the effects ---------------------------------------------------------------------------------

constexpr double kBarLeft = 34.0, kBarRight = 244.0;

/// Seconds to the picture, the same either side of zero.
struct EffectScale {
  double most = 0;
  explicit EffectScale(const LapComparison& all) : most(all.worth) {
    widen(all.clock.fit);
    if (all.clock.fit_tame) widen(*all.clock.fit_tame);
  }
  void widen(const ClockFit& fit) {
    for (const SettingEffect& each : fit.effects)
      most = std::max({most, std::abs(each.low), std::abs(each.high)});
  }
  double x(double seconds) const {
    return (kBarLeft + kBarRight) / 2.0 + seconds / most * (kBarRight - kBarLeft) / 2.0;
  }
};

void interval(Drawing& drawing, const EffectScale& scale, const SettingEffect& effect, double y,
              bool tame) {
  drawing.line({scale.x(effect.low), y}, {scale.x(effect.high), y}, tame ? "axis" : "is");
  for (const double end : {effect.low, effect.high})
    drawing.line({scale.x(end), y - 3.0}, {scale.x(end), y + 3.0}, tame ? "axis" : "is");
  drawing.circle({scale.x(effect.seconds), y}, tame ? 2.5 : 3.5, tame ? "wanted" : "is-dot");
}

std::string effects_in_words(const LapComparison& all, const std::string& letters) {
  std::string text =
      fmt::format("Effect of each group against {}, with its 95 % interval; worth having: {:g} s.",
                  lettered(all, letters, 0, 40), all.worth);
  for (std::size_t at = 0; at < all.clock.fit.effects.size(); ++at) {
    const SettingEffect& effect = all.clock.fit.effects[at];
    text += fmt::format(
        " {}: {}, from {} to {};", lettered(all, letters, all.clock.judged[at].setting, 40),
        effect_figure(effect.seconds), effect_figure(effect.low), effect_figure(effect.high));
  }
  text.back() = '.';
  return text;
}

}  // namespace

Picture laps_picture(const LapComparison& compared, const std::string& letters) {
  const double drift_at =
      LapChart::kBelow + kLegendRow * static_cast<double>(legend_rows(compared)) + 2.0;
  Drawing drawing(drift_at + 8.0);
  const LapChart chart = chart_of(compared);
  lap_axes(drawing, chart);
  fit_lines(drawing, compared, chart, letters);
  lap_signs(drawing, compared, chart);
  legend(drawing, compared, letters, LapChart::kBelow);
  drawing.line({10.0, drift_at - 4.0}, {22.0, drift_at - 4.0}, "fit");
  drawing.words({28.0, drift_at}, "the fit; its drift each lap", Anchor::start);
  drawing.figure({LapChart::kRight, drift_at}, drift_figure(compared.clock.fit.drift), "/drift",
                 Anchor::end);
  return drawing.picture(laps_in_words(compared, letters));
}

Picture effects_picture(const LapComparison& compared, const std::string& letters) {
  const auto& tame = compared.clock.fit_tame;
  const double row = tame ? 26.0 : 18.0;
  constexpr double kFirst = 34.0;
  const double foot = kFirst + row * static_cast<double>(compared.clock.fit.effects.size()) - 8.0;
  Drawing drawing(foot + 24.0);
  const EffectScale scale(compared);
  drawing.box({scale.x(-compared.worth), 18.0}, scale.x(compared.worth) - scale.x(-compared.worth),
              foot - 18.0, "band");
  drawing.line({scale.x(0.0), 18.0}, {scale.x(0.0), foot}, "mark");
  drawing.words({kBarLeft, 12.0}, "faster", Anchor::start, "soft");
  drawing.words({scale.x(0.0), 12.0}, "as " + letters.substr(0, 1), Anchor::middle, "soft");
  drawing.words({kBarRight, 12.0}, "slower", Anchor::end, "soft");
  for (std::size_t at = 0; at < compared.clock.fit.effects.size(); ++at) {
    const SettingEffect& effect = compared.clock.fit.effects[at];
    const double y = kFirst + row * static_cast<double>(at);
    drawing.words({10.0, y}, letters.substr(compared.clock.judged[at].setting, 1), Anchor::start);
    interval(drawing, scale, effect, y - 4.0, false);
    drawing.figure({LapChart::kRight, y}, effect_figure(effect.seconds),
                   fmt::format("/effects/{}/effect", at), Anchor::end);
    if (tame) interval(drawing, scale, tame->effects[at], y + 6.0, true);
  }
  drawing.words({10.0, foot + 18.0}, "grey band: less is not worth having", Anchor::start, "soft");
  drawing.figure({LapChart::kRight, foot + 18.0}, fmt::format("{:g} s", compared.worth), "/worth",
                 Anchor::end, "soft");
  return drawing.picture(effects_in_words(compared, letters));
}

}  // namespace kartwright::cli
