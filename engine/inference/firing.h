// firing.h - does a rule fire on a case?

#pragma once

#include "engine/inference/situation.h"
#include "engine/knowledge/every_rule.h"

namespace kartwright {

/// True where the rule speaks on a case with its facts settled: its condition holds as stated, with
/// nothing supposed of facts nobody stated; a symptom's rule where a report of it gives a reading;
/// an effect's only where the kart has the adjustment, and only while a rule with a condition has
/// not taken over all its cells.
bool fires(const RuleRef& rule, const Situation& situation);

}  // namespace kartwright
