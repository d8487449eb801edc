// answer_words.h - the words of a trainee's answer, and which names of the rules they hold.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/practice/marking.h"

namespace kartwright {

using AnswerWords = std::vector<std::string>;

/// Small letters, cut at blanks and at dashes between letters; `=` is a word of its own.
AnswerWords answer_words(std::string_view text);

/// A thing that words name: how well, and which of them are used up.
struct NamedBy {
  std::size_t index = 0;  ///< into the pack's adjustments or faults
  std::optional<std::size_t> direction = {};
  int score = 0;
  AnswerWords used = {};
};

/// The adjustments that the words name best; several where they name them equally well.
std::vector<NamedBy> adjustments_named(const AnswerWords& words, const Pack& pack);
std::vector<NamedBy> faults_named(const AnswerWords& words, const Pack& pack);

/// Takes each of `used` out of the words once.
AnswerWords without(AnswerWords words, const AnswerWords& used);

/// The direction of an adjustment that the words name; its words are taken out of them.
std::optional<std::size_t> take_direction(const Adjustment& adjustment, AnswerWords& words);

}  // namespace kartwright
