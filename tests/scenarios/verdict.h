// verdict.h - holds an answer against what a scenario expects of it.

#pragma once

#include <string>
#include <vector>

#include "engine/advice/advice.h"
#include "tests/scenarios/expectation.h"

namespace kartwright {

/// Every expectation that is not met, a sentence each: what was expected, and what came instead.
/// Empty where the answer is as it should be.
std::vector<std::string> not_met(const Expectation& expect, const Advice& advice, const Pack& pack);

/// Every state of the track that a set of scenarios leaves out of cold, green, rubbered-in and wet,
/// and a complaint where there are fewer than twelve. Empty where they cover enough.
std::vector<std::string> gaps_in(const std::vector<Scenario>& scenarios);

}  // namespace kartwright
