#include "tests/support/pack_walk.h"

namespace kartwright {

std::vector<Ruled> all_rules(const Pack& pack) {
  std::vector<Ruled> all;
  for (const Symptom& s : pack.symptoms) {
    if (s.reading) all.push_back({&*s.reading, nullptr});
  }
  for (const ReadingRule& r : pack.readings) all.push_back({&r, &r.when});
  for (const DeriveRule& r : pack.derives) all.push_back({&r, &r.when});
  for (const Adjustment& adjustment : pack.adjustments) {
    for (const EffectRule& r : adjustment.effects) all.push_back({&r, &r.when});
  }
  for (const Fault& fault : pack.faults) {
    for (const EvidenceRule& r : fault.evidence) all.push_back({&r, &r.when});
  }
  for (const Gauge& gauge : pack.gauges) {
    for (const GaugeVerdict& r : gauge.verdicts) all.push_back({&r, nullptr});
  }
  return all;
}

void each_test(const Condition& condition, const std::function<void(const Test&)>& visit) {
  if (condition.op == Condition::Op::test) visit(condition.test);
  for (const Condition& part : condition.parts) each_test(part, visit);
}

}  // namespace kartwright
