// compare.h - did the change help? The clock's answer: laps before and after, the track coming in
// between them taken out, and how sure that is.

#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace kartwright {

/// A lap that counts: out-laps, in-laps and those the crew flagged are left out before.
struct TimedLap {
  int number = 0;  ///< over the whole session, in the order they were driven
  double seconds = 0;
  std::size_t setting = 0;  ///< 0 as it was at first, 1, 2 ... each another
};

/// One setting against the first, seconds a lap.
struct SettingEffect {
  std::size_t setting = 0;
  double seconds = 0, error = 0;  ///< below zero it is faster; standard error
  double low = 0, high = 0;       ///< 95 % interval
  double inflation = 1;           ///< of its variance, for the order it was driven in
};

/// lap = a + r * (number - middle) + c(setting), by least squares.
struct ClockFit {
  std::vector<SettingEffect> effects;  ///< one for each setting but the first
  double start = 0;                    ///< a, seconds, of the first setting at the middle
  double middle = 0;                   ///< mean of the lap numbers
  double drift = 0, drift_error = 0;   ///< r, seconds a lap
  double residual_sd = 0;
  int degrees_of_freedom = 0;
};

enum class ClockVerdict { keep, revert, not_settled };
std::string_view name_of(ClockVerdict verdict);
std::optional<ClockVerdict> clock_verdict_named(std::string_view name);

/// Why the clock settles nothing.
enum class Unsettled { none, spread, wild_laps, order };

struct ClockJudgement {
  std::size_t setting = 0;
  ClockVerdict verdict = ClockVerdict::not_settled;
  Unsettled reason = Unsettled::none;
  /// Laps still to drive, in the shares of setting and order they were driven in so far, until an
  /// effect of `worth` would be settled four times out of five; 0 where they are enough, 10000
  /// where it takes as many or more.
  int laps_needed = 0;
};

struct Comparison {
  ClockFit fit;                        ///< of all laps
  std::vector<std::size_t> wild;       ///< indices of laps whose robust residual is beyond 3.5
  std::optional<ClockFit> fit_tame;    ///< without those, where there are any
  std::vector<ClockJudgement> judged;  ///< one for each setting but the first
};

/// Nothing where there are fewer than two settings, or too few laps to tell as many figures apart.
/// A verdict is given where 95 % lies on one side of zero with the wild laps and without them, and
/// where the order tells drift from change: a plain before-and-after leaves that to the assumption
/// that the drift is a straight line, and is trusted only with ten laps on either side.
/// REQUIRES: worth above zero, seconds a lap.
std::optional<Comparison> compare(const std::vector<TimedLap>& laps, double worth);

}  // namespace kartwright
