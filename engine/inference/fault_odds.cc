#include "engine/inference/fault_odds.h"

#include <algorithm>
#include <cmath>

namespace kartwright {
namespace {

FaultOdds weigh(const Fault& fault, const Situation& situation) {
  FaultOdds odds{.fault = &fault, .decibans = fault.prior};
  odds.because.push_back({"prior", fault.prior, "how often crews meet it at all"});
  for (const EvidenceRule& rule : fault.evidence) {
    if (!holds(rule.when, situation)) continue;
    odds.because.push_back({rule.id, rule.decibans, rule.because});
    odds.decibans += rule.decibans;
    odds.evidence = odds.evidence || rule.decibans > 0.0;
  }
  odds.probability = probability_of(odds.decibans);
  return odds;
}

}  // namespace

double FaultOdds::worth_per_minute() const { return probability * fault->loss / fault->minutes; }

double probability_of(double decibans) { return 1.0 / (1.0 + std::pow(10.0, -decibans / 10.0)); }

std::vector<FaultOdds> weigh_faults(const Situation& situation) {
  std::vector<FaultOdds> all;
  for (const Fault& fault : situation.pack.faults) all.push_back(weigh(fault, situation));
  // The pack is sorted by id, so a stable sort breaks ties by id.
  std::stable_sort(all.begin(), all.end(), [](const FaultOdds& a, const FaultOdds& b) {
    return a.worth_per_minute() > b.worth_per_minute();
  });
  return all;
}

bool worth_a_look(const FaultOdds& odds) {
  constexpr double kWithEvidence = 0.05;
  constexpr double kWithout = 0.15;
  return odds.probability >= (odds.evidence ? kWithEvidence : kWithout);
}

}  // namespace kartwright
