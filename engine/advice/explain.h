// explain.h - any symptom, adjustment, fault, track state, fact or rule in plain words, from the
// rules alone; and every code of a message, from its page.

#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/knowledge/every_rule.h"

namespace kartwright {

/// What one step does, by row and phase.
struct EffectTable {
  struct Row {
    std::string label;               ///< "rear grip"
    std::vector<std::string> cells;  ///< "much less", one a column; one alone: no phases
    std::vector<std::optional<double>> notches;  ///< the same; nothing: not moved
  };
  std::string caption;               ///< "rear wider, each 10 mm"
  std::vector<std::string> columns;  ///< "going in", "in the middle", "coming off"
  std::vector<Row> rows;
};

/// Headed paragraphs, behind a table where there is one; or one text of lines that must stay as
/// they are, and where such lines stand.
struct ExplainedPart {
  std::string heading;
  std::vector<std::string> paragraphs;
  std::string stands = {};  ///< "in a kart file"; empty: paragraphs that may be wrapped
  std::optional<EffectTable> table = {};
};

/// Parts in reading order.
struct Explanation {
  std::string kind;  ///< symptom, adjustment, fault, track, fact, message, check, quantity, rule
  std::string id;
  std::string title;
  std::vector<ExplainedPart> sections;
};

/// Nothing where no such id exists. An id that names several things (a symptom and a rule) is
/// looked up in the order symptom, adjustment, fault, track, fact, message, check, quantity, rule.
/// A check is also found as `check-` and its id, by what it measures, and by its verdicts.
std::optional<Explanation> explain(std::string_view id, const Pack& pack);

/// What a rule says where it speaks, in a line: "rear wider: rear-grip.mid -0.9 ± 0.2".
std::string says(const RuleRef& rule, const Pack& pack);

/// All ids that can be explained, by kind, in that order.
std::vector<std::pair<std::string, std::vector<std::string>>> explainable(const Pack& pack);

}  // namespace kartwright
