// rule_page.h - one rule with everything that is known of it, and all rules in lines.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/document/document.h"
#include "engine/knowledge/every_rule.h"

namespace kartwright {

struct RuleLine {
  std::string id;
  std::string kind;    ///< symptom, reading, effect, evidence, derive, verdict
  std::string of;      ///< the symptom, adjustment or fault; the fact concluded; the row's axes
  std::string status;  ///< stable, test, experimental
  Source source;
};

/// Another rule of the same adjustment and the axes that one takes from the other.
struct CellsTaken {
  std::string rule;
  std::vector<std::string> axes;
};

struct RulePage {
  RuleLine line;
  std::string when;  ///< in words; "always"
  std::string says;
  std::string because;
  std::string provenance;
  bool contested = false;
  std::vector<CellsTaken> replaces = {};  ///< effects without a condition, while this one's holds
  std::vector<CellsTaken> replaced_by = {};                ///< of an effect without a condition
  std::vector<std::string> fires_on = {}, silent_on = {};  ///< names of the cases beside its file
};

/// By kind in the order of RuleKind, then by what they are of, then by id; last the verdicts of
/// measured checks, as written.
std::vector<RuleLine> rule_lines(const Pack& pack);

/// Nothing where no rule has the id. `cases` are looked through for those beside the rule's file.
std::optional<RulePage> rule_page(std::string_view id, const Pack& pack,
                                  const std::vector<Document>& cases = {});

}  // namespace kartwright
