// rule_difference.h - what one rule pack says that another does not, rule by rule.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/audit/pack_parts.h"

namespace kartwright {

enum class Happened { added, removed, changed };
std::string_view name_of(Happened happened);

/// A field that differs; an empty value is one that is not there.
struct FieldDifference {
  std::string field;
  FieldKind kind = FieldKind::texts;
  std::string before, after;
};

/// A rule or another part that only one pack has, or that they have otherwise.
struct PartDifference {
  Happened happened = Happened::changed;
  std::string kind;  ///< as PackPart::kind
  std::string id;
  std::string of = {};  ///< a rule's adjustment, fault or symptom, or empty
  std::optional<Source> before = {}, after = {};
  std::vector<FieldDifference> fields = {};  ///< of what was changed
};

/// All that differs: rules first, then the other parts, each by kind and in the order of the packs.
/// Where a part is written plays no role, nor in which figures a number is.
std::vector<PartDifference> rules_apart(const Pack& before, const Pack& after);

}  // namespace kartwright
