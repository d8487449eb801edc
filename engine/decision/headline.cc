#include "engine/decision/headline.h"

#include <array>
#include <cstddef>

namespace kartwright {
namespace {

LeaveReason reason_to_leave(const HeadlineCase& c) {
  if (!c.complaint && !c.wet_changed) return LeaveReason::no_complaint;
  if (c.loss_of_nothing < kSmallLoss) return LeaveReason::nothing_wrong;
  if (c.best_only_comfort) return LeaveReason::only_comfort;
  if (c.best_score < kWorthWhile) {
    const bool but_for_room = c.best_without_room >= kWorthWhile;
    return but_for_room ? LeaveReason::keep_room : LeaveReason::nothing_pays;
  }
  return LeaveReason::none;
}

}  // namespace

std::string_view name_of(Headline headline) {
  static constexpr std::array<std::string_view, 5> kNames{
      "stop-and-fix", "ask-again", "leave-alone", "wait-for-track", "change"};
  return kNames.at(static_cast<std::size_t>(headline));
}

Verdict headline_of(const HeadlineCase& c) {
  if (c.stop_fault) return {Headline::stop_and_fix, LeaveReason::none};
  if (!c.coherent) return {Headline::ask_again, LeaveReason::none};
  const LeaveReason reason = reason_to_leave(c);
  if (reason != LeaveReason::none) return {Headline::leave_alone, reason};
  if (c.track_relief > c.best_relief) return {Headline::wait_for_track, LeaveReason::none};
  return {Headline::change, LeaveReason::none};
}

}  // namespace kartwright
