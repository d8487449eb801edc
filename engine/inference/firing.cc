#include "engine/inference/firing.h"

#include <algorithm>

#include "engine/inference/readings.h"

namespace kartwright {
namespace {

bool read_by(const Rule& rule, const Situation& situation) {
  const std::vector<Reading> readings = take_readings(situation);
  return std::any_of(readings.begin(), readings.end(),
                     [&](const Reading& r) { return r.report >= 0 && r.rule == rule.id; });
}

/// A rule with a condition that holds has taken the cell of one that has none.
bool taken_over(const Cell& cell, const Adjustment& adjustment, const Situation& situation) {
  return std::any_of(
      adjustment.effects.begin(), adjustment.effects.end(), [&](const EffectRule& other) {
        if (other.when.op == Condition::Op::always) return false;
        const bool names =
            std::any_of(other.cells.begin(), other.cells.end(),
                        [&](const Cell& theirs) { return theirs.axis == cell.axis; });
        return names && holds(other.when, situation);
      });
}

bool effect_speaks(const RuleRef& rule, const Situation& situation) {
  if (situation.kart.setting(rule.adjustment->id) == nullptr) return false;
  if (!holds(*rule.when, situation)) return false;
  if (rule.when->op != Condition::Op::always) return true;
  const auto* effect = static_cast<const EffectRule*>(rule.rule);
  return std::any_of(effect->cells.begin(), effect->cells.end(), [&](const Cell& cell) {
    return !taken_over(cell, *rule.adjustment, situation);
  });
}

}  // namespace

bool fires(const RuleRef& rule, const Situation& situation) {
  switch (rule.kind) {
    case RuleKind::symptom:
      return read_by(*rule.rule, situation);
    case RuleKind::effect:
      return effect_speaks(rule, situation);
    case RuleKind::reading:
    case RuleKind::evidence:
    case RuleKind::derive:
      return holds(*rule.when, situation);
  }
  return false;
}

}  // namespace kartwright
