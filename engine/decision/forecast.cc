#include "engine/decision/forecast.h"

#include <algorithm>

namespace kartwright {

Eigen::VectorXd shift_of(const TrackState& state, const std::vector<Axis>& axes) {
  Eigen::VectorXd shift = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(axes.size()));
  for (const RowTerm& term : state.shift) {
    for (std::size_t i = 0; i < axes.size(); ++i) {
      if (axes[i].family == term.axis || axes[i].id == term.axis)
        shift[static_cast<Eigen::Index>(i)] += term.factor;
    }
  }
  return shift;
}

std::vector<Stage> forecast(const Pack& pack, std::string_view track, double hours_left) {
  constexpr double kUsualDay = 3.0;  // hours
  const double share = std::clamp(hours_left / kUsualDay, 0.0, 1.0);
  std::vector<Stage> stages;
  const TrackState* now = pack.track(track);
  double weight = share;
  // No day has more states than the pack; a longer way goes in a circle.
  while (share > 0.0 && now != nullptr && !now->ahead.empty() &&
         stages.size() < pack.tracks.size()) {
    weight *= 0.5;
    Stage stage{.track = now->ahead, .shift = shift_of(*now, pack.axes), .weight = weight};
    if (!stages.empty()) stage.shift += stages.back().shift;
    stages.push_back(std::move(stage));
    if (now->ahead == now->id) break;
    now = pack.track(now->ahead);
  }
  return stages;
}

}  // namespace kartwright
