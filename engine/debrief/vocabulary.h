// vocabulary.h - finds the phrases of the rule pack in a run of words, longest first.
//
// Built once for a pack, which must outlive it. `*` after a word of a phrase stands for its verb
// endings; a word with an apostrophe is known without it too (wont, doesnt), as thumbs write it,
// and one that ends in 's for what stands before.

#pragma once

#include <cstddef>
#include <deque>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "engine/debrief/tokens.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

class Vocabulary {
 public:
  explicit Vocabulary(const std::vector<Phrase>& phrases);
  Vocabulary(const Vocabulary&) = delete;
  Vocabulary& operator=(const Vocabulary&) = delete;

  struct Match {
    const Phrase* phrase = nullptr;  ///< none: nothing known begins here
    std::size_t words = 0;           ///< tokens it takes up
  };

  /// The longest phrase at the start of the tokens. Of two as long, the one whose meaning stands
  /// first in Phrase::Means, then the one with the lesser id.
  Match longest(std::span<const Token> tokens) const;

 private:
  struct Pattern {
    const Phrase* phrase = nullptr;
    const std::vector<std::string>* words = nullptr;  ///< the phrase's own, or in cut_
  };
  static bool goes_before(const Pattern& a, const Pattern& b);
  void add(const Phrase& phrase);
  Match longest_from(std::string_view first, std::span<const Token> tokens) const;

  std::deque<std::vector<std::string>> cut_;
  std::unordered_map<std::string, std::vector<Pattern>>
      by_first_word_;  // each in goes_before order
};

/// A word of a phrase in every form in which it may be said. `hop*` has four, `won't` two.
std::vector<std::string> forms_of(const std::string& word);

}  // namespace kartwright
