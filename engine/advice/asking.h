// asking.h - one question to the driver as it is put: its words, and what may be answered by a key.

#pragma once

#include <string>
#include <vector>

#include "engine/decision/questions.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

/// Answers to a question, by a key each.
struct Choice {
  std::string key;
  std::string label;
  std::string value;  ///< of a fact or the track its value; of two ends the symptom, or empty
};

struct Asking {
  enum class About {
    track,  ///< first of all: everything leans on it
    words,  ///< an open question, where nothing was said and so no question is worth anything
    both_ends,
    symptom,
    fact,
  };
  About about = About::symptom;
  Question question = {};  ///< neither symptom nor fact where the question is open
  std::string text = {};
  std::vector<Choice> choices = {};  ///< none where the question is open

  /// The symptom at the other end, or nullptr.
  const Symptom* other_end(const Pack& pack) const;
};

/// The question as it is put to the driver.
Asking asking_of(const Question& question, const Pack& pack);

/// Asked where nobody has said a word.
Asking open_question();

}  // namespace kartwright
