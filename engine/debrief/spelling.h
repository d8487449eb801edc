// spelling.h - plain typos of the vocabulary's words, put right before anything is read.
//
// One slip in a word of four letters or more, two in a word of nine or more, the first letter
// right: a letter too many, too few, another, or two swapped. A word that the vocabulary holds, in
// whatever form, is never taken for another, nor is an ordinary word that the rules list.

#pragma once

#include <map>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <utility>
#include <vector>

#include "engine/debrief/tokens.h"
#include "engine/debrief/vocabulary.h"

namespace kartwright {

class Spelling {
 public:
  /// `ordinary`: words that are no typos, parted by blanks. Both must outlive it. Nothing is built
  /// before the first word that needs it.
  Spelling(const Vocabulary& vocabulary, const std::vector<std::string>& ordinary);

  /// Gives misspelt tokens the text that was meant; where they stood is kept. Linear in the tokens.
  void mend(std::vector<Token>& tokens);

  /// What the word was meant to be, or itself. REQUIRES: lower case.
  std::string meant_by(const std::string& word);

 private:
  using Shelf = std::pair<char, std::size_t>;  ///< first letter and length

  void fill();
  std::string drawn_out(const std::string& word) const;
  std::string nearest(const std::string& word) const;
  std::string one_meaning(const std::vector<std::string>& candidates) const;

  const Vocabulary& vocabulary_;
  const std::vector<std::string>& ordinary_;
  std::unordered_set<std::string> known_;
  std::map<Shelf, std::vector<std::string>> shelves_;  ///< each sorted
  std::unordered_map<std::string, std::string> asked_;
};

}  // namespace kartwright
