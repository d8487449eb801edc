#include "engine/advice/answer_reader.h"

#include <algorithm>
#include <array>
#include <sstream>
#include <utility>
#include <vector>

#include "engine/document/diagnostic.h"

namespace kartwright {
namespace {

using Means = Phrase::Means;
using Says = Understood::Kind;

constexpr std::array<std::string_view, 3> kHelp{"", "help", "h"};
constexpr std::array<std::string_view, 4> kBack{"b", "back", "go back", "undo"};
constexpr std::array<std::string_view, 10> kDone{
    "d", "done", "stop", "end", "finish", "finished", "that's all", "thats all", "quit", "q"};
constexpr std::array<std::string_view, 25> kSkip{"maybe",
                                                 "perhaps",
                                                 "possibly",
                                                 "don't remember",
                                                 "dont remember",
                                                 "can't remember",
                                                 "cant remember",
                                                 "no clue",
                                                 "not known",
                                                 "unknown",
                                                 "?",
                                                 "skip",
                                                 "pass",
                                                 "don't know",
                                                 "dont know",
                                                 "i don't know",
                                                 "i dont know",
                                                 "dunno",
                                                 "no idea",
                                                 "not sure",
                                                 "can't say",
                                                 "cant say",
                                                 "can't tell",
                                                 "cant tell",
                                                 "didn't look"};
constexpr std::array<std::string_view, 6> kYes{"yes", "y", "yeah", "yep", "yup", "aye"};
constexpr std::array<std::string_view, 8> kNo{"no",   "n",       "nope", "nah",
                                              "none", "neither", "fine", "nothing"};
/// What may follow a "no" that stands for itself: "no it hops".
constexpr std::array<std::string_view, 9> kSpeaksOn{"it",   "its", "it's",   "but", "just",
                                                    "only", "the", "rather", "more"};

bool is_one_of(std::string_view text, const auto& words) {
  return std::find(words.begin(), words.end(), text) != words.end();
}

/// Lower case, without blanks around it and stops behind it.
std::string folded(std::string_view text) {
  const std::string_view blanks = " \t\r\n";
  const std::size_t from = std::min(text.find_first_not_of(blanks), text.size());
  text.remove_prefix(from);
  while (!text.empty() && (blanks.find(text.back()) < blanks.size() ||
                           (text.size() > 1 && (text.back() == '.' || text.back() == '!'))))
    text.remove_suffix(1);
  std::string out(text);
  for (char& c : out) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return out;
}

/// Without what people put around a short answer: "no idea mate", "i really don't remember".
std::string bare(const std::string& text) {
  constexpr std::array<std::string_view, 10> kAround{"i",  "mate", "sorry",    "honestly", "really",
                                                     "uh", "um",   "actually", "well",     "er"};
  std::string out;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    while (!word.empty() && (word.back() == ',' || word.back() == '.')) word.pop_back();
    if (!word.empty() && !is_one_of(word, kAround)) out += (out.empty() ? "" : " ") + word;
  }
  return out;
}

/// What is no answer to a question of yes or no, though it looks like one: an amount below zero,
/// the word of somebody who wants out.
bool is_no_answer(const std::string& text) {
  const bool below_zero = text.size() > 1 && text[0] == '-' && text[1] >= '0' && text[1] <= '9';
  return below_zero || text == "exit";
}

/// "not that I noticed": a no, said of what was looked out for; of a text made bare.
bool says_not_noticed(const std::string& text) {
  constexpr std::array<std::string_view, 9> kNoticed{"noticed",    "know",         "know of",
                                                     "felt",       "saw",          "could feel",
                                                     "could tell", "i've noticed", "ive noticed"};
  constexpr std::string_view kStart = "not that ";
  return text.starts_with(kStart) &&
         is_one_of(std::string_view(text).substr(kStart.size()), kNoticed);
}

Understood no_answer(const std::string& text) {
  Understood out;
  out.heard.not_understood.push_back({.words = text});
  return out;
}

std::optional<Says> command_in(const std::string& text) {
  if (is_one_of(text, kHelp)) return Says::help;
  if (is_one_of(text, kBack)) return Says::back;
  if (is_one_of(text, kDone)) return Says::done;
  if (is_one_of(text, kSkip) || is_one_of(bare(text), kSkip)) return Says::skip;
  return std::nullopt;
}

bool is_break(const Token& token) {
  return token.kind == Token::Kind::comma || token.kind == Token::Kind::stop;
}

std::optional<int> amount_in(const std::string& text) {
  const bool one = text.size() == 1 && text[0] >= '0' && text[0] <= '3';
  return one ? std::optional(text[0] - '0') : std::nullopt;
}

/// A choice said first, with its amount where that hangs on it: `p3`.
struct Head {
  const Choice* choice = nullptr;
  std::optional<int> severity = {};
  bool yes = false;  ///< a yes to a question of two ends, which has no such choice
};

Head head_of(const std::string& word, const Asking& asking) {
  const std::vector<Choice>& choices = asking.choices;
  const bool ends = asking.about == Asking::About::both_ends;
  std::string name = word;
  Head head;
  if (name.size() > 1 && amount_in(name.substr(name.size() - 1))) {
    head.severity = amount_in(name.substr(name.size() - 1));
    name.pop_back();
  }
  const auto found = std::find_if(choices.begin(), choices.end(), [&](const Choice& choice) {
    return name == choice.key || name == choice.label;
  });
  if (found != choices.end()) head.choice = &*found;
  if (head.choice == nullptr && is_one_of(name, kNo)) head.choice = &choices.back();
  if (head.choice == nullptr && is_one_of(name, kYes)) {
    head.choice = ends ? nullptr : &choices.front();
    head.yes = ends;
  }
  return head;
}

bool is_about(const Report& report, const Asking& asking) {
  const Symptom& symptom = *asking.question.symptom;
  return report.symptom == symptom.id || report.symptom == symptom.against;
}

Understood heard(Report report) {
  Understood out{.kind = Says::answer};
  out.heard.reports.push_back(std::move(report));
  return out;
}

Understood heard(StatedFact fact, const Asking& asking) {
  Understood out{.kind = Says::answer};
  if (asking.about == Asking::About::track)
    out.track = fact.value;
  else
    out.heard.facts.push_back(std::move(fact));
  return out;
}

bool stands_in(std::span<const Token> tokens, const std::string& words) {
  const std::vector<Token> wanted = tokens_of(words);
  return std::search(tokens.begin(), tokens.end(), wanted.begin(), wanted.end(),
                     [](const Token& a, const Token& b) { return a.text == b.text; }) !=
         tokens.end();
}

/// The number of a value, or the start of its word where that is the start of no other.
const Choice* value_by_key(const std::string& text, const Asking& asking) {
  const Choice* found = nullptr;
  for (const Choice& choice : asking.choices) {
    if (text == choice.key || text == choice.value || text == choice.label) return &choice;
    const bool starts = choice.value.starts_with(text) || choice.label.starts_with(text);
    if (starts && found != nullptr) return nullptr;
    if (starts) found = &choice;
  }
  return found;
}

void suggest_values(const std::string& text, const Asking& asking, Understood& out) {
  std::vector<std::string> known;
  for (const Choice& choice : asking.choices) known.push_back(choice.label);
  const std::string near = nearest_name(text, known);
  if (!near.empty() && !out.heard.not_understood.empty())
    out.heard.not_understood.front().nearest = {near};
}

}  // namespace

bool AnswerReader::Small::says_something() const {
  return denied || praised || severity || phase || side || when;
}

AnswerReader::AnswerReader(const Pack& pack)
    : pack_(pack),
      vocabulary_(pack.phrases, pack.word_classes, pack.light_words),
      spelling_(vocabulary_, pack.ordinary_words),
      ear_(pack) {}

Understood AnswerReader::read(std::string_view text, const Asking& asking) {
  const std::string typed = folded(text);
  if (const auto command = command_in(typed)) return {.kind = *command};
  switch (asking.about) {
    case Asking::About::words:
      return sentence(text, asking);
    case Asking::About::track:
    case Asking::About::fact:
      return about_value(text, asking);
    case Asking::About::both_ends:
    case Asking::About::symptom:
      break;
  }
  if (is_no_answer(typed)) return no_answer(typed);
  return about_symptom(says_not_noticed(bare(typed)) ? "no" : text, asking);
}

void AnswerReader::take(const Vocabulary::Match& match, Small& small) const {
  const Phrase* phrase = match.phrase;
  if (phrase == nullptr) {
    small.only = false;
    return;
  }
  switch (phrase->means) {
    case Means::severity:
      if (!small.severity) small.severity = amount_in(phrase->id);
      return;
    case Means::phase:
      small.phase = phase_named(phrase->id);
      return;
    case Means::side:
      small.side = side_named(phrase->id);
      return;
    case Means::when:
      small.when = when_named(phrase->id);
      return;
    case Means::confidence:
      small.confidence = confidence_named(phrase->id);
      return;
    case Means::negation:
      small.denied = true;
      return;
    case Means::praise:
      small.praised = true;
      return;
    case Means::filler:
      return;
    default:
      small.only = false;
  }
}

AnswerReader::Small AnswerReader::small(std::span<const Token> tokens) const {
  Small out;
  bool yes = false, no = false;
  while (!tokens.empty() && out.only) {
    const std::string& text = tokens.front().text;
    std::size_t used = 1;
    if (const auto amount = amount_in(text)) {
      out.only = !out.severity || out.severity == amount;
      out.severity = *amount;
    } else if (!is_break(tokens.front()) && !is_one_of(text, kNo) && !is_one_of(text, kYes)) {
      const Vocabulary::Match match = vocabulary_.longest(tokens);
      take(match, out);
      used = std::max<std::size_t>(1, match.words);
    } else if (is_one_of(text, kNo)) {
      no = out.denied = true;
    } else if (is_one_of(text, kYes)) {
      yes = true;
    }
    tokens = tokens.subspan(used);
  }
  out.only = out.only && !(yes && no);  // "one lap yes one lap no" is neither
  return out;
}

bool AnswerReader::says_everywhere(std::string_view text) const {
  const std::vector<Token> tokens = tokens_of(text);
  std::span<const Token> left(tokens);
  while (!left.empty()) {
    const Vocabulary::Match match = vocabulary_.longest(left);
    const bool found = match.phrase != nullptr && match.phrase->means == Means::phase &&
                       match.phrase->id == name_of(Phase::any);
    if (found) return true;
    left = left.subspan(std::max<std::size_t>(1, match.words));
  }
  return false;
}

Understood AnswerReader::sentence(std::string_view text, const Asking& asking) {
  Understood out{.heard = ear_.hear(text)};
  const Heard& said = out.heard;
  const Phase phase = asking.question.phase;
  if (phase != Phase::any && !says_everywhere(text)) {
    for (Report& report : out.heard.reports) {
      const Symptom& symptom = *pack_.symptom(report.symptom);
      const std::vector<Phase>& felt = symptom.phases;
      const bool there = std::find(felt.begin(), felt.end(), phase) != felt.end();
      if (report.phase == Phase::any && there && !report.from_praise) report.phase = phase;
    }
  }
  const bool any = !said.reports.empty() || !said.facts.empty() || !said.praise.empty();
  out.kind = any ? Says::answer : Says::nothing;
  return out;
}

/// A yes or a no with more behind it: "no, it pushes". What speaks of the same thing counts.
Understood AnswerReader::yes_or_no(std::string_view text, bool yes, std::size_t from,
                                   const Asking& asking) {
  Understood out = sentence(text.substr(from), asking);
  std::vector<Report>& reports = out.heard.reports;
  const bool settled = std::any_of(reports.begin(), reports.end(), [&](const Report& report) {
    return is_about(report, asking) && !report.from_praise;
  });
  if (settled) return out;
  Report report{.symptom = asking.question.symptom->id, .phase = asking.question.phase};
  if (!yes) report.severity = 0;
  reports.insert(reports.begin(), std::move(report));
  out.kind = Says::answer;
  return out;
}

Understood AnswerReader::about_symptom(std::string_view text, const Asking& asking) {
  std::vector<Token> tokens = tokens_of(text);
  spelling_.mend(tokens);
  if (tokens.empty()) return sentence(text, asking);
  const bool ends = asking.about == Asking::About::both_ends;
  const auto report_of = [&](const std::string& symptom, const Small& small, int severity) {
    return Report{.symptom = symptom,
                  .phase = small.phase.value_or(asking.question.phase),
                  .severity = severity,
                  .confidence = small.confidence.value_or(Confidence::fair),
                  .side = small.side,
                  .when = small.when};
  };
  const std::string& asked = asking.question.symptom->id;
  const Head head = head_of(tokens.front().text, asking);
  const bool named = head.choice != nullptr && vocabulary_.longest(tokens).words <= 1;
  const Small rest = small(std::span<const Token>(tokens).subspan(named || head.yes ? 1 : 0));
  const int amount = head.severity.value_or(rest.severity.value_or(2));
  if (head.yes && rest.only) return {.kind = Says::which};
  if (named && rest.only) {
    const bool no = head.choice->value.empty();
    if (no && !head.severity && !rest.severity) return heard(report_of(asked, rest, 0));
    if (!no && !rest.denied) return heard(report_of(head.choice->value, rest, amount));
  }
  if (!named && !head.yes && rest.only && rest.says_something()) {
    if (rest.denied || rest.praised || amount == 0) return heard(report_of(asked, rest, 0));
    return ends ? Understood{.kind = Says::which} : heard(report_of(asked, rest, amount));
  }
  const bool speaks_on =
      tokens.size() > 1 && (is_break(tokens[1]) || is_one_of(tokens[1].text, kSpeaksOn));
  const bool no = named && head.choice->value.empty();
  const bool takes_itself_back = rest.only && rest.denied;
  if (named && ((no && speaks_on) || (!no && !ends && !takes_itself_back)))
    return yes_or_no(text, !no, tokens[1].at.from, asking);
  return sentence(text, asking);
}

const Choice* AnswerReader::value_named(std::span<const Token> tokens, const Asking& asking) const {
  const Choice* found = nullptr;
  for (const Choice& choice : asking.choices) {
    if (!stands_in(tokens, choice.value) && !stands_in(tokens, choice.label)) continue;
    if (found != nullptr) return nullptr;
    found = &choice;
  }
  while (!tokens.empty()) {
    const Vocabulary::Match match = vocabulary_.longest(tokens);
    if (match.phrase != nullptr && match.phrase->means == Means::negation) return nullptr;
    tokens = tokens.subspan(std::max<std::size_t>(1, match.words));
  }
  return found;
}

Understood AnswerReader::about_value(std::string_view text, const Asking& asking) {
  const std::string typed = folded(text);
  const std::string& fact = asking.question.fact->id;
  if (const Choice* choice = value_by_key(typed, asking))
    return heard(StatedFact{.fact = fact, .value = choice->value}, asking);
  Understood said = sentence(text, asking);
  const auto states = [&](const StatedFact& each) { return each.fact == fact; };
  if (std::any_of(said.heard.facts.begin(), said.heard.facts.end(), states)) return said;
  std::vector<Token> tokens = tokens_of(text);
  spelling_.mend(tokens);
  if (const Choice* choice = value_named(tokens, asking)) {
    Understood value = heard(StatedFact{.fact = fact, .value = choice->value}, asking);
    if (said.kind == Says::nothing) return value;
    said.track = value.track;
    for (StatedFact& each : value.heard.facts) said.heard.facts.push_back(std::move(each));
    return said;
  }
  if (said.kind == Says::nothing) suggest_values(typed, asking, said);
  return said;
}

}  // namespace kartwright
