#include "engine/practice/draw_used_up.h"

#include <algorithm>

#include "engine/kart/travel.h"
#include "engine/practice/draw_task.h"

namespace kartwright {
namespace {

/// The places of a travel on one side of where a setting stands, and that place itself.
std::vector<double> places_up_to(const Setting& setting, bool up) {
  std::vector<double> out;
  for (const double place : setting.travel.places) {
    const bool beyond = up ? place > setting.now : place < setting.now;
    if (!beyond || same_value(place, setting.now, setting.travel.step)) out.push_back(place);
  }
  return out;
}

/// The class ends the travel of a setting where it stands.
void limit_here(Setting& setting, bool up) {
  if (setting.travel.names.empty()) {
    auto& end = up ? setting.limit.at_most : setting.limit.at_least;
    end = setting.now;
    return;
  }
  for (const double place : places_up_to(setting, up))
    setting.limit.allowed.push_back(setting.travel.names.at(static_cast<std::size_t>(place)));
}

bool goes_up(const Adjustment& adjustment, std::size_t direction) {
  return (direction == 0) == (adjustment.reference_step > 0.0);
}

/// All the travel there could be: the pack's usual one and some places beyond, no class limit.
void free_travel(Setting& setting) {
  constexpr int kBeyond = 3;
  setting.limit = {};
  const Adjustment& adjustment = *setting.adjustment;
  if (adjustment.listed()) return;
  Range range = usual_range(adjustment);
  range.from -= kBeyond * range.step;
  range.to += kBeyond * range.step;
  setting.travel = travel_over(range);
  setting.now = nearest_place(setting.travel, setting.now);
}

/// The adjustments that the class or a stop keeps from moving one way.
std::vector<std::string> ended(const Marking& marking) {
  std::vector<std::string> out;
  for (const NotNow& each : marking.advice().not_now) {
    const bool at_end = each.reason == Refusal::end_stop || each.reason == Refusal::class_limit;
    if (at_end && (out.empty() || out.back() != each.adjustment)) out.emplace_back(each.adjustment);
  }
  return out;
}

bool is_refused(const Marking& marking, const std::string& adjustment,
                const std::string& direction) {
  const std::vector<NotNow>& all = marking.advice().not_now;
  return std::any_of(all.begin(), all.end(), [&](const NotNow& each) {
    const bool at_end = each.reason == Refusal::end_stop || each.reason == Refusal::class_limit;
    return at_end && each.adjustment == adjustment && each.direction == direction;
  });
}

}  // namespace

bool use_up(const Pack& pack, DrillDice& dice, DrillTask& task) {
  const Marking marking(pack, task);
  const DrillChoice& best = marking.best();
  if (best.kind != DrillChoice::Kind::change) return false;
  const Adjustment& adjustment = marking.adjustment_of(best);
  const bool up = goes_up(adjustment, marking.option_of(best).direction);
  Setting& setting = task.kart.settings.at(adjustment.id);
  const bool by_stop = dice.below(2) == 0 && !adjustment.listed();
  if (!by_stop) limit_here(setting, up);
  if (by_stop) setting.travel.places = places_up_to(setting, up);
  return true;
}

const Adjustment* used_up(const DrillTask& task, const Pack& pack) {
  const Marking marking(pack, task);
  for (const std::string& id : ended(marking)) {
    DrillTask free = task;
    const auto found = free.kart.settings.find(id);
    if (found == free.kart.settings.end()) continue;
    free_travel(found->second);
    const Marking freed(pack, free);
    const DrillChoice& best = freed.best();
    if (best.kind != DrillChoice::Kind::change || freed.adjustment_of(best).id != id) continue;
    const Adjustment& adjustment = freed.adjustment_of(best);
    if (is_refused(marking, id, adjustment.directions.at(freed.option_of(best).direction)))
      return pack.adjustment(id);
  }
  return nullptr;
}

}  // namespace kartwright
