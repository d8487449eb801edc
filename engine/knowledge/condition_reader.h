// condition_reader.h - reads a `when:` of a rule file into a condition.

#pragma once

#include "engine/document/fields.h"
#include "engine/knowledge/condition.h"
#include "engine/knowledge/names.h"

namespace kartwright {

/// Reads a map of tests; several keys mean all of them. Mistakes go to `findings`, and the
/// condition read is then of no use.
Condition read_condition(const Document& document, const Node& node, const Names& names,
                         Findings& findings);

/// `kind: length` of a rule file. Reports anything else; an empty name is a count.
Kind read_kind(const Document& document, const Node& node, const std::string& name,
               Findings& findings);

}  // namespace kartwright
