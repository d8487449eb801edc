#include "engine/advice/together.h"

namespace kartwright {
namespace {

Together in_words(const Bundle& bundle, const Stakes& stakes, System units) {
  Together out{.relief = bundle.relief, .minutes = bundle.minutes};
  for (const StopStep& step : bundle.order) {
    const Option& option = bundle.moves[step.job];
    const Adjustment& adjustment = *option.setting->adjustment;
    out.moves.push_back({.adjustment = adjustment.id,
                         .phrase = adjustment.phrases.at(option.direction),
                         .from = print_setting(*option.setting, option.from, units),
                         .to = print_setting(*option.setting, option.to, units),
                         .steps = option.steps,
                         .minutes = step.minutes,
                         .relief = relief_of(stakes, step.loss)});
  }
  return out;
}

}  // namespace

std::vector<Together> bundles_of(const Stakes& stakes, const Ranking& ranking, const Advice& advice,
                                 const JobClasses& jobs, std::size_t most) {
  constexpr double kEnough = 0.6;  // of the handling error
  constexpr std::size_t kPair = 2;
  const bool one_will_do = !ranking.candidates.empty() && ranking.candidates[0].relief >= kEnough;
  std::vector<Together> out;
  if (one_will_do && most <= kPair) return out;
  for (std::size_t moves = kPair; moves <= most; ++moves) {
    const Bundle bundle = best_bundle(stakes, advice.ways, advice.effects, jobs, moves);
    // A third move that pays for nothing leaves the pair as it is.
    if (bundle.moves.size() == moves) out.push_back(in_words(bundle, stakes, advice.units));
  }
  return out;
}

}  // namespace kartwright
