// nearest.h - the phrases of the vocabulary nearest to words that were not understood. Only
// suggestions: nothing is ever read as if it had been said.

#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <unordered_map>
#include <vector>

#include "engine/knowledge/pack.h"

namespace kartwright {

/// How often each letter occurs, and which do, a bit each; letters are folded into 32 kinds.
struct Letters {
  std::array<std::uint8_t, 32> count = {};
  std::uint32_t present = 0;
};

class Nearest {
 public:
  /// Looks at phrases that say something; filler, denials and places are no suggestion.
  explicit Nearest(const std::vector<Phrase>& phrases);

  /// At most three, nearest first, to the text as a whole and to each of the first few words. Near
  /// is within a third of the letters, and one edit in any case. After two hundred different texts
  /// there are no more suggestions. REQUIRES: lower case.
  std::vector<std::string> to(const std::string& text, const std::vector<std::string>& words);

 private:
  struct Known {
    std::string text;
    std::size_t wording = 0;  ///< forms of one are suggested once
    Letters letters = {};
  };
  struct Found {
    int edits = 0;
    const Known* known = nullptr;
  };
  void add(std::string text, std::size_t wording);
  const std::vector<Found>& near(const std::string& text);

  std::vector<std::vector<Known>> by_length_;
  std::unordered_map<std::string, std::vector<Found>> seen_;
};

}  // namespace kartwright
