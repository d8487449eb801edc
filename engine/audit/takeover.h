// takeover.h - an effect without a condition speaks on an axis only while no effect with one has
// taken the axis over.

#pragma once

#include "engine/knowledge/every_rule.h"

namespace kartwright {

/// When an effect is heard on one of the axes it moves. REQUIRES: an effect of `adjustment`.
Condition speaks_on(const EffectRule& rule, std::size_t axis, const Adjustment& adjustment);

/// When an effect without a condition is heard at all. REQUIRES: RuleKind::effect.
Condition base_speaks(const RuleRef& rule);

}  // namespace kartwright
