// headline.h - the one thing to say first.

#pragma once

#include <string_view>

namespace kartwright {

enum class Headline { stop_and_fix, ask_again, leave_alone, wait_for_track, change };
std::string_view name_of(Headline headline);

/// Why the kart is better left alone.
enum class LeaveReason {
  none,
  no_complaint,
  nothing_wrong,
  nothing_pays,
  keep_room,  ///< a change would pay, were it not for the travel it takes from the track to come
  only_comfort,
};

/// Notches squared: a smaller handling error is too small to chase.
inline constexpr double kSmallLoss = 0.45;
/// Points that a change must score to be worth its while.
inline constexpr double kWorthWhile = 10.0;

/// What the headline depends on.
struct HeadlineCase {
  bool stop_fault = false;  ///< a fault that must not be run is at least as likely as not
  bool coherent = true;
  bool complaint = false;        ///< something wrong was reported that tuning could cure
  bool wet_changed = false;      ///< the track went from dry to wet or back
  double loss_of_nothing = 0.0;  ///< notches squared
  /// Points that the best candidate scores over leaving the kart alone; below any floor where there
  /// is none.
  double best_score = 0.0;
  bool best_only_comfort = false;  ///< the clock says faster, and no move is sure to keep it so
  double best_without_room = 0.0;  ///< the best score of all with the price of room left out
  double best_relief = 0.0;        ///< of the same candidate
  double track_relief = 0.0;       ///< what the next state of the track takes out, at its weight
};

struct Verdict {
  Headline headline = Headline::change;
  LeaveReason reason = LeaveReason::none;
};

/// The first that holds of: stop and fix, ask again, leave alone, wait for the track, change.
Verdict headline_of(const HeadlineCase& c);

}  // namespace kartwright
