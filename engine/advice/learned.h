// learned.h - what a kart's log says of each of its adjustments, beside what the rules say.

#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "engine/kart/kart.h"
#include "engine/knowledge/pack.h"
#include "engine/records/calibration.h"
#include "engine/records/history.h"

namespace kartwright {

/// Whether a log bears the rules out.
enum class Agreement {
  too_few,       ///< the spread is hardly smaller than the rules' own
  agrees,        ///< what is learned lies within the rules' spread
  differs,       ///< it lies outside that, the sign the same
  contradicted,  ///< the other sign, at 95 %
};
std::string_view name_of(Agreement agreement);

struct LearnedAdjustment {
  const Adjustment* adjustment = nullptr;
  Eigen::VectorXd rule, rule_sd;  ///< notches for a step in direction 0, by axis
  Eigen::VectorXd learned, sd;    ///< the same with the log
  int runs = 0;                   ///< steps between two runs that moved it and were spoken of
  int differences = 0;            ///< of symptoms over these
  std::size_t axis = 0;           ///< the one it is told by: where the rules are surest
  Agreement agreement = Agreement::too_few;    ///< on that axis
  std::vector<std::size_t> contradicted = {};  ///< axes where the log contradicts the sign at 95 %
  int with_others = 0;                         ///< of the runs: another adjustment was moved too
  int track_moved = 0;                         ///< the state of the track changed
  int tyres_changed = 0;                       ///< other tyres went on
  std::vector<std::string> told = {};          ///< the runs, latest first
};

struct Learned {
  std::string kart;
  std::string track;                                ///< the rules' values are those on it
  std::size_t runs = 0;                             ///< in the log
  std::vector<LearnedAdjustment> adjustments = {};  ///< those that were moved, most runs first
  std::optional<Calibration> calibration = {};
};

/// REQUIRES: the history was learned with this pack, and outlives nothing.
Learned learned_from(const History& history, const Pack& pack, const Kart& kart,
                     const std::string& track);

/// The rules' effects on a track where nothing else is known of the day.
std::vector<Effect> effects_by_rules(const Pack& pack, const Kart& kart, const std::string& track);

}  // namespace kartwright
