// outcome.h - how the kart answers: what it truly does, drawn once for a seed, and what the driver
// then says.
//
// The truth is z ~ N(m, P), or what a drawn task holds; each adjustment truly does b ~ N(beta,
// Lambda) a step; a fault is there with its probability, and with certainty where
// a case with a name of a broken kart was written about it. All of it depends on the seed and the
// task alone, so that two answers to one task meet the same kart. After u steps the kart is z + u
// b. A complaint is felt as much more or less as its row moved, (h z' - h z) / value; what nobody
// felt before is felt where its row now reads a notch.

#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "engine/practice/marking.h"

namespace kartwright {

/// A symptom at a phase, before and after: 0 not felt, 1 slight, 2 clear, 3 severe.
struct Felt {
  std::string symptom = {};
  Phase phase = Phase::any;
  int before = 0, after = 0;
};

struct DrillOutcome {
  std::vector<Felt> felt = {};  ///< the complaints as they were made; then what is new, worst first
  /// z'Wz before and after, notches squared, with loss^2 of every fault of F that is there and that
  /// the kart went out with.
  double error_before = 0.0, error_after = 0.0;
  bool found = false;                      ///< of a check: the fault was there
  std::vector<std::size_t> out_with = {};  ///< faults that the kart went out with

  /// The share of the handling error truly taken out; below zero where it grew; 0 where there was
  /// hardly any (under 0.45 notches squared).
  double relief() const;
};

DrillOutcome outcome_of(const DrillChoice& choice, const Marking& marking);

/// What happened, in sentences.
std::vector<std::string> told(const DrillOutcome& outcome, const DrillChoice& choice,
                              const Marking& marking);

/// Whether the call and what came of it agree, in a sentence; empty where there is nothing to add.
std::string luck_of(const DrillOutcome& outcome, const DrillChoice& choice, const Marking& marking);

}  // namespace kartwright
