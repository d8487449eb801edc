#include "tests/fuzz/mutate.h"

#include <algorithm>
#include <array>
#include <map>
#include <random>
#include <set>

#include "cli/exchange_csv.h"
#include "engine/knowledge/built_in.h"
#include "tests/fuzz/oracle.h"

namespace kartwright::fuzz {
namespace {

constexpr std::size_t kLongestWord = 40;

constexpr std::array kNumbers{
    "0",     "-0",     "1",     "-1",     "2",      "3",    "10",      "0.5",       "1e9",  "-1e9",
    "1e300", "1e-300", "1e308", "5e-324", "65536",  "4095", "999999",  "010",       "0x10", ".5",
    "1.",    "1/2",    "9e99",  "-9e99",  "100000", "nan",  "1000001", "2147483648"};
constexpr std::array kMarks{": ",  ", ",  "[",       "]",       "{",    "}",      "\"",   "'",
                            "#",   "- ",  "\n",      "\n  ",    "\t",   " ",      "±",    "½",
                            "’",   "°",   "\\u00e9", "e\u0301", "@",    "=",      "%",    "mm",
                            "in",  "psi", "kg",      "\r\n",    "\x7f", "&a ",    "*a ",  "!",
                            "|\n", ">",   "? ",      "---",     ";",    "\u202e", "\xff", "\\"};

using Words = std::vector<std::string>;

void gather(const Node& node, std::set<std::string>& words) {
  const auto add = [&](const std::string& text) {
    if (!text.empty() && text.size() <= kLongestWord) words.insert(text);
  };
  add(node.text);
  for (const Node& item : node.items) gather(item, words);
  for (const Entry& entry : node.entries) {
    add(entry.key);
    gather(entry.value, words);
  }
}

/// Letters, digits and what stands inside of names and numbers.
bool in_a_word(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return std::isalnum(byte) != 0 || c == '-' || c == '_' || c == '.' || c == '+' || byte >= 0x80;
}

void gather_tokens(std::string_view text, std::set<std::string>& words) {
  std::string word;
  for (const char c : text) {
    if (in_a_word(c)) {
      word += c;
      continue;
    }
    if (!word.empty() && word.size() <= kLongestWord) words.insert(word);
    word.clear();
  }
}

Words made_words(std::string_view target) {
  std::set<std::string> words;
  for (const Document& document : built_in_rules()) gather(document.root, words);
  if (target == "laps")
    words = {"lap", "time", "group", "kart", "27", "1:02.417", "31.42", "31,42"};
  if (target == "log") {
    gather_tokens(cli::csv_head(), words);
    gather_tokens(
        "set delete drop version text blob whole real nothing run kart setting lap report "
        "fact note change verdict advice count runs laps schema kartwright/log/1 ",
        words);
  }
  if (target == "kart" || target == "debrief" || target == "line")
    gather_tokens(start_kart_file(shipped_rules(), true) + "\n", words);
  if (target == "debrief" || target == "line") {
    gather_tokens(
        "track said reports facts laps minutes hours kart title because symptom phase "
        "severity confidence side when words denied praise corners expect ",
        words);
  }
  return {words.begin(), words.end()};
}

/// Where the words of a text begin and how long they are.
struct TextPart {
  std::size_t at = 0, length = 0;
};

std::vector<TextPart> parts_of(std::string_view text, bool (*inside)(char)) {
  std::vector<TextPart> parts;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t from = i;
    while (i < text.size() && inside(text[i])) ++i;
    if (i > from) parts.push_back({from, i - from});
    ++i;
  }
  return parts;
}

bool in_a_line(char c) { return c != '\n'; }

/// One text under the knife.
class Surgeon {
 public:
  Surgeon(std::string& text, const Words& words, std::uint32_t seed)
      : text_(text), words_(words), lots_(seed + 1) {}

  void change() {
    switch (lot(8)) {
      case 0:
        return exchange_word(words_[lot(words_.size())]);
      case 1:
        return exchange_word(kNumbers.at(lot(kNumbers.size())));
      case 2:
        return exchange_word(some_word());
      case 3:
        return insert(words_[lot(words_.size())]);
      case 4:
        return insert(kMarks.at(lot(kMarks.size())));
      case 5:
        return copy_line();
      case 6:
        return drop_line();
      default:
        return repeat();
    }
  }

  std::size_t lot(std::size_t below) { return below == 0 ? 0 : lots_() % below; }

 private:
  std::string some_word() {
    const auto parts = parts_of(text_, in_a_word);
    if (parts.empty()) return {};
    const TextPart part = parts[lot(parts.size())];
    return text_.substr(part.at, part.length);
  }

  void exchange_word(const std::string& word) {
    const auto parts = parts_of(text_, in_a_word);
    if (parts.empty()) return insert(word);
    const TextPart part = parts[lot(parts.size())];
    text_.replace(part.at, part.length, word);
  }

  void insert(const std::string& word) { text_.insert(lot(text_.size() + 1), word); }

  void copy_line() {
    const auto lines = parts_of(text_, in_a_line);
    if (lines.empty()) return;
    const TextPart from = lines[lot(lines.size())];
    const TextPart to = lines[lot(lines.size())];
    text_.insert(to.at, text_.substr(from.at, from.length) + "\n");
  }

  void drop_line() {
    const auto lines = parts_of(text_, in_a_line);
    if (lines.empty()) return;
    const TextPart line = lines[lot(lines.size())];
    text_.erase(line.at, line.length + 1);
  }

  /// A stretch many times over: what takes the square of its length to read shows here.
  void repeat() {
    constexpr std::size_t kLongestStretch = 12, kMost = 300;
    if (text_.empty()) return;
    const std::size_t at = lot(text_.size());
    const std::string stretch = text_.substr(at, 1 + lot(kLongestStretch));
    std::string many;
    for (std::size_t n = lot(kMost); n > 0; --n) many += stretch;
    text_.insert(at, many);
  }

  std::string& text_;
  const Words& words_;
  std::minstd_rand lots_;
};

}  // namespace

const std::vector<std::string>& words_for(std::string_view target) {
  static std::map<std::string, Words, std::less<>> known;
  auto found = known.find(target);
  if (found == known.end()) found = known.emplace(target, made_words(target)).first;
  return found->second;
}

std::string mutated(std::string text, std::string_view target, std::uint32_t seed) {
  Surgeon surgeon(text, words_for(target), seed);
  for (std::size_t n = 1 + surgeon.lot(4); n > 0; --n) surgeon.change();
  return text;
}

}  // namespace kartwright::fuzz
