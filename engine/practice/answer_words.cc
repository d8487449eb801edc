#include "engine/practice/answer_words.h"

#include <algorithm>
#include <array>
#include <utility>

#include "engine/document/fields.h"

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

bool is_small(const std::string& word) {
  static constexpr std::array<std::string_view, 34> kSmall{
      "a",      "an",  "and",  "any",  "are",  "as",  "at",   "be",  "by", "does", "every", "fault",
      "faults", "for", "from", "if",   "in",   "is",  "it",   "its", "my", "no",   "not",   "of",
      "on",     "or",  "out",  "some", "that", "the", "them", "to",  "up", "with"};
  return std::find(kSmall.begin(), kSmall.end(), word) != kSmall.end();
}

/// "wheels" as "wheel", "glass" as it is.
std::string as_of_one(std::string word) {
  constexpr std::size_t kShort = 3;
  const bool many = word.size() > kShort && word.ends_with("s") && !word.ends_with("ss");
  if (many) word.pop_back();
  return word;
}

/// The words that say something, each as of one thing.
AnswerWords telling(const AnswerWords& words) {
  AnswerWords out;
  for (const std::string& word : words) {
    if (!is_small(word)) out.push_back(as_of_one(word));
  }
  return out;
}

/// A label as far as it says what the fault is: "gearing or clutch" of "gearing or clutch, not
/// chassis".
std::string what_it_is(const std::string& label) { return label.substr(0, label.find(", not ")); }

AnswerWords words_of_name(const Fault& fault) {
  AnswerWords out = telling(answer_words(what_it_is(fault.label)));
  for (const std::string& word : telling(answer_words(what_it_is(fault.id)))) {
    if (std::find(out.begin(), out.end(), word) == out.end()) out.push_back(word);
  }
  return out;
}

/// All that an answer may say of an adjustment.
AnswerWords words_of_name(const Adjustment& adjustment) {
  std::string all = adjustment.id + " " + adjustment.label;
  for (const std::string& each : adjustment.directions) all += " " + each;
  for (const std::string& each : adjustment.phrases) all += " " + each;
  for (const std::string& each : adjustment.positions) all += " " + each;
  return telling(answer_words(all));
}

/// How many of the words a name has.
int score_of(const AnswerWords& words, const AnswerWords& name) {
  return static_cast<int>(shared(words, name).size());
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
    if (c == ' ' && !word.empty()) words.push_back(std::exchange(word, {}));
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
  const AnswerWords told = telling(words);
  std::vector<NamedBy> by_name, by_look;
  for (std::size_t i = 0; i < pack.faults.size(); ++i) {
    const Fault& fault = pack.faults[i];
    by_name.push_back({.index = i, .score = score_of(told, words_of_name(fault))});
    by_look.push_back({.index = i, .score = score_of(told, telling(answer_words(fault.check)))});
  }
  const std::vector<NamedBy> named = best_of(by_name);
  return named.empty() ? best_of(by_look) : named;
}

std::optional<std::size_t> fault_alone(const AnswerWords& words, const Pack& pack) {
  const AnswerWords told = telling(words);
  const std::vector<NamedBy> found = faults_named(words, pack);
  if (told.size() < 2 || found.size() != 1) return std::nullopt;
  const AnswerWords name = words_of_name(pack.faults[found.front().index]);
  const auto says_it = [&](const Adjustment& each) { return holds_all(words_of_name(each), told); };
  const bool adjusts = std::any_of(pack.adjustments.begin(), pack.adjustments.end(), says_it);
  if (adjusts || !holds_all(name, told)) return std::nullopt;
  return found.front().index;
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

bool says_direction(const Adjustment& adjustment, std::size_t direction, const AnswerWords& words) {
  const AnswerWords other = answer_words(adjustment.directions.at(1 - direction));
  const AnswerWords own = without(answer_words(adjustment.directions.at(direction)), other);
  const std::vector<std::string>& positions = adjustment.positions;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool unit = words[i] == "in" && i > 0 && bare_number(words[i - 1]);
    const bool place = std::find(positions.begin(), positions.end(), words[i]) != positions.end();
    if (!unit && !place && std::find(own.begin(), own.end(), words[i]) != own.end()) return true;
  }
  return false;
}

}  // namespace kartwright
