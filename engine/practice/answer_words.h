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

/// The faults that the words name best, by their ids and labels, or else by what is looked at;
/// small words and the chassis name none. One or many of a thing is the same.
std::vector<NamedBy> faults_named(const AnswerWords& words, const Pack& pack);

/// The one fault whose name holds every word of two or more; nothing where there is no such one, or
/// where an adjustment holds them all as well.
std::optional<std::size_t> fault_alone(const AnswerWords& words, const Pack& pack);

/// Takes each of `used` out of the words once.
AnswerWords without(AnswerWords words, const AnswerWords& used);

/// The direction of an adjustment that the words name; its words are taken out of them.
std::optional<std::size_t> take_direction(const Adjustment& adjustment, AnswerWords& words);

/// True where the words say that way; a position of the same name and the `in` of `0.04 in` say
/// none.
bool says_direction(const Adjustment& adjustment, std::size_t direction, const AnswerWords& words);

}  // namespace kartwright
