// vocabulary.h - finds the phrases of the rule pack in a run of words, longest first.
//
// Built once for a pack, which must outlive it, and used by one thread: what begins with a word is
// gathered when the word is first heard. `*` after a word of a phrase stands for its verb
// endings, `<front>` for any words of that class; a word with an apostrophe is known without it too
// (wont, doesnt), as thumbs write it, and one that ends in 's for what stands before. Between the
// words of a phrase that speaks of the kart may stand a few light words, which say how much or
// nothing: "the front just really slides".

#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "engine/debrief/tokens.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

class Vocabulary {
 public:
  explicit Vocabulary(const std::vector<Phrase>& phrases,
                      const std::vector<WordClass>& classes = {},
                      const std::vector<std::string>& light = {});
  Vocabulary(const Vocabulary&) = delete;
  Vocabulary& operator=(const Vocabulary&) = delete;

  /// Light words that stand inside a phrase: tokens [from, from + count) of what was asked for.
  struct Gap {
    std::size_t from = 0, count = 0;
    bool denied = false;  ///< right behind a "not" of the phrase: "doesn't really turn in"
    bool denies = false;  ///< a "not" stands among them: "the steering is not heavy"
  };

  struct Match {
    const Phrase* phrase = nullptr;  ///< none: nothing known begins here
    std::string_view wording = {};   ///< of the phrase
    std::size_t words = 0;           ///< tokens it takes up, gaps included
    std::vector<Gap> gaps = {};
    std::size_t own() const;  ///< tokens that are its own
  };

  /// The phrase with the most words of its own at the start of the tokens. Of two with as many, the
  /// one whose meaning stands first in Phrase::Means, then the one with the lesser id.
  Match longest(std::span<const Token> tokens) const;

  /// Some phrase of this meaning, or nullptr: what a rule of the language can turn words into.
  const Phrase* any_that_means(Phrase::Means means, std::string_view id) const;

  /// A wording that has a "not" of its own: "won't turn", "no grip".
  bool says_no(std::string_view wording) const;

  bool begins_a_phrase(const std::string& word) const {
    const Starts& starts = starts_of(word);
    return !starts.patterns.empty() || !starts.classes.empty();
  }

  /// Every word of every phrase and class, in every form, each once.
  std::unordered_set<std::string> all_words() const;

 private:
  /// A wording: which phrase's, and where in its `wordings` it begins.
  struct Wording {
    std::uint32_t phrase = 0, from = 0;
  };
  using Wordings = std::vector<Wording>;
  struct Pattern {
    const Phrase* phrase = nullptr;
    std::string_view wording = {};
    const std::vector<std::string>* words = nullptr;  ///< in cut_
  };
  using Patterns = std::vector<Pattern>;
  /// What may begin with a word that was heard.
  struct Starts {
    Patterns patterns = {};
    std::vector<const Patterns*> classes = {};  ///< of each class that the word may stand for
  };
  /// One way to lay a pattern over tokens.
  struct Fit {
    std::size_t end = 0;
    std::vector<Gap> gaps = {};
  };

  void add(const Phrase& phrase);
  void shelve(Wording wording, std::string_view text);
  void note_small_words(const Phrase& phrase);
  void add_class(const WordClass& added);
  std::string_view text_of(Wording wording) const;
  const std::vector<std::string>& words_of(std::string_view wording) const;
  std::string_view first_word_of(std::string_view wording) const;
  Pattern pattern_of(Wording wording) const;
  const Patterns& patterns_of(const std::string& id) const;
  const Starts& starts_of(std::string_view word) const;
  Starts gather(std::string_view word) const;
  const std::vector<std::vector<std::string>>* class_of(const std::string& word) const;
  bool fits(const Pattern& pattern, std::size_t word, std::span<const Token> tokens,
            Fit& fit) const;
  bool fits_here(const Pattern& pattern, std::size_t word, std::span<const Token> tokens,
                 Fit& fit) const;
  bool is_light(const Token& token) const;
  bool is_denial(const Token& token) const;
  bool is_no(const std::string& word) const;
  bool may_be_denied(const Pattern& pattern) const;
  void find_among(const Patterns& patterns, std::span<const Token> tokens, Match& best) const;
  void find_from(std::string_view first, std::span<const Token> tokens, Match& best) const;

  const std::vector<Phrase>& phrases_;
  mutable std::unordered_map<const char*, std::vector<std::string>> cut_;  ///< wordings, by place
  std::unordered_map<std::string, std::vector<std::vector<std::string>>> classes_;  ///< cut
  std::vector<std::string> class_ids_;                  ///< `<front>`, in the order of the rules
  std::unordered_map<std::string, Wordings> by_class_;  ///< those that begin with `<front>`
  std::array<Wordings, 256> by_letter_;  ///< the others, by the first letter of the first word
  mutable std::unordered_map<std::string, Patterns> class_patterns_;  ///< of classes heard before
  mutable std::unordered_map<std::string, Starts> starts_;            ///< of words heard before
  std::unordered_set<std::string> light_, denials_;
};

/// A word of a phrase in every form in which it may be said. `hop*` has four, `won't` two.
std::vector<std::string> forms_of(std::string_view word);

}  // namespace kartwright
