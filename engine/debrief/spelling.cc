#include "engine/debrief/spelling.h"

#include <algorithm>
#include <span>
#include <sstream>

#include "engine/document/diagnostic.h"

namespace kartwright {
namespace {

constexpr std::size_t kShortestWord = 4;         // letters; shorter words have too many neighbours
constexpr std::size_t kTwoSlips = 9;             // letters from which two slips may be meant
constexpr std::size_t kMostRemembered = 10'000;  // words asked before
constexpr std::size_t kLongestWord = 24;         // letters; no word of a driver's is longer

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || c == '\''; }

bool may_be_misspelt(const std::string& word) {
  return word.size() >= kShortestWord && word.size() <= kLongestWord &&
         std::all_of(word.begin(), word.end(), is_letter);
}

/// Twice the same letter side by side where the other has it once: "hopps", "loosse".
bool only_doubles(const std::string& word, const std::string& known) {
  if (word.size() != known.size() + 1) return false;
  const auto slip = std::mismatch(known.begin(), known.end(), word.begin()).second;
  return slip != word.begin() && *slip == *(slip - 1);
}

/// A word of four letters with another letter in it is another word, unless two are swapped.
bool is_slip(const std::string& word, const std::string& known, int edits) {
  const auto allowed = word.size() >= kTwoSlips ? 2 : 1;
  if (edits > allowed) return false;
  if (known.size() < kShortestWord)
    return known.size() + 1 == kShortestWord && only_doubles(word, known);
  if (std::min(word.size(), known.size()) > kShortestWord || word.size() != known.size())
    return true;
  return std::is_permutation(word.begin(), word.end(), known.begin());
}

}  // namespace

Spelling::Spelling(const Vocabulary& vocabulary, const std::vector<std::string>& ordinary)
    : vocabulary_(vocabulary), ordinary_(ordinary) {}

void Spelling::fill() {
  if (!known_.empty()) return;
  known_ = vocabulary_.all_words();
  for (const std::string& word : known_) {
    if (word.empty()) continue;
    shelves_[{word.front(), word.size()}].push_back(word);
    // "ti" for "it" at the front of a word: it also stands where a swap would look for it.
    if (word.size() > kShortestWord && word[0] != word[1]) {
      shelves_[{word[1], word.size()}].push_back(word);
    }
  }
  for (auto& [shelf, words] : shelves_) std::sort(words.begin(), words.end());
  for (const std::string& run : ordinary_) {
    std::istringstream words(run);
    for (std::string word; words >> word;) known_.insert(std::move(word));
  }
}

/// Candidates as near as each other must mean the same, those that mean nothing alone left aside;
/// the first of them stands for all.
std::string Spelling::one_meaning(const std::vector<std::string>& candidates) const {
  if (candidates.size() == 1) return candidates.front();
  const auto phrase_of = [&](const std::string& word) {
    const Token token{Token::Kind::word, word};
    return vocabulary_.longest(std::span(&token, 1)).phrase;
  };
  std::string chosen;
  const Phrase* meant = nullptr;
  for (const std::string& word : candidates) {
    const Phrase* const phrase = phrase_of(word);
    if (phrase == nullptr || phrase->means == Phrase::Means::filler) continue;
    const bool same =
        meant == nullptr || (phrase->means == meant->means && phrase->id == meant->id);
    if (!same) return {};
    if (meant == nullptr) chosen = word;
    meant = phrase;
  }
  return meant == nullptr ? candidates.front() : chosen;
}

/// "soooo loose", "reeeally": a letter drawn out stands for one or two of it.
std::string Spelling::drawn_out(const std::string& word) const {
  for (const std::size_t most : {2U, 1U}) {
    std::string shorter;
    std::size_t run = 0, longest = 0;
    for (const char c : word) {
      run = !shorter.empty() && shorter.back() == c ? run + 1 : 1;
      longest = std::max(longest, run);
      if (run <= most) shorter += c;
    }
    if (longest > 2 && known_.contains(shorter)) return shorter;
  }
  return {};
}

std::string Spelling::nearest(const std::string& word) const {
  std::vector<std::string> best;
  int fewest = 3;
  for (std::size_t size = word.size() - 2; size <= word.size() + 2; ++size) {
    const auto shelf = shelves_.find({word.front(), size});
    if (shelf == shelves_.end()) continue;
    for (const std::string& known : shelf->second) {
      const bool swapped = known.front() != word.front();
      if (swapped && (known[0] != word[1] || known[1] != word[0])) continue;
      const int edits = edit_distance(word, known);
      if (edits > fewest || !is_slip(word, known, edits)) continue;
      if (edits < fewest) best.clear();
      fewest = edits;
      best.push_back(known);
    }
  }
  return best.empty() ? std::string() : one_meaning(best);
}

std::string Spelling::meant_by(const std::string& word) {
  if (!may_be_misspelt(word) || vocabulary_.begins_a_phrase(word)) return word;
  fill();
  if (known_.contains(word) ||
      (word.ends_with("'s") && known_.contains(word.substr(0, word.size() - 2))))
    return word;
  if (asked_.size() >= kMostRemembered) asked_.clear();
  const auto [entry, fresh] = asked_.try_emplace(word);
  if (fresh) entry->second = drawn_out(word);
  if (fresh && entry->second.empty()) entry->second = nearest(word);
  return entry->second.empty() ? word : entry->second;
}

void Spelling::mend(std::vector<Token>& tokens) {
  for (Token& token : tokens) {
    if (token.kind == Token::Kind::word) token.text = meant_by(token.text);
  }
}

}  // namespace kartwright
