#include "engine/debrief/vocabulary.h"

#include <algorithm>
#include <array>
#include <tuple>

#include "engine/debrief/verb_forms.h"

namespace kartwright {
namespace {

bool is_class(std::string_view word) { return word.starts_with('<'); }

bool is_small_letter(char c) { return c >= 'a' && c <= 'z'; }

bool is_plain(char c) { return is_small_letter(c) || c == '\'' || c == '*'; }

/// A word that the tokenizer would not cut: nearly all are.
bool is_plain_word(std::string_view word) {
  if (is_class(word)) return true;
  return !word.empty() && word.front() != '\'' && word.back() != '\'' &&
         std::all_of(word.begin(), word.end(), is_plain);
}

bool all_plain(const std::vector<std::string>& words) {
  return std::all_of(words.begin(), words.end(), is_plain_word);
}

/// Cut as the tokenizer cuts what is said, so that "two-wheels" meets "two wheels". Keeps the `*`.
std::vector<std::string> cut(const std::vector<std::string>& words) {
  std::vector<std::string> parts;
  for (const std::string& word : words) {
    if (is_class(word)) {
      parts.push_back(word);
      continue;
    }
    for (Token& token : tokens_of(word)) parts.push_back(std::move(token.text));
    if (word.ends_with('*') && !parts.empty()) parts.back() += '*';
  }
  return parts;
}

/// "we'll" must not turn into "well".
bool may_lose_apostrophe(std::string_view word) {
  return word.find('\'') != std::string_view::npos && !word.ends_with("'ll");
}

/// False only where no ending makes the verb into what was said: "dying" keeps the first letter of
/// "die", others all but the last, or all.
bool may_be_form_of(std::string_view said, std::string_view verb) {
  constexpr std::size_t kLongestEnding = 4;  // "hop": "hopping"
  const std::size_t kept = verb.size() > 2 ? verb.size() - 2 : 1;
  return said.size() <= verb.size() + kLongestEnding && said.starts_with(verb.substr(0, kept));
}

/// Compares without building the forms wherever that is possible: this is the innermost loop.
bool is_form_of(std::string_view said, std::string_view word) {
  if (said.empty() || said.front() != word.front())
    return false;  // as in every form: saves most work
  if (said == word) return true;
  const bool verb = word.back() == '*';
  if (verb && !may_be_form_of(said, word.substr(0, word.size() - 1))) return false;
  if (!verb && (said.size() >= word.size() || !may_lose_apostrophe(word))) return false;
  const auto forms = forms_of(word);
  return std::find(forms.begin(), forms.end(), said) != forms.end();
}

/// "the hop's back": hop is. Empty where a word does not end so.
std::string_view without_s(std::string_view said) {
  return said.ends_with("'s") ? said.substr(0, said.size() - 2) : std::string_view();
}

bool is_break(const Token& token) {
  return token.kind == Token::Kind::comma || token.kind == Token::Kind::stop;
}

bool says(const Token& token, const std::string& word) {
  return is_form_of(token.text, word) || is_form_of(without_s(token.text), word);
}

/// True where the words stand at the start of the tokens, side by side.
bool stand(const std::vector<std::string>& words, std::span<const Token> tokens) {
  if (words.size() > tokens.size()) return false;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (is_break(tokens[i]) || !says(tokens[i], words[i])) return false;
  }
  return true;
}

/// "not turning" may be "not really turning", but "not the turn" is of something else.
bool is_article(const Token& token) {
  constexpr std::array<std::string_view, 8> kArticles{"a",   "an",   "the",  "my",
                                                      "our", "your", "this", "that"};
  return std::find(kArticles.begin(), kArticles.end(), token.text) != kArticles.end();
}

/// Only what speaks of the kart may be spread over a sentence.
bool may_have_gaps(const Phrase& phrase) {
  using Means = Phrase::Means;
  return !phrase.solid && (phrase.means == Means::symptom || phrase.means == Means::fact ||
                           phrase.means == Means::laps || phrase.means == Means::praise);
}

/// Words that may stand inside a phrase, where they are alone in theirs.
bool is_light_phrase(const Phrase& phrase) {
  using Means = Phrase::Means;
  return phrase.means == Means::severity || phrase.means == Means::confidence;
}

}  // namespace

std::vector<std::string> forms_of(std::string_view word) {
  if (word.ends_with('*')) return verb_forms(word.substr(0, word.size() - 1));
  std::vector<std::string> forms{std::string(word)};
  if (may_lose_apostrophe(word)) {
    forms.emplace_back(word);
    std::erase(forms.back(), '\'');
  }
  return forms;
}

Vocabulary::Vocabulary(const std::vector<Phrase>& phrases, const std::vector<WordClass>& classes,
                       const std::vector<std::string>& light)
    : phrases_(phrases) {
  for (const std::string& word : light) {
    for (std::string& form : forms_of(word)) light_.insert(std::move(form));
  }
  for (const WordClass& each : classes) add_class(each);
  for (const Phrase& phrase : phrases) add(phrase);
}

std::size_t Vocabulary::Match::own() const {
  std::size_t own = words;
  for (const Gap& gap : gaps) own -= gap.count;
  return own;
}

const Phrase* Vocabulary::any_that_means(Phrase::Means means, std::string_view id) const {
  const auto found = std::find_if(phrases_.begin(), phrases_.end(), [&](const Phrase& phrase) {
    return phrase.means == means && phrase.id == id;
  });
  return found == phrases_.end() ? nullptr : &*found;
}

const std::vector<std::vector<std::string>>* Vocabulary::class_of(const std::string& word) const {
  if (!is_class(word)) return nullptr;
  const auto found = classes_.find(word);
  return found == classes_.end() ? nullptr : &found->second;
}

void Vocabulary::add_class(const WordClass& added) {
  const std::string id = '<' + added.id + '>';
  auto& words = classes_[id];
  for (const std::vector<std::string>& one : added.words)
    words.push_back(all_plain(one) ? one : cut(one));
  // The longest first, so that "front end" is not left at "front".
  std::stable_sort(words.begin(), words.end(),
                   [](const auto& a, const auto& b) { return a.size() > b.size(); });
  class_ids_.push_back(id);
}

std::string_view Vocabulary::text_of(Wording wording) const {
  const std::string_view from =
      std::string_view(phrases_[wording.phrase].wordings).substr(wording.from);
  return from.substr(0, from.find('\n'));
}

/// As the tokenizer cuts them. Of the thousands of wordings few are ever asked for.
const std::vector<std::string>& Vocabulary::words_of(std::string_view wording) const {
  const auto [entry, fresh] = cut_.try_emplace(wording.data());
  if (fresh) entry->second = words_in(wording);
  if (fresh && !all_plain(entry->second)) entry->second = cut(entry->second);
  return entry->second;
}

/// The first of these.
std::string_view Vocabulary::first_word_of(std::string_view wording) const {
  const std::string_view first = wording.substr(0, wording.find(' '));
  if (is_plain_word(first)) return first;
  const std::vector<std::string>& words = words_of(wording);
  return words.empty() ? std::string_view() : words.front();
}

Vocabulary::Pattern Vocabulary::pattern_of(Wording wording) const {
  const std::string_view text = text_of(wording);
  return {&phrases_[wording.phrase], text, &words_of(text)};
}

void Vocabulary::add(const Phrase& phrase) {
  const std::string_view lines = phrase.wordings;
  const auto number = static_cast<std::uint32_t>(&phrase - phrases_.data());
  for (std::size_t from = 0; from < lines.size();) {
    const std::size_t end = std::min(lines.find('\n', from), lines.size());
    shelve({number, static_cast<std::uint32_t>(from)}, lines.substr(from, end - from));
    from = end + 1;
  }
  if (phrase.means == Phrase::Means::negation || is_light_phrase(phrase)) note_small_words(phrase);
}

void Vocabulary::shelve(Wording wording, std::string_view text) {
  char letter = text.empty() ? ' ' : text.front();
  // However it is cut, a word that begins with a letter still does.
  if (!is_small_letter(letter)) {
    const std::string_view first = first_word_of(text);
    if (is_class(first)) return by_class_[std::string(first)].push_back(wording);
    if (first.empty()) return;
    letter = first.front();
  }
  by_letter_[static_cast<unsigned char>(letter)].push_back(wording);
}

void Vocabulary::note_small_words(const Phrase& phrase) {
  auto& words = phrase.means == Phrase::Means::negation ? denials_ : light_;
  for (const std::string_view wording : wordings_of(phrase)) {
    if (wording.find(' ') != std::string_view::npos) continue;
    for (std::string& form : forms_of(wording)) words.insert(std::move(form));
  }
}

const Vocabulary::Starts& Vocabulary::starts_of(std::string_view word) const {
  constexpr std::size_t kMostRemembered = 10'000;
  const std::string heard(word);
  const auto known = starts_.find(heard);
  if (known != starts_.end()) return known->second;
  if (starts_.size() >= kMostRemembered) starts_.clear();
  return starts_.emplace(heard, gather(word)).first->second;
}

Vocabulary::Starts Vocabulary::gather(std::string_view word) const {
  Starts starts;
  if (word.empty()) return starts;
  for (const Wording wording : by_letter_[static_cast<unsigned char>(word.front())]) {
    if (is_form_of(word, first_word_of(text_of(wording))))
      starts.patterns.push_back(pattern_of(wording));
  }
  for (const std::string& id : class_ids_) {
    if (!by_class_.contains(id)) continue;
    const auto& alternatives = classes_.at(id);
    const bool stands = std::any_of(
        alternatives.begin(), alternatives.end(),
        [&](const auto& words) { return !words.empty() && is_form_of(word, words.front()); });
    if (stands) starts.classes.push_back(&patterns_of(id));
  }
  return starts;
}

/// Of the wordings that begin with a class.
const Vocabulary::Patterns& Vocabulary::patterns_of(const std::string& id) const {
  Patterns& patterns = class_patterns_[id];
  if (!patterns.empty()) return patterns;
  for (const Wording wording : by_class_.at(id)) patterns.push_back(pattern_of(wording));
  return patterns;
}

std::unordered_set<std::string> Vocabulary::all_words() const {
  std::unordered_set<std::string> all;
  const auto take = [&](const std::vector<std::string>& words) {
    for (const std::string& word : words) {
      if (word.empty() || is_class(word)) continue;
      for (std::string& form : forms_of(word)) all.insert(std::move(form));
    }
  };
  for (const Wordings& wordings : by_letter_) {
    for (const Wording wording : wordings) take(words_of(text_of(wording)));
  }
  for (const auto& [id, wordings] : by_class_) {
    for (const Wording wording : wordings) take(words_of(text_of(wording)));
  }
  for (const auto& [id, alternatives] : classes_) {
    for (const std::vector<std::string>& words : alternatives) take(words);
  }
  return all;
}

bool Vocabulary::is_light(const Token& token) const {
  return !is_break(token) && light_.contains(token.text);
}

bool Vocabulary::is_denial(const Token& token) const { return denials_.contains(token.text); }

/// A word of a phrase that denies: "no", "doesn't", or a class that has such words.
bool Vocabulary::is_no(const std::string& word) const {
  const auto* const alternatives = class_of(word);
  if (alternatives == nullptr) return denials_.contains(word);
  return std::any_of(alternatives->begin(), alternatives->end(),
                     [&](const auto& words) { return denials_.contains(words.front()); });
}

/// "The steering is not heavy" denies a heavy wheel; no other kind of phrase, and none that denies
/// by itself.
bool Vocabulary::may_be_denied(const Pattern& pattern) const {
  return pattern.phrase->means == Phrase::Means::symptom && !says_no(pattern.wording);
}

bool Vocabulary::says_no(std::string_view wording) const {
  const std::vector<std::string> words = words_in(wording);
  return std::any_of(words.begin(), words.end(),
                     [&](const std::string& word) { return is_no(word); });
}

/// Lays the words of a pattern from `word` on over the tokens from fit.end on. At most so many
/// light words in each gap, and the fewest that will do.
bool Vocabulary::fits(const Pattern& pattern, std::size_t word, std::span<const Token> tokens,
                      Fit& fit) const {
  constexpr std::size_t kMostLight = 4;
  const std::vector<std::string>& words = *pattern.words;
  if (word == words.size()) return true;
  const std::size_t most = word > 0 && may_have_gaps(*pattern.phrase) ? kMostLight : 0;
  bool denies = false;
  for (std::size_t light = 0; light <= most; ++light) {
    const std::size_t at = fit.end + light;
    if (at >= tokens.size()) return false;
    if (light > 0 && is_no(words[word - 1]) && is_article(tokens[at - 1])) return false;
    if (light > 0 && !is_light(tokens[at - 1])) {
      if (denies || !is_denial(tokens[at - 1]) || !may_be_denied(pattern)) return false;
      denies = true;
    }
    Fit next{at, fit.gaps};
    if (light > 0) next.gaps.push_back({fit.end, light, is_no(words[word - 1]), denies});
    if (!fits_here(pattern, word, tokens, next)) continue;
    fit = std::move(next);
    return true;
  }
  return false;
}

bool Vocabulary::fits_here(const Pattern& pattern, std::size_t word, std::span<const Token> tokens,
                           Fit& fit) const {
  const std::string& wanted = (*pattern.words)[word];
  const auto goes_on = [&](std::size_t taken) {
    Fit next{fit.end + taken, fit.gaps};
    if (!fits(pattern, word + 1, tokens, next)) return false;
    fit = std::move(next);
    return true;
  };
  if (!is_class(wanted)) {
    const Token& token = tokens[fit.end];
    // The index answers for the first word.
    return (word == 0 || (!is_break(token) && says(token, wanted))) && goes_on(1);
  }
  const auto* const alternatives = class_of(wanted);
  return alternatives != nullptr &&
         std::any_of(alternatives->begin(), alternatives->end(), [&](const auto& words) {
           return stand(words, tokens.subspan(fit.end)) && goes_on(words.size());
         });
}

void Vocabulary::find_from(std::string_view first, std::span<const Token> tokens,
                           Match& best) const {
  const Starts& starts = starts_of(first);
  find_among(starts.patterns, tokens, best);
  for (const Patterns* of_class : starts.classes) find_among(*of_class, tokens, best);
}

void Vocabulary::find_among(const Patterns& patterns, std::span<const Token> tokens,
                            Match& best) const {
  const auto goes_before = [](const Match& a, const Match& b) {
    if (b.phrase == nullptr || a.own() != b.own()) return b.phrase == nullptr || a.own() > b.own();
    return std::tie(a.words, a.phrase->means, a.phrase->id) <
           std::tie(b.words, b.phrase->means, b.phrase->id);
  };
  for (const Pattern& pattern : patterns) {
    Fit fit;
    if (!fits(pattern, 0, tokens, fit)) continue;
    Match match{pattern.phrase, pattern.wording, fit.end, std::move(fit.gaps)};
    if (goes_before(match, best)) best = std::move(match);
  }
}

Vocabulary::Match Vocabulary::longest(std::span<const Token> tokens) const {
  Match best;
  if (tokens.empty() || is_break(tokens.front())) return best;
  find_from(tokens.front().text, tokens, best);
  if (best.phrase == nullptr) find_from(without_s(tokens.front().text), tokens, best);
  return best;
}

}  // namespace kartwright
