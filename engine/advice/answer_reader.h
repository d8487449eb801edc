// answer_reader.h - what a driver's answer to one question says: by a key, a word or a sentence.
//
// A short answer reads as a report or a fact that was written out would; a sentence is heard by the
// ear that hears a debrief, with the question's phase where it names none. Nothing is dropped in
// silence.

#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "engine/advice/asking.h"
#include "engine/debrief/sentence.h"

namespace kartwright {

struct Understood {
  enum class Kind {
    answer,   ///< something was heard
    skip,     ///< not known
    back,     ///< to the question before
    done,     ///< no more questions
    help,     ///< nothing was typed, or help was asked for
    nothing,  ///< words that came to nothing; `heard.not_understood` has them
    which,    ///< it does not say which of the two ends
  };
  Kind kind = Kind::nothing;
  Heard heard = {};
  std::string track = {};  ///< id of the state, where that was asked and answered
};

class AnswerReader {
 public:
  /// The pack must outlive it.
  explicit AnswerReader(const Pack& pack);

  /// Never throws; `text` may be any bytes.
  Understood read(std::string_view text, const Asking& asking);

 private:
  /// What small words say of a symptom that they do not name.
  struct Small {
    bool only = true;  ///< no word stands among them that is more than that
    bool denied = false, praised = false;
    std::optional<int> severity = {};
    std::optional<Phase> phase = {};
    std::optional<Side> side = {};
    std::optional<When> when = {};
    std::optional<Confidence> confidence = {};
    bool says_something() const;
  };

  Understood about_symptom(std::string_view text, const Asking& asking);
  Understood about_value(std::string_view text, const Asking& asking);
  Understood sentence(std::string_view text, const Asking& asking);
  Small small(std::span<const Token> tokens) const;
  void take(const Vocabulary::Match& match, Small& small) const;
  Understood yes_or_no(std::string_view text, bool yes, std::size_t from, const Asking& asking);
  bool says_everywhere(std::string_view text) const;
  const Choice* value_named(std::span<const Token> tokens, const Asking& asking) const;

  const Pack& pack_;
  Vocabulary vocabulary_;
  Spelling spelling_;
  Ear ear_;
};

}  // namespace kartwright
