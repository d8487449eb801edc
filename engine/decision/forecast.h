// forecast.h - what the track will do to the grip by itself in the hours that are left.

#pragma once

#include <Eigen/Core>
#include <string>
#include <string_view>
#include <vector>

#include "engine/knowledge/pack.h"

namespace kartwright {

/// One state of the track that is still to come.
struct Stage {
  std::string track;      ///< id of the state
  Eigen::VectorXd shift;  ///< notches on every axis from now until then
  double weight = 0.0;    ///< how much it counts: 0.5, 0.25 ... times the hours left over 3
};

/// What grip gains until the state ahead, notches on every axis of the families that it names.
Eigen::VectorXd shift_of(const TrackState& state, const std::vector<Axis>& axes);

/// The states ahead of one, nearest first; nothing where no state is known to follow, or no hours
/// are left. A state that is followed by itself goes on once more and no further. The usual day has
/// three hours left (common practice); more of them weigh no more.
std::vector<Stage> forecast(const Pack& pack, std::string_view track, double hours_left);

}  // namespace kartwright
