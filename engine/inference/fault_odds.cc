#include "engine/inference/fault_odds.h"

#include <algorithm>
#include <cmath>

namespace kartwright {
namespace {

using Fired = std::vector<const EvidenceRule*>;

/// The odds without what they come from, which goes to `fired`.
FaultOdds sum_up(const Fault& fault, const Situation& situation, Fired& fired) {
  FaultOdds odds{.fault = &fault, .decibans = fault.prior};
  fired.clear();
  for (const EvidenceRule& rule : fault.evidence) {
    if (!holds(rule.when, situation)) continue;
    fired.push_back(&rule);
    odds.decibans += rule.decibans;
    odds.evidence = odds.evidence || rule.decibans > 0.0;
  }
  odds.probability = probability_of(odds.decibans);
  return odds;
}

void tell(const Fired& fired, FaultOdds& odds) {
  odds.because.reserve(fired.size() + 1);
  odds.because.push_back({"prior", odds.fault->prior, "how often crews meet it at all"});
  for (const EvidenceRule* rule : fired)
    odds.because.push_back({rule->id, rule->decibans, rule->because});
}

/// Of the faults that are wanted.
template <typename Wanted>
std::vector<FaultOdds> weigh(const Situation& situation, const Wanted& wanted) {
  std::vector<FaultOdds> all;
  Fired fired;
  for (const Fault& fault : situation.pack.faults) {
    FaultOdds odds = sum_up(fault, situation, fired);
    if (!wanted(odds)) continue;
    tell(fired, odds);
    all.push_back(std::move(odds));
  }
  // The pack is sorted by id, so a stable sort breaks ties by id.
  std::stable_sort(all.begin(), all.end(), [](const FaultOdds& a, const FaultOdds& b) {
    return a.worth_per_minute() > b.worth_per_minute();
  });
  return all;
}

}  // namespace

double FaultOdds::worth_per_minute() const { return probability * fault->loss / fault->minutes; }

double probability_of(double decibans) { return 1.0 / (1.0 + std::pow(10.0, -decibans / 10.0)); }

std::vector<FaultOdds> weigh_faults(const Situation& situation) {
  return weigh(situation, [](const FaultOdds&) { return true; });
}

std::vector<FaultOdds> faults_worth_a_look(const Situation& situation) {
  return weigh(situation, worth_a_look);
}

bool worth_a_look(const FaultOdds& odds) {
  constexpr double kWithEvidence = 0.05;
  constexpr double kWithout = 0.15;
  return odds.probability >= (odds.evidence ? kWithEvidence : kWithout);
}

}  // namespace kartwright
