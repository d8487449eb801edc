#include "engine/records/lap_comparison.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/algebra/distributions.h"
#include "engine/algebra/regression.h"

namespace kartwright {

namespace {

std::vector<DrivenGroup> groups_of(const LapFile& file) {
  std::vector<DrivenGroup> groups;
  for (const std::string& name : file.groups) groups.push_back({.name = name});
  for (const FileLap& lap : file.laps) {
    DrivenGroup& group = groups[lap.group];
    if (group.laps++ == 0) group.first_lap = lap.number;
    group.last_lap = lap.number;
  }
  return groups;
}

/// "A 6 laps, B 1 lap".
std::string what_is_there(const std::vector<DrivenGroup>& groups) {
  std::string text;
  for (const DrivenGroup& group : groups) {
    text += fmt::format("{}`{}` {} lap{}", text.empty() ? "" : ", ", group.name, group.laps,
                        group.laps == 1 ? "" : "s");
  }
  return text;
}

Diagnostic nothing_to_compare(const LapFile& file, std::string message) {
  return {.code = Code::nothing_to_compare,
          .file = file.name,
          .message = std::move(message),
          .help =
              "drive the first setting, then the other, then the first again, five laps or more "
              "of each"};
}

bool check_groups(const LapFile& file, const std::vector<DrivenGroup>& groups, Findings& findings) {
  if (groups.size() > kMostGroups) {
    findings.add({.code = Code::too_many_laps,
                  .file = file.name,
                  .message = fmt::format("{} groups of laps, and at most {} can be compared",
                                         groups.size(), kMostGroups),
                  .help =
                      "is the group the setting that was driven? --column group=NAME says which "
                      "column it is"});
    return false;
  }
  if (groups.size() < 2) {
    findings.add(nothing_to_compare(file, "all laps are of one group: " + what_is_there(groups)));
    return false;
  }
  return true;
}

std::vector<TimedLap> timed(const LapFile& file) {
  std::vector<TimedLap> laps;
  for (const FileLap& lap : file.laps) laps.push_back({lap.number, lap.seconds, lap.group});
  return laps;
}

double fitted_seconds(const ClockFit& fit, const FileLap& lap) {
  double seconds = fit.start + fit.drift * (lap.number - fit.middle);
  for (const SettingEffect& effect : fit.effects) {
    if (effect.setting == lap.group) seconds += effect.seconds;
  }
  return seconds;
}

void fit_laps(const LapFile& file, LapComparison& out) {
  const ClockFit& fit = out.clock.fit_tame ? *out.clock.fit_tame : out.clock.fit;
  for (const FileLap& lap : file.laps) {
    out.laps.push_back({.number = lap.number,
                        .seconds = lap.seconds,
                        .fitted = fitted_seconds(fit, lap),
                        .group = lap.group});
  }
  for (const std::size_t at : out.clock.wild) out.laps[at].wild = true;
  out.least = out.laps.front().fitted;
  out.most = out.least;
  for (const FittedLap& lap : out.laps) {
    const double seconds = lap.wild ? lap.fitted : lap.seconds;
    out.least = std::min({out.least, seconds, lap.fitted});
    out.most = std::max({out.most, seconds, lap.fitted});
  }
}

/// Which of those held against the first was driven last.
std::size_t driven_last(const LapComparison& all) {
  const auto last_lap = [&](const ClockJudgement& judged) {
    return all.groups[judged.setting].last_lap;
  };
  const auto& judged = all.clock.judged;
  const auto last =
      std::max_element(judged.begin(), judged.end(),
                       [&](const auto& a, const auto& b) { return last_lap(a) < last_lap(b); });
  return static_cast<std::size_t>(last - judged.begin());
}

}  // namespace

double within(const SettingEffect& effect) { return (effect.high - effect.low) / 2.0; }

std::optional<LapComparison> compare_laps(const LapFile& file, double worth, Findings& findings) {
  LapComparison out{.worth = worth,
                    .groups = groups_of(file),
                    .laps = {},
                    .left_out = file.left_out,
                    .clock = {}};
  if (!check_groups(file, out.groups, findings)) return {};
  auto found = compare(timed(file), worth);
  if (!found) {
    findings.add(nothing_to_compare(
        file,
        "too few laps to tell a change from the track coming in: " + what_is_there(out.groups)));
    return {};
  }
  out.clock = std::move(*found);
  out.decides = driven_last(out);
  const ClockFit& fit = out.clock.fit;
  out.drift_within = student_quantile(0.975, fit.degrees_of_freedom) * fit.drift_error;
  fit_laps(file, out);
  return out;
}

}  // namespace kartwright
