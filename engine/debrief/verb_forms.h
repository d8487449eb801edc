// verb_forms.h - the endings of English verbs, for the `*` of the vocabulary.

#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace kartwright {

/// The plain form, then -s, -ed and -ing: hop, hops, hopped, hopping; carry, carries, carried,
/// carrying. Regular endings only. REQUIRES: lower case.
std::vector<std::string> verb_forms(std::string_view verb);

}  // namespace kartwright
