#include "engine/practice/answer_words.h"

#include <algorithm>

namespace kartwright {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// What a byte of an answer becomes: `next` is the byte behind it, `before` what was kept last.
std::string kept(char c, char next, char before) {
  if (c >= 'A' && c <= 'Z') return std::string(1, static_cast<char>(c + 32));
  if (c == '=') return " = ";
  if (c == '_' || c == ',' || c == ':' || c == '\t') return " ";
  if (c == '-') return is_digit(next) && (before == ' ' || before == '=') ? "-" : " ";
  return std::string(1, c);
}

bool holds_all(const AnswerWords& words, const AnswerWords& wanted) {
  return !wanted.empty() && std::all_of(wanted.begin(), wanted.end(), [&](const std::string& w) {
    return std::find(words.begin(), words.end(), w) != words.end();
  });
}

AnswerWords shared(const AnswerWords& words, const AnswerWords& name) {
  AnswerWords out;
  for (const std::string& word : name) {
    if (std::find(words.begin(), words.end(), word) != words.end()) out.push_back(word);
  }
  return out;
}

void keep_better(NamedBy candidate, NamedBy& best) {
  if (candidate.score > best.score) best = std::move(candidate);
}

/// A whole name counts for more than part of one with as many words, a phrase with its direction
/// for more than either.
void try_name(const AnswerWords& words, const std::string& name, NamedBy& best) {
  const AnswerWords wanted = answer_words(name);
  const AnswerWords found = shared(words, wanted);
  const int whole = holds_all(words, wanted) ? 0 : -1;
  const int score = 2 * static_cast<int>(found.size()) + whole;
  if (!found.empty()) keep_better({best.index, std::nullopt, score, found}, best);
}

NamedBy best_for(const Adjustment& adjustment, std::size_t index, const AnswerWords& words) {
  NamedBy best{.index = index};
  try_name(words, adjustment.id, best);
  try_name(words, adjustment.label, best);
  for (std::size_t d = 0; d < 2; ++d) {
    const AnswerWords phrase = answer_words(adjustment.phrases.at(d));
    if (!holds_all(words, phrase)) continue;
    keep_better({index, d, 2 * static_cast<int>(phrase.size()) + 1, phrase}, best);
  }
  return best;
}

std::vector<NamedBy> best_of(const std::vector<NamedBy>& all) {
  int most = 1;
  for (const NamedBy& each : all) most = std::max(most, each.score);
  std::vector<NamedBy> out;
  for (const NamedBy& each : all) {
    if (each.score == most) out.push_back(each);
  }
  return out;
}

}  // namespace

AnswerWords answer_words(std::string_view text) {
  std::string clean = " ";
  for (std::size_t i = 0; i < text.size(); ++i)
    clean += kept(text[i], i + 1 < text.size() ? text[i + 1] : ' ', clean.back());
  AnswerWords words;
  std::string word;
  for (const char c : clean + " ") {
    if (c != ' ') word += c;
    if (c == ' ' && !word.empty()) words.push_back(std::move(word));
    if (c == ' ') word.clear();
  }
  return words;
}

std::vector<NamedBy> adjustments_named(const AnswerWords& words, const Pack& pack) {
  std::vector<NamedBy> all;
  for (std::size_t i = 0; i < pack.adjustments.size(); ++i)
    all.push_back(best_for(pack.adjustments[i], i, words));
  return best_of(all);
}

std::vector<NamedBy> faults_named(const AnswerWords& words, const Pack& pack) {
  std::vector<NamedBy> all;
  for (std::size_t i = 0; i < pack.faults.size(); ++i) {
    all.push_back({.index = i});
    try_name(words, pack.faults[i].id, all.back());
    try_name(words, pack.faults[i].label, all.back());
  }
  return best_of(all);
}

AnswerWords without(AnswerWords words, const AnswerWords& used) {
  for (const std::string& word : used) {
    const auto found = std::find(words.begin(), words.end(), word);
    if (found != words.end()) words.erase(found);
  }
  return words;
}

std::optional<std::size_t> take_direction(const Adjustment& adjustment, AnswerWords& words) {
  for (std::size_t d = 0; d < 2; ++d) {
    const AnswerWords own = answer_words(adjustment.directions.at(d));
    const AnswerWords other = answer_words(adjustment.directions.at(1 - d));
    const AnswerWords found = shared(words, without(own, other));
    if (found.empty()) continue;
    words = without(std::move(words), own);
    return d;
  }
  return std::nullopt;
}

}  // namespace kartwright
