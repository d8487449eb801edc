// explain_json.h - an explanation, and the list of what can be explained, as JSON.

#pragma once

#include <string>

#include "engine/advice/explain.h"

namespace kartwright::cli {

/// `kartwright/explain/1`: sections in reading order, each with its paragraphs and, where it has
/// one, its table with the notches behind the words.
std::string explanation_json(const Explanation& explanation);

/// `kartwright/explain-list/1`: the ids of each kind.
std::string topics_json(const Pack& pack);

}  // namespace kartwright::cli
