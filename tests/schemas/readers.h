// readers.h - the loaders of all files that have a schema, under one name each.

#pragma once

#include <string>
#include <vector>

#include "engine/document/diagnostic.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

enum class FileKind { kart, debrief, scenario, cases, rule };
/// As its schema is called.
std::string name_of(FileKind kind);

/// The built-in rules, read once.
const Pack& rules_of_schemas();

/// The errors of a loader on a text; empty where it takes it. A scenario is read as if it stood in
/// scenarios/harbour, a rule file on top of the built-in rules.
std::vector<Diagnostic> loader_errors(FileKind kind, const std::string& text);

}  // namespace kartwright
