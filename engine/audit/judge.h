// judge.h - can conditions hold, together, or one without the other? Each answer comes with a case
// where there is one.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/audit/sample.h"

namespace kartwright {

/// What came of looking for a case.
struct Search {
  bool too_large = false;  ///< the condition was not taken apart
  std::optional<Sample> sample = {};
  bool impossible() const { return !too_large && !sample; }
};

/// A case on which the condition holds, with some adjustments on the kart.
Search search(const Condition& condition, const Pack& pack,
              const std::vector<std::string>& fitted = {}, FactsAs facts = FactsAs::outside);

/// True where the second holds in every case where the first does; nothing where that is too large.
std::optional<bool> implies(const Condition& first, const Condition& second, const Pack& pack);

Condition both_of(const Condition& a, const Condition& b);
Condition denial_of(const Condition& condition);

/// Facts that a condition asks for, denied or not.
std::vector<FactTest> fact_tests(const Condition& condition);
/// The symptoms whose reports a condition asks for.
std::vector<std::string> symptoms_of(const Condition& condition);

}  // namespace kartwright
