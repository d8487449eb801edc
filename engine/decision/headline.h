// headline.h - the one thing to say first.

#pragma once

#include <string_view>

namespace kartwright {

enum class Headline { stop_and_fix, ask_again, leave_alone, wait_for_track, change };
std::string_view name_of(Headline headline);

/// Why the kart is better left alone.
enum class LeaveReason { none, no_complaint, nothing_wrong, nothing_pays, only_comfort };

/// What the headline depends on.
struct HeadlineCase {
  bool stop_fault = false;  ///< a fault that must not be run is at least as likely as not
  bool coherent = true;
  bool complaint = false;          ///< something wrong was reported that tuning could cure
  bool wet_changed = false;        ///< the track went from dry to wet or back
  double loss_of_nothing = 0.0;    ///< notches squared
  double best_score = 0.0;         ///< points; below any floor where there is no candidate
  bool best_only_comfort = false;  ///< the clock says faster, and no move is sure to keep it so
};

struct Verdict {
  Headline headline = Headline::change;
  LeaveReason reason = LeaveReason::none;
};

/// The first that holds of: stop and fix, ask again, leave alone, change.
Verdict headline_of(const HeadlineCase& c);

}  // namespace kartwright
