// interview_text.h - the questions to the driver and what became of the answers, as lines of text.

#pragma once

#include <string>
#include <vector>

#include "engine/advice/interview.h"

namespace kartwright::cli {

/// The question with its number and its worth: "2. In the middle, does it hop? (worth 12 points)".
std::string question_line(const Asking& asking, std::size_t number);

/// The keys that answer it, in one line; of an open question what may be typed.
std::string key_line(const Asking& asking);

/// More of the same, where it was asked for.
std::string help_line(const Asking& asking);

/// What became of an answer, a paragraph each: what was heard, what was not understood, what moved.
std::vector<std::string> answer_lines(const AnswerTaken& answered, const Asking& asked,
                                      const Pack& pack);

/// "3 answers", "1 answer".
std::string count_of_answers(std::size_t answers);

}  // namespace kartwright::cli
