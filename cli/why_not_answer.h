// why_not_answer.h - why a change is not first, or a rule does not speak: what was asked with
// --why-not, answered.

#pragma once

#include <string>
#include <variant>
#include <vector>

#include <nlohmann/json.hpp>

#include "cli/page.h"
#include "engine/advice/why_not.h"
#include "engine/inference/near_miss.h"

namespace kartwright::cli {

/// A rule and how near it came.
struct WhyRule {
  RuleRef rule;
  NearMiss miss;
};

using WhyNotAnswer = std::variant<WhyChange, WhyRule>;

/// The sections WHY NOT, one for each answer.
void why_not_text(const std::vector<WhyNotAnswer>& answers, const Pack& pack, System units,
                  Page& page);

/// A list of objects, each with `kind` change or rule.
nlohmann::ordered_json why_not_json(const std::vector<WhyNotAnswer>& answers, const Pack& pack,
                                    System units);

}  // namespace kartwright::cli
