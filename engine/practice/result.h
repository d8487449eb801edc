// result.h - a finished task, ready to be read out: what was answered, what came of it, what it is
// worth and why.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/practice/outcome.h"
#include "engine/practice/progress.h"

namespace kartwright {

struct DrillResult {
  DrillRecord record = {};
  EndMarks ends = {};
  std::string reading = {};  ///< what is believed of the kart, in a sentence
  std::vector<std::string> told = {};
  std::string luck = {};  ///< where the call and what came of it do not agree
  DrillOutcome outcome = {};
  DrillWorth worth = {}, best_worth = {};
  std::string because = {};                     ///< why the best answer is right
  std::vector<std::string_view> cautions = {};  ///< of the work of the best answer, in the pack
};

DrillResult result_of(const Marking& marking, KartEnd end, const DrillChoice& choice, int refused);

/// Why the best answer is right: the case's own words, or what the rules say of it.
std::string because_of(const Marking& marking);

}  // namespace kartwright
