// mutate.h - inputs changed as people change them: words for words, numbers for numbers, lines
// moved, so that most of what comes out gets past the reader.

#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace kartwright::fuzz {

/// The words of a target: ids, values, units and phrases of the built-in rules, and what its own
/// format knows.
const std::vector<std::string>& words_for(std::string_view target);

/// A text with one to four changes, the same for the same seed. Any bytes may go in.
std::string mutated(std::string text, std::string_view target, std::uint32_t seed);

}  // namespace kartwright::fuzz
