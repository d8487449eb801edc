#include "engine/knowledge/every_rule.h"

#include <array>
#include <cstddef>

namespace kartwright {

std::string_view name_of(RuleKind kind) {
  static constexpr std::array<std::string_view, 5> kNames{"symptom", "reading", "effect",
                                                          "evidence", "derive"};
  return kNames.at(static_cast<std::size_t>(kind));
}

std::vector<RuleRef> every_rule(const Pack& pack) {
  std::vector<RuleRef> all;
  for (const Symptom& symptom : pack.symptoms) {
    if (!symptom.reading) continue;
    all.push_back({.rule = &*symptom.reading, .kind = RuleKind::symptom, .symptom = &symptom});
  }
  for (const ReadingRule& rule : pack.readings) {
    all.push_back({.rule = &rule, .kind = RuleKind::reading, .when = &rule.when});
  }
  for (const Adjustment& adjustment : pack.adjustments) {
    for (const EffectRule& rule : adjustment.effects) {
      all.push_back(
          {.rule = &rule, .kind = RuleKind::effect, .when = &rule.when, .adjustment = &adjustment});
    }
  }
  for (const Fault& fault : pack.faults) {
    for (const EvidenceRule& rule : fault.evidence) {
      all.push_back(
          {.rule = &rule, .kind = RuleKind::evidence, .when = &rule.when, .fault = &fault});
    }
  }
  for (const DeriveRule& rule : pack.derives) {
    all.push_back({.rule = &rule, .kind = RuleKind::derive, .when = &rule.when});
  }
  return all;
}

}  // namespace kartwright
