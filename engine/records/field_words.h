// field_words.h - the words that fields of a run are written in.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/records/run.h"

namespace kartwright {

/// Several texts in one, a line each, and back.
std::string in_one_text(const std::vector<std::string>& texts);
std::vector<std::string> out_of_one_text(std::string_view text);

/// The value that a word stands for; false where it is none.
bool from_word(std::string_view word, LapFlag& out);
bool from_word(std::string_view word, Origin& out);
bool from_word(std::string_view word, ClockVerdict& out);
bool from_word(std::string_view word, Phase& out);
bool from_word(std::string_view word, Confidence& out);
bool from_word(std::string_view word, Side& out);
bool from_word(std::string_view word, When& out);

}  // namespace kartwright
