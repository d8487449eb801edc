// lap_comparison.h - the laps of a file compared, with everything that a page or a file of the
// answer says.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/records/compare.h"
#include "engine/records/lap_file.h"

namespace kartwright {

/// One group of laps: one setting.
struct DrivenGroup {
  std::string name;  ///< as the file writes it
  int laps = 0;
  int first_lap = 0, last_lap = 0;
};

/// A lap as it was driven and as the fit has it.
struct FittedLap {
  int number = 0;
  double seconds = 0, fitted = 0;
  std::size_t group = 0;
  bool wild = false;
};

struct LapComparison {
  double worth = 0;  ///< seconds a lap, an effect worth having
  std::vector<DrivenGroup> groups;
  std::vector<FittedLap> laps;  ///< by number; fitted without the wild laps, where that can be done
  std::size_t left_out = 0;
  Comparison clock;            ///< settings are indices into `groups`
  std::size_t decides = 0;     ///< index into clock.judged: of the group driven last
  double drift_within = 0;     ///< half of the drift's 95 % interval, seconds a lap
  double least = 0, most = 0;  ///< seconds, of the laps that are not wild and their fit
};

constexpr std::size_t kMostGroups = 20;

/// Half of the 95 % interval of an effect.
double within(const SettingEffect& effect);

/// Compares the groups of a file with the first. Where there are fewer than two groups, more than
/// 20, or too few laps to tell group from drift, that goes to `findings` and there is nothing.
/// REQUIRES: worth above zero, seconds a lap.
std::optional<LapComparison> compare_laps(const LapFile& file, double worth, Findings& findings);

}  // namespace kartwright
