#include "engine/practice/draw_fault.h"

#include <algorithm>

namespace kartwright {
namespace {

constexpr std::size_t kMostPieces = 3;

/// A piece of evidence that somebody can notice: one fact, or one complaint with words of its own.
bool can_be_noticed(const EvidenceRule& rule, const Pack& pack) {
  if (rule.decibans <= 0.0 || rule.when.op != Condition::Op::test) return false;
  if (const auto* report = std::get_if<ReportTest>(&rule.when.test))
    return pack.drills.said_of("symptom " + report->symptom) != nullptr;
  const auto* fact = std::get_if<FactTest>(&rule.when.test);
  return fact != nullptr && pack.track(fact->values.front()) == nullptr;
}

std::vector<const EvidenceRule*> shuffled_evidence(const Fault& fault, const Pack& pack,
                                                   DrillDice& dice) {
  std::vector<const EvidenceRule*> out;
  for (const EvidenceRule& rule : fault.evidence) {
    if (can_be_noticed(rule, pack)) out.push_back(&rule);
  }
  for (std::size_t i = out.size(); i > 1; --i) std::swap(out[i - 1], out[dice.below(i)]);
  return out;
}

void notice(const EvidenceRule& rule, const Pack& pack, std::vector<Report>& reports,
            Debrief& debrief) {
  if (const auto* fact = std::get_if<FactTest>(&rule.when.test)) {
    debrief.heard.facts.push_back({.fact = fact->fact, .value = fact->values.front()});
    return;
  }
  const auto& test = std::get<ReportTest>(rule.when.test);
  const std::vector<Phase>& phases = pack.symptom(test.symptom)->phases;
  const Phase first = phases.empty() ? Phase::any : phases.front();
  reports.push_back({.symptom = test.symptom,
                     .phase = test.phase.value_or(first),
                     .severity = std::max(test.at_least, 2)});
}

}  // namespace

bool add_fault(const Pack& pack, DrillDice& dice, std::vector<Report>& reports, Debrief& debrief) {
  std::vector<const Fault*> stops;
  for (const Fault& fault : pack.faults) {
    if (fault.stop) stops.push_back(&fault);
  }
  if (stops.empty()) return false;
  const Fault& fault = *dice.one_of(stops);
  double decibans = fault.prior;
  std::size_t pieces = 0;
  for (const EvidenceRule* rule : shuffled_evidence(fault, pack, dice)) {
    if (decibans >= 0.0 || pieces == kMostPieces) break;
    notice(*rule, pack, reports, debrief);
    decibans += rule->decibans;
    ++pieces;
  }
  return decibans >= 0.0;
}

}  // namespace kartwright
