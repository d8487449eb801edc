#include "engine/records/lap_flags.h"

#include <algorithm>

#include <fmt/format.h>

namespace kartwright {

namespace {

double median_of_laps(const std::vector<RunLap>& laps) {
  std::vector<double> seconds;
  for (const RunLap& lap : laps) seconds.push_back(lap.seconds);
  std::sort(seconds.begin(), seconds.end());
  const std::size_t middle = seconds.size() / 2;
  return seconds.size() % 2 == 1 ? seconds[middle] : (seconds[middle - 1] + seconds[middle]) / 2.0;
}

}  // namespace

void flag_laps(std::vector<RunLap>& laps, double slow) {
  if (laps.empty()) return;
  const double most = median_of_laps(laps) * (1.0 + slow);
  for (RunLap& lap : laps) {
    if (lap.by_crew) continue;
    lap.flag = LapFlag::counts;
    if (lap.seconds <= most) continue;
    lap.flag = LapFlag::traffic;
    if (&lap == &laps.back()) lap.flag = LapFlag::in;
    if (&lap == &laps.front()) lap.flag = LapFlag::out;
  }
}

std::string lap_rule_in_words(double slow) {
  return fmt::format(
      "in brackets: more than {:g} % over the run's median, so not counted; --flag LAP=counts says "
      "otherwise",
      100.0 * slow);
}

}  // namespace kartwright
