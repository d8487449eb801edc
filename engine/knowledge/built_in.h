// built_in.h - the rules that come with the program, and the cases beside them.

#pragma once

#include <vector>

#include "engine/document/document.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

/// The rule files the program was built with, as frozen documents: no text, but every place.
std::vector<Document> built_in_rules();

/// The cases beside those files, in the same form. Nothing is done for them until they are asked
/// for.
std::vector<Document> built_in_cases();

/// The pack of the built-in rules alone.
Pack built_in_pack();

}  // namespace kartwright
