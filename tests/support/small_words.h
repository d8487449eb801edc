// small_words.h - a small vocabulary by hand for the tests of the debrief room, so that a change of
// the rules cannot change what these tests say; and ways to show what was heard in a line.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/debrief/debrief.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

/// A phrase from its words in one string: phrase_of("wash* out", Phrase::Means::symptom, "push").
Phrase phrase_of(std::string_view words, Phrase::Means means, std::string id = {});

/// push, loose, hop, bog, slide and pulls, with some sixty phrases of every meaning. Praise denies
/// push, loose and hop. The same object each time.
const Pack& small_words();

/// "push@entry=2", then ",left", ",late", ",sure" where they were said.
std::string shown(const Report& report);
/// Reports in order, without those that praise denies.
std::vector<std::string> shown(const std::vector<Report>& reports);

}  // namespace kartwright
