// property_trials.h - each property of a pack, tried on many cases.
//
// A trial looks for cases in which a claim does not hold, and returns the first for each symptom,
// adjustment or fault that breaks it. All of them throw InputError where the pack itself cannot be
// used, as advise does.

#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/knowledge/pack.h"

namespace kartwright {

/// How much is tried.
struct TrialSize {
  int mixes = 60;          ///< random cases of each property, beside those that are always tried
  std::uint64_t seed = 1;  ///< of the mixes
};

/// A case that breaks a claim.
struct Counterexample {
  std::string subject;  ///< the symptom, adjustment or fault
  std::string text;     ///< the case in words, with its numbers
};

/// A move to another place and the move back, each judged on the kart as it then stands, cancel on
/// every axis: u b(here) - u b(there) = 0, whatever is said, from every place to all that are in
/// reach at once.
std::vector<Counterexample> try_opposite_moves(const Property& claim, const Pack& pack,
                                               const TrialSize& size);

/// Reports and facts of the other side give the same belief and odds of faults, on every track and
/// at every phase and severity; and the same headline and ranking, at one phase of each symptom on
/// each track and in every mix.
std::vector<Counterexample> try_left_and_right(const Property& claim, const Pack& pack,
                                               const TrialSize& size);

/// One kart as two files, one in metric and one in imperial units, gets the same advice: scores to
/// 1e-9 points. The kart has the adjustments that the property is claimed of; it stands at their
/// ends, and its measures at every limit that a rule or a band has.
std::vector<Counterexample> try_inches_and_millimetres(const Property& claim, const Pack& pack,
                                                       const TrialSize& size);

/// With severity 0, 1, 2, 3 of one report, the belief that the symptom is there (the mean of its
/// own row, with the sign of its value) does not fall, nor do the odds of a fault that the symptom
/// is evidence for. A belief below zero counts as zero: there the kart is taken to do the opposite,
/// and a denial, which is a reading of zero, speaks against that more than an unsure report does.
std::vector<Counterexample> try_worse_reports(const Property& claim, const Pack& pack,
                                              const TrialSize& size);

}  // namespace kartwright
