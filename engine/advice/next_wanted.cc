#include "engine/advice/next_wanted.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

namespace kartwright {
namespace {

/// The stakes at the next stage, with nothing moved but what `by` says, in notches.
Stakes stakes_at_the_next_stage(const Stakes& now, const Eigen::VectorXd& by) {
  Stakes then{.mean = now.mean + by,
              .weights = now.weights,
              .without_complaints = now.without_complaints,
              .with_complaints = now.with_complaints};
  if (then.without_complaints) *then.without_complaints += by;
  if (then.with_complaints) *then.with_complaints += by;
  for (std::size_t k = 1; k < now.forecast.size(); ++k) {
    Stage stage = now.forecast[k];
    stage.shift -= now.forecast.front().shift;
    then.forecast.push_back(std::move(stage));
  }
  return then;
}

/// "25 mm", "2 positions": the travel behind a move, in the crew's own measure.
std::string left_behind(const Option& option, System units) {
  const Adjustment& adjustment = *option.setting->adjustment;
  if (!adjustment.listed()) {
    return print_quantity(option.room_left * std::abs(adjustment.reference_step), adjustment.kind,
                          units);
  }
  return fmt::format("{:g} position{}", option.room_left, option.room_left == 1.0 ? "" : "s");
}

}  // namespace

std::optional<NextWanted> next_wanted(const Situation& situation, const Stakes& stakes,
                                      const Advice& advice, const Candidate* made) {
  if (stakes.forecast.empty()) return std::nullopt;
  std::vector<Way> ways = with_time(advice.ways);
  Eigen::VectorXd by = stakes.forecast.front().shift;
  Setting moved;
  if (made != nullptr) {
    moved = *made->option.setting;
    moved.now = made->option.to;
    const auto at = static_cast<std::size_t>(moved.adjustment - situation.pack.adjustments.data());
    by += made->option.steps * advice.effects[at].per_step;
    constexpr double kAnyTime = std::numeric_limits<double>::infinity();
    auto from_there = ways_of(*moved.adjustment, &moved, kAnyTime);
    std::move(from_there.begin(), from_there.end(),
              ways.begin() + static_cast<std::ptrdiff_t>(2 * at));
  }
  const Lead lead = leading(stakes_at_the_next_stage(stakes, by), ways, advice.effects);
  const std::optional<Candidate>& best = lead.candidate;
  if (!best || best->held_back() || best->parts.score() - lead.nothing < kWorthWhile)
    return std::nullopt;
  const Option& option = best->option;
  const Adjustment& adjustment = *option.setting->adjustment;
  const TrackState* next = situation.pack.track(stakes.forecast.front().track);
  return NextWanted{.track = next == nullptr ? stakes.forecast.front().track : next->label,
                    .adjustment = adjustment.id,
                    .direction = adjustment.directions.at(option.direction),
                    .phrase = adjustment.phrases.at(option.direction),
                    .from = print_setting(*option.setting, option.from, advice.units),
                    .to = print_setting(*option.setting, option.to, advice.units),
                    .left = left_behind(option, advice.units),
                    .stays = next != nullptr && next->id == advice.track};
}

}  // namespace kartwright
