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

/// What `kind: length` of a rule file names; an empty name is a count. Reports anything else and
/// gives nothing.
std::optional<Kind> read_kind(const Document& document, const Node& node, const std::string& name,
                              Findings& findings);

/// The same without a report, for who uses what is reported where it is defined.
std::optional<Kind> kind_named(std::string_view name);

}  // namespace kartwright
