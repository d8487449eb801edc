#include "engine/debrief/vocabulary.h"

#include <algorithm>
#include <tuple>

#include "engine/debrief/verb_forms.h"

namespace kartwright {
namespace {

bool is_plain(char c) { return (c >= 'a' && c <= 'z') || c == '\'' || c == '*'; }

/// A word that the tokenizer would not cut: nearly all are.
bool is_plain_word(const std::string& word) {
  return !word.empty() && word.front() != '\'' && word.back() != '\'' &&
         std::all_of(word.begin(), word.end(), is_plain);
}

/// Cut as the tokenizer cuts what is said, so that "two-wheels" meets "two wheels". Keeps the `*`.
std::vector<std::string> cut(const std::vector<std::string>& words) {
  std::vector<std::string> parts;
  for (const std::string& word : words) {
    for (Token& token : tokens_of(word)) parts.push_back(std::move(token.text));
    if (word.ends_with('*') && !parts.empty()) parts.back() += '*';
  }
  return parts;
}

/// "we'll" must not turn into "well".
bool may_lose_apostrophe(const std::string& word) {
  return word.find('\'') != std::string::npos && !word.ends_with("'ll");
}

/// Compares without building the forms wherever that is possible: this is the innermost loop.
bool is_form_of(std::string_view said, const std::string& word) {
  if (said.empty() || said.front() != word.front())
    return false;  // as in every form: saves most work
  if (said == word) return true;
  if (word.back() != '*' && !may_lose_apostrophe(word)) return false;
  const auto forms = forms_of(word);
  return std::find(forms.begin(), forms.end(), said) != forms.end();
}

/// "the hop's back": hop is. Empty where a word does not end so.
std::string_view without_s(std::string_view said) {
  return said.ends_with("'s") ? said.substr(0, said.size() - 2) : std::string_view();
}

/// True where the words stand at the start of the tokens, without a break between them.
bool fits(const std::vector<std::string>& words, std::span<const Token> tokens) {
  if (words.size() > tokens.size()) return false;
  for (std::size_t i = 1; i < words.size(); ++i) {  // the index answers for the first
    if (tokens[i].kind == Token::Kind::comma || tokens[i].kind == Token::Kind::stop) return false;
    const std::string& said = tokens[i].text;
    if (!is_form_of(said, words[i]) && !is_form_of(without_s(said), words[i])) return false;
  }
  return true;
}

}  // namespace

std::vector<std::string> forms_of(const std::string& word) {
  if (word.ends_with('*')) return verb_forms(std::string_view(word).substr(0, word.size() - 1));
  std::vector<std::string> forms{word};
  if (may_lose_apostrophe(word)) {
    forms.push_back(word);
    std::erase(forms.back(), '\'');
  }
  return forms;
}

Vocabulary::Vocabulary(const std::vector<Phrase>& phrases) {
  by_first_word_.reserve(phrases.size());
  for (const Phrase& phrase : phrases) add(phrase);
}

bool Vocabulary::goes_before(const Pattern& a, const Pattern& b) {
  if (a.words->size() != b.words->size()) return a.words->size() > b.words->size();
  return std::tie(a.phrase->means, a.phrase->id) < std::tie(b.phrase->means, b.phrase->id);
}

void Vocabulary::add(const Phrase& phrase) {
  Pattern pattern{&phrase, &phrase.words};
  if (!std::all_of(phrase.words.begin(), phrase.words.end(), is_plain_word)) {
    cut_.push_back(cut(phrase.words));
    pattern.words = &cut_.back();
  }
  if (pattern.words->empty()) return;
  for (std::string& form : forms_of(pattern.words->front())) {
    std::vector<Pattern>& same = by_first_word_[std::move(form)];
    same.insert(std::upper_bound(same.begin(), same.end(), pattern, goes_before), pattern);
  }
}

Vocabulary::Match Vocabulary::longest(std::span<const Token> tokens) const {
  if (tokens.empty()) return {};
  const Match match = longest_from(tokens.front().text, tokens);
  if (match.phrase != nullptr) return match;
  return longest_from(without_s(tokens.front().text), tokens);
}

Vocabulary::Match Vocabulary::longest_from(std::string_view first,
                                           std::span<const Token> tokens) const {
  const auto found = by_first_word_.find(std::string(first));
  if (found == by_first_word_.end()) return {};
  for (const Pattern& pattern : found->second) {
    if (fits(*pattern.words, tokens)) return {pattern.phrase, pattern.words->size()};
  }
  return {};
}

}  // namespace kartwright
