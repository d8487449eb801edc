// why_not_answer.h - why a change is not first, or a rule does not speak: what was asked with
// --why-not, answered.

#pragma once

#include <string>
#include <variant>
#include <vector>

#include "cli/json_writer.h"
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

/// The field `why_not`: a list of objects, each with `kind` change or rule.
void write_why_not(JsonWriter& out, const std::vector<WhyNotAnswer>& answers, const Pack& pack,
                   System units);

/// The field `parts` of a score.
void write_parts(JsonWriter& out, const Parts& parts);

}  // namespace kartwright::cli
