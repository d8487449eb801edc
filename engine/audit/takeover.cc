#include "engine/audit/takeover.h"

#include <algorithm>

namespace kartwright {
namespace {

bool moves(const EffectRule& rule, std::size_t axis) {
  return std::any_of(rule.cells.begin(), rule.cells.end(),
                     [&](const Cell& cell) { return cell.axis == axis; });
}

}  // namespace

Condition speaks_on(const EffectRule& rule, std::size_t axis, const Adjustment& adjustment) {
  if (rule.when.op != Condition::Op::always) return rule.when;
  Condition out{.op = Condition::Op::all};
  for (const EffectRule& other : adjustment.effects) {
    if (other.when.op == Condition::Op::always || !moves(other, axis)) continue;
    out.parts.push_back({.op = Condition::Op::negated, .parts = {other.when}});
  }
  return out;
}

Condition base_speaks(const RuleRef& rule) {
  const auto& effect = static_cast<const EffectRule&>(*rule.rule);
  Condition out{.op = Condition::Op::any};
  for (const Cell& cell : effect.cells) {
    out.parts.push_back(speaks_on(effect, cell.axis, *rule.adjustment));
  }
  return out;
}

}  // namespace kartwright
