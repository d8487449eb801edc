// every_rule.h - all rules of a pack in one list, whatever their kind.

#pragma once

#include <string_view>
#include <vector>

#include "engine/knowledge/pack.h"

namespace kartwright {

enum class RuleKind { symptom, reading, effect, evidence, derive };
std::string_view name_of(RuleKind kind);

/// A rule with what it waits for and whose it is. Points into the pack.
struct RuleRef {
  const Rule* rule = nullptr;
  RuleKind kind = RuleKind::reading;
  const Condition* when = nullptr;         ///< none: a symptom's, which waits for its report
  const Symptom* symptom = nullptr;        ///< of RuleKind::symptom
  const Adjustment* adjustment = nullptr;  ///< of RuleKind::effect
  const Fault* fault = nullptr;            ///< of RuleKind::evidence
};

/// By kind in the order of RuleKind, then as the pack holds them. The pack must outlive the list.
std::vector<RuleRef> every_rule(const Pack& pack);

}  // namespace kartwright
