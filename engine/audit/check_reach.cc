#include <algorithm>
#include <set>

#include "engine/audit/checks.h"
#include "engine/audit/judge.h"
#include "engine/inference/belief.h"

namespace kartwright {
namespace {

std::set<std::size_t> axes_moved(const Pack& pack) {
  std::set<std::size_t> out;
  for (const Adjustment& adjustment : pack.adjustments) {
    for (const EffectRule& rule : adjustment.effects) {
      for (const Cell& cell : rule.cells) {
        if (cell.mean != 0.0) out.insert(cell.axis);
      }
    }
  }
  return out;
}

std::set<std::string> symptoms_read(const Pack& pack) {
  std::set<std::string> out;
  for (const RuleRef& rule : every_rule(pack)) {
    if (rule.symptom != nullptr) out.insert(rule.symptom->id);
    if (rule.when == nullptr) continue;
    for (const std::string& id : symptoms_of(*rule.when)) out.insert(id);
  }
  return out;
}

}  // namespace

AuditFindings check_reach(const Pack& pack) {
  AuditFindings out;
  const std::set<std::size_t> moved = axes_moved(pack);
  for (std::size_t i = 0; i < pack.axes.size(); ++i) {
    if (moved.contains(i)) continue;
    out.push_back(finding_at(pack.axes[i].source, Code::idle_axis, Severity::warning,
                             "no change moves `" + pack.axes[i].id + "`"));
  }
  const std::set<std::string> read = symptoms_read(pack);
  for (const Symptom& symptom : pack.symptoms) {
    if (read.contains(symptom.id)) continue;
    out.push_back(finding_at(symptom.source, Code::unread_symptom, Severity::warning,
                             "no rule reads `" + symptom.id + "`",
                             "whoever reports it changes nothing"));
  }
  return out;
}

AuditFindings check_prior(const Pack& pack) {
  AuditFindings out;
  try {
    make_prior(pack);
  } catch (const InputError& error) {
    for (const Diagnostic& diagnostic : error.found()) out.push_back({.diagnostic = diagnostic});
  }
  return out;
}

}  // namespace kartwright
