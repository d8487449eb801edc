// clauses.h - cuts what was said into clauses, and those into segments of known phrases and unknown
// words.
//
// Clauses end at . ; ! ? and the end of a line, and before "but", "though" and "except". Inside
// them, commas and "and", "or", "then" part the segments. Only the language is known here; the
// trade is in the vocabulary.

#pragma once

#include <optional>
#include <vector>

#include "engine/debrief/tokens.h"
#include "engine/debrief/vocabulary.h"

namespace kartwright {

/// A word said of a symptom from a small vocabulary. Two that differ, "left and right", cancel out.
template <typename Value>
class Remark {
 public:
  void say(Value value) {
    if (!said_)
      value_ = value;
    else if (value_ != value)
      value_.reset();
    said_ = true;
  }
  bool said() const { return said_; }
  std::optional<Value> value() const { return value_; }

 private:
  bool said_ = false;
  std::optional<Value> value_ = {};
};

/// A phrase of the vocabulary, or one unknown word where there is no phrase.
struct Piece {
  const Phrase* phrase = nullptr;
  Stretch at = {};
  std::string text = {};  ///< its words, lower case
  bool capitals = false;  ///< every word of it said in CAPITALS
  bool finite =
      false;  ///< its first word ends like "hops": said of a subject, not in a list of nouns
  bool denied = false;            ///< a symptom with a "not" inside its phrase
  bool says_no = false;           ///< a symptom that is a "not" itself: "won't turn"
  bool spells_phase = false;      ///< a symptom whose phrase names its phase: "loose off"
  std::optional<Side> side = {};  ///< of a symptom whose phrase names it: "drifts left"
  bool is(Phrase::Means means) const { return phrase != nullptr && phrase->means == means; }
};

/// How a segment hangs on the one before: not at all, by "and", by "or"/"nor", by
/// "then"/"plus"/"also".
enum class Join { none, along, either, further };

struct Segment {
  Join join = Join::none;
  bool comma = false;  ///< a comma, colon, dash or bracket stands before it
  bool told = false;   ///< a colon or a dash: "hop: none"
  std::vector<Piece> pieces;
};

struct SpokenClause {
  bool exception = false;  ///< opened by "except" and the like
  bool asked = false;      ///< ended by a question mark
  bool loud = false;       ///< ended by two exclamation marks or more
  std::vector<Segment> segments;
};

/// Empty segments and clauses are left out.
std::vector<SpokenClause> clauses_of(const std::vector<Token>& tokens,
                                     const Vocabulary& vocabulary);

}  // namespace kartwright
