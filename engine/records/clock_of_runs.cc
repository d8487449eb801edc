#include "engine/records/clock_of_runs.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/quantity/quantity.h"

namespace kartwright {

namespace {

constexpr double kUsualWorth = 0.1;  // seconds a lap

/// Runs by setup, each with its group; groups in the order that they are first driven.
std::vector<std::size_t> groups_by_setup(const std::vector<const Run*>& runs,
                                         std::vector<std::string>& names) {
  std::vector<std::size_t> group_of;
  std::vector<const Run*> firsts;
  for (const Run* const run : runs) {
    const auto same = std::find_if(firsts.begin(), firsts.end(), [&](const Run* first) {
      return first->settings == run->settings && first->tyres == run->tyres;
    });
    const auto group = static_cast<std::size_t>(same - firsts.begin());
    if (same == firsts.end()) {
      firsts.push_back(run);
      names.push_back(fmt::format("run {}", run->id));
    } else {
      names[group] += fmt::format(", {}", run->id);
    }
    group_of.push_back(group);
  }
  return group_of;
}

}  // namespace

LapFile laps_of(const std::vector<const Run*>& runs) {
  LapFile file{.name = "log", .groups = {}, .laps = {}};
  const std::vector<std::size_t> groups = groups_by_setup(runs, file.groups);
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

std::optional<std::size_t> group_of_run(const LapComparison& compared, const Run& run) {
  // A group is named by its runs: "run 11, 13".
  for (std::size_t i = 0; i < compared.groups.size(); ++i) {
    const std::string& name = compared.groups[i].name;
    const std::string id = std::to_string(run.id);
    for (const std::string& each : parts_of_list(name.substr(name.find(' ') + 1))) {
      if (each == id || each == " " + id) return i;
    }
  }
  return {};
}

std::optional<LapComparison> last_change(const std::vector<const Run*>& day, double worth) {
  if (day.size() < 2) return {};
  LapFile file = laps_of(day);
  std::vector<std::string> names;
  const std::vector<std::size_t> groups = groups_by_setup(day, names);
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

std::optional<std::string> laps_fact(const std::vector<Run>& runs) {
  std::vector<const Run*> day;
  for (const Run& run : runs) {
    if (run.driven && run.day() == runs.back().day()) day.push_back(&run);
  }
  const auto compared = last_change(day, kUsualWorth);
  if (!compared) return {};
  switch (compared->clock.judged[compared->decides].verdict) {
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
