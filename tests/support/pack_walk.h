// pack_walk.h - every rule and every test of a pack, for tests that ask something of all of them.

#pragma once

#include <functional>
#include <vector>

#include "engine/knowledge/pack.h"

namespace kartwright {

struct Ruled {
  const Rule* rule;
  const Condition* when;  ///< none: of a symptom
};

/// The rules of a pack, which must outlive them.
std::vector<Ruled> all_rules(const Pack& pack);

/// Every test of a condition, however deep.
void each_test(const Condition& condition, const std::function<void(const Test&)>& visit);

}  // namespace kartwright
