#include "engine/records/run.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>

#include <fmt/format.h>

namespace kartwright {

namespace {

constexpr std::array<std::string_view, 4> kFlags{"counts", "out", "in", "traffic"};
constexpr std::array<std::string_view, 4> kOrigins{"advice", "own-idea", "found", "undo"};

template <typename Enum, std::size_t N>
std::optional<Enum> enum_named(const std::array<std::string_view, N>& names,
                               std::string_view name) {
  const auto* const found = std::find(names.begin(), names.end(), name);
  if (found == names.end()) return {};
  return static_cast<Enum>(found - names.begin());
}

/// Figures between marks: `2026-11-14T10:30:15` gives six.
std::optional<std::vector<int>> figures_of(std::string_view text) {
  constexpr std::array<std::string_view, 5> kBetween{"-", "-", "T ", ":", ":"};
  std::vector<int> out;
  const char* at = text.data();
  const char* const end = text.data() + text.size();
  while (true) {
    int figure{};
    const auto [next, error] = std::from_chars(at, end, figure);
    const std::ptrdiff_t length = next - at;
    if (error != std::errc{} || *at == '-' || length != (out.empty() ? 4 : 2)) return {};
    out.push_back(figure);
    if (next == end) return out;
    if (out.size() > kBetween.size()) return {};
    if (kBetween.at(out.size() - 1).find(*next) == std::string_view::npos) return {};
    at = next + 1;
  }
}

}  // namespace

std::string_view name_of(LapFlag flag) { return kFlags.at(static_cast<std::size_t>(flag)); }
std::optional<LapFlag> lap_flag_named(std::string_view name) {
  return enum_named<LapFlag>(kFlags, name);
}

std::string_view name_of(Origin origin) { return kOrigins.at(static_cast<std::size_t>(origin)); }
std::optional<Origin> origin_named(std::string_view name) {
  return enum_named<Origin>(kOrigins, name);
}

std::string name_of(const Run& run) {
  return fmt::format("run {} ({}{}{})", run.id, run.session, run.session.empty() ? "" : ", ",
                     run.day());
}

std::optional<std::string> parse_moment(std::string_view text) {
  auto figures = figures_of(text);
  if (!figures || figures->size() < 3 || figures->size() == 4) return {};
  figures->resize(6, 0);
  const std::vector<int>& f = *figures;
  const std::chrono::year_month_day date{std::chrono::year(f[0]),
                                         std::chrono::month(static_cast<unsigned>(f[1])),
                                         std::chrono::day(static_cast<unsigned>(f[2]))};
  if (!date.ok() || f[3] > 23 || f[4] > 59 || f[5] > 59) return {};
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}", f[0], f[1], f[2], f[3], f[4], f[5]);
}

std::string later(const std::string& moment, int seconds) {
  const std::vector<int> f = figures_of(moment).value_or(std::vector<int>{1970, 1, 1, 0, 0, 0});
  const std::chrono::sys_days day =
      std::chrono::year(f[0]) / static_cast<int>(f[1]) / static_cast<int>(f[2]);
  const auto then = std::chrono::sys_seconds(day) + std::chrono::hours(f[3]) +
                    std::chrono::minutes(f[4]) + std::chrono::seconds(f[5] + seconds);
  const auto midnight = std::chrono::floor<std::chrono::days>(then);
  const std::chrono::year_month_day date{midnight};
  const std::chrono::hh_mm_ss clock{then - midnight};
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                     clock.hours().count(), clock.minutes().count(), clock.seconds().count());
}

std::string Run::setting(std::string_view adjustment) const {
  const auto found = std::find_if(settings.begin(), settings.end(), [&](const RunSetting& each) {
    return each.adjustment == adjustment;
  });
  return found == settings.end() ? std::string() : found->value;
}

std::vector<double> counted(const Run& run) {
  std::vector<double> seconds;
  for (const RunLap& lap : run.laps) {
    if (lap.flag == LapFlag::counts) seconds.push_back(lap.seconds);
  }
  return seconds;
}

double best_of(const Run& run) {
  const std::vector<double> seconds = counted(run);
  return seconds.empty() ? 0.0 : *std::min_element(seconds.begin(), seconds.end());
}

}  // namespace kartwright
