#include "engine/advice/load_reason.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "engine/chassis/on_paper.h"
#include "engine/knowledge/engine_facts.h"

namespace kartwright {

namespace {

constexpr double kFelt = 0.05;  // N, as load_change()

/// What crews report of one axis, and what the loads say of it: positive is more of it.
struct Compared {
  std::string label;
  double reported = 0.0, loads = 0.0;
};

std::optional<Compared> compared(std::string_view axis, const Effect& effect, double steps,
                                 double loads, const Pack& pack) {
  const auto found = std::find_if(pack.axes.begin(), pack.axes.end(),
                                  [&](const Axis& each) { return each.id == axis; });
  if (found == pack.axes.end()) return {};
  const auto index = static_cast<Eigen::Index>(found - pack.axes.begin());
  return Compared{found->label, steps * effect.per_step[index], loads};
}

/// The axis that the rules move most; nothing where they move neither.
std::optional<Compared> surest(const Figures& before, const Figures& after, const Effect& effect,
                               double steps, const Pack& pack) {
  const double outside = after.outside_rear - before.outside_rear;
  const double inside = after.inside_rear - before.inside_rear;
  const auto grip = compared(engine_axes::kRearGripMid, effect, steps, outside, pack);
  const auto unloading = compared(engine_axes::kUnloading, effect, steps, -inside, pack);
  std::optional<Compared> best = grip;
  if (!best || (unloading && std::abs(unloading->reported) > std::abs(best->reported)))
    best = unloading;
  if (best && best->reported == 0.0) best.reset();
  return best;
}

/// What the front bar does by the class of corner; empty for any other setting.
std::string bar_by_corner(const LoadsToday& today, const SettingMove& move) {
  if (!is_front_bar(move.setting)) return "";
  const std::optional<double> turns = bar_turns_at(today.known.kart, today.corner.radius);
  const double here = today.corner.lateral / kGravity;
  if (!turns) {
    return fmt::format("; at {:.2f} g in corners of {:g} m, and up to 4 g, it does that one way",
                       here, today.corner.radius);
  }
  return fmt::format(
      "; in corners of {:g} m a bar that is in loads the outside rear up to {:.2f} g and frees it "
      "above: here {:.2f} g; tighter corners turn later, faster ones sooner",
      today.corner.radius, *turns / kGravity, here);
}

std::optional<double> belief_on(std::string_view axis, const Advice& advice, const Pack& pack) {
  for (std::size_t i = 0; i < pack.axes.size(); ++i) {
    if (pack.axes[i].id == axis) return advice.belief.mean[static_cast<Eigen::Index>(i)];
  }
  return {};
}

/// Where the height of the mass was measured and the loads do not let the inside rear go on this
/// track: that this is so; else empty.
std::string not_by_its_sizes(const Advice& advice) {
  if (!advice.loads) return "";
  const std::vector<std::string_view>& assumed = advice.loads->known.assumed;
  if (std::find(assumed.begin(), assumed.end(), "mass-height") != assumed.end()) return "";
  const Figures& figures = advice.loads->figures;
  if (!figures.release || *figures.release <= advice.loads->corner.peak) return "";
  return fmt::format(
      " By its sizes, given and assumed, this kart lets go at {:.2f} g and the track has {:.2f} g: "
      "look whether it lifts.",
      *figures.release / kGravity, advice.loads->corner.peak / kGravity);
}

/// Which too much rear grip a load stands for, in the words of its page; empty where it has none.
std::string too_much_of(std::string_view quantity, const Pack& pack) {
  const auto page = std::find_if(pack.quantities.begin(), pack.quantities.end(),
                                 [&](const QuantityPage& each) { return each.id == quantity; });
  return page == pack.quantities.end() ? "" : page->too_much;
}

/// The question that tells an inside rear that is not let go from one that is: of the symptoms that
/// speak of unloading alone the one that denies it most, unless it was answered. Else nullptr.
const Symptom* tells_them_apart(const Advice& advice, const Pack& pack) {
  const Symptom* best = nullptr;
  for (const Symptom& symptom : pack.symptoms) {
    if (!symptom.reading || symptom.question.empty()) continue;
    const SymptomReading& reading = *symptom.reading;
    if (reading.row.size() != 1 || reading.row[0].axis != engine_axes::kUnloading) continue;
    const double pull = reading.value * reading.row[0].factor;
    if (pull >= 0.0) continue;
    if (best == nullptr || pull < best->reading->value * best->reading->row[0].factor)
      best = &symptom;
  }
  const std::vector<Report>& reports = advice.debrief.heard.reports;
  const bool answered =
      best != nullptr && std::any_of(reports.begin(), reports.end(), [&](const Report& report) {
        return report.symptom == best->id;
      });
  return answered ? nullptr : best;
}

}  // namespace

LoadReason load_reason(const LoadsToday& today, const SettingMove& move, const Effect& effect,
                       const Pack& pack, System units) {
  KnownKart moved = today.known;
  change_setting(moved, move.setting, move.to);
  const Figures& before = today.figures;
  const Figures after = figures_of(moved.kart, today.corner);
  const std::string made = made_text(move, units);
  std::string change = load_change(before, after) + bar_by_corner(today, move);
  if (today.inside_rear_off && after.inside_rear < 0.0)
    change += "; with the inside rear off the ground no stiffness, caster or axle moves the loads";
  const std::optional<Compared> axis = surest(before, after, effect, move.steps, pack);
  if (!axis || std::abs(axis->loads) < kFelt) return {LoadsSay::nothing, made + ": " + change};
  if ((axis->loads > 0.0) == (axis->reported > 0.0))
    return {LoadsSay::the_same, made + ": " + change};
  return {LoadsSay::the_opposite,
          fmt::format("{}: the load says {}; crews report {} {}: test it", made, change,
                      axis->reported > 0.0 ? "more" : "less", axis->label)};
}

std::string two_meanings(const Advice& advice, const Pack& pack) {
  constexpr double kTooMuch = 0.5;  // notches
  constexpr double kLeans = 0.25;
  const auto grip = belief_on(engine_axes::kRearGripMid, advice, pack);
  const auto unloading = belief_on(engine_axes::kUnloading, advice, pack);
  if (!grip || !unloading || *grip < kTooMuch) return "";
  const std::string drags = too_much_of("inside-rear-load", pack);
  const std::string bites = too_much_of("outside-rear-load", pack);
  if (drags.empty() || bites.empty()) return "";
  if (*unloading <= -kLeans) return "It is " + drags + ". Free it first.";
  if (*unloading >= kLeans) return "It is " + bites + "." + not_by_its_sizes(advice);
  const Symptom* const asked = tells_them_apart(advice, pack);
  const std::string next = asked == nullptr ? "See whether the inside rear lifts."
                                            : fmt::format("Ask first: {} (--report {}=0..3)",
                                                          asked->question, asked->id);
  return fmt::format("Two things go by that name: {}; or {}. {}", drags, bites, next);
}

std::string made_text(const SettingMove& move, System system) {
  const Adjustment& adjustment = *move.setting.adjustment;
  if (adjustment.listed())
    return adjustment.label + " " + print_setting(move.setting, move.to, system);
  return fmt::format("{} {} by {}", adjustment.label, adjustment.directions.at(move.direction),
                     print_quantity(std::abs(move.to - move.from), adjustment.kind, system));
}

}  // namespace kartwright
