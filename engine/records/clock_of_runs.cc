#include "engine/records/clock_of_runs.h"

#include <algorithm>

#include <fmt/format.h>

namespace kartwright {

namespace {

constexpr double kUsualWorth = 0.1;  // seconds a lap

bool one_group(const Run& a, const Run& b) {
  return a.settings == b.settings && a.tyres == b.tyres && a.track == b.track;
}

/// "run 11, 13", with the track where there are several.
std::vector<std::string> names_of_groups(const std::vector<const Run*>& runs,
                                         const std::vector<std::size_t>& groups) {
  const bool one_track = std::all_of(
      runs.begin(), runs.end(), [&](const Run* run) { return run->track == runs.front()->track; });
  std::vector<std::string> names;
  std::vector<std::string> tracks;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    if (groups[i] == names.size()) {
      names.push_back(fmt::format("run {}", runs[i]->id));
      tracks.push_back(runs[i]->track.empty() ? "track unknown" : runs[i]->track);
    } else {
      names[groups[i]] += fmt::format(", {}", runs[i]->id);
    }
  }
  for (std::size_t i = 0; i < names.size() && !one_track; ++i) names[i] += " (" + tracks[i] + ")";
  return names;
}

}  // namespace

std::vector<std::size_t> groups_of_runs(const std::vector<const Run*>& runs) {
  std::vector<std::size_t> groups;
  std::vector<const Run*> firsts;
  for (const Run* const run : runs) {
    const auto same = std::find_if(firsts.begin(), firsts.end(),
                                   [&](const Run* first) { return one_group(*first, *run); });
    groups.push_back(static_cast<std::size_t>(same - firsts.begin()));
    if (same == firsts.end()) firsts.push_back(run);
  }
  return groups;
}

LapFile laps_of(const std::vector<const Run*>& runs) {
  const std::vector<std::size_t> groups = groups_of_runs(runs);
  LapFile file{.name = "log", .groups = names_of_groups(runs, groups), .laps = {}};
  int number = 0;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    for (const RunLap& lap : runs[i]->laps) {
      ++number;
      if (lap.flag == LapFlag::counts)
        file.laps.push_back({.number = number, .seconds = lap.seconds, .group = groups[i]});
    }
  }
  return file;
}

std::optional<LapComparison> last_change(const std::vector<const Run*>& day, double worth) {
  if (day.size() < 2) return {};
  LapFile file = laps_of(day);
  const std::vector<std::size_t> groups = groups_of_runs(day);
  const std::size_t before = groups[groups.size() - 2];
  const std::size_t after = groups.back();
  if (before == after) return {};
  // The setup before the last is what the others are held against: it goes first.
  const auto renamed = [&](std::size_t group) {
    return group == before ? 0 : group < before ? group + 1 : group;
  };
  std::rotate(file.groups.begin(), file.groups.begin() + static_cast<std::ptrdiff_t>(before),
              file.groups.begin() + static_cast<std::ptrdiff_t>(before) + 1);
  for (FileLap& lap : file.laps) lap.group = renamed(lap.group);
  Findings unused;
  std::optional<LapComparison> compared = compare_laps(file, worth, unused);
  if (!compared) return {};
  for (std::size_t i = 0; i < compared->clock.judged.size(); ++i) {
    if (compared->clock.judged[i].setting == renamed(after)) compared->decides = i;
  }
  return compared;
}

ClockVerdict verdict_on_last(const std::vector<const Run*>& day) {
  const auto compared = last_change(day, kUsualWorth);
  return compared ? compared->clock.judged[compared->decides].verdict : ClockVerdict::not_settled;
}

std::optional<std::string> laps_fact(const std::vector<Run>& runs) {
  std::vector<const Run*> day;
  for (const Run& run : runs) {
    if (run.driven && run.day() == runs.back().day()) day.push_back(&run);
  }
  switch (verdict_on_last(day)) {
    case ClockVerdict::keep:
      return "faster";
    case ClockVerdict::revert:
      return "slower";
    case ClockVerdict::not_settled:
      break;
  }
  return {};
}

}  // namespace kartwright
