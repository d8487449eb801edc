// option_values.h - what may stand behind an option, said once: the parser's checks, the help, the
// manual and the completions of shells all go by it.
//
// The description of an option carries it as the name of its type: `FILE` and `DIR` for what a
// shell completes by itself, words with `|` between them for a small vocabulary, and a name of this
// list for words that the rules know. Any other name is free text.

#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace kartwright::cli {

namespace value {

inline constexpr const char* kFile = "FILE";
inline constexpr const char* kFolder = "DIR";

// Words of the rules; rule_words.h knows them.
inline constexpr const char* kTrack = "TRACK";  ///< a track state, or `unknown`
inline constexpr const char* kState = "STATE";  ///< a track state
inline constexpr const char* kDay = "NOW";      ///< a track state of a day's stages
inline constexpr const char* kLaps = "LAPS";    ///< what the clock says
inline constexpr const char* kLevel = "LEVEL";  ///< of the drill
inline constexpr const char* kCase = "CASE";    ///< of the drill, or a file
inline constexpr const char* kCheck = "NAME";   ///< of a measured check
inline constexpr const char* kTopic = "ID";     ///< whatever can be explained
inline constexpr const char* kSymptom = "REPORT";
inline constexpr const char* kFact = "FACT";
inline constexpr const char* kChange = "CHANGE";  ///< an adjustment and its way, or a rule

inline constexpr std::array<std::string_view, 2> kUnits{"metric", "imperial"};
inline constexpr std::array<std::string_view, 2> kAxles{"front", "rear"};
inline constexpr std::array<std::string_view, 2> kTogether{"2", "3"};
inline constexpr std::array<std::string_view, 2> kThreads{"1", "2"};
inline constexpr std::array<std::string_view, 6> kLogActions{"add",    "list",   "show",
                                                             "export", "import", "verify"};
inline constexpr std::array<std::string_view, 4> kRulesActions{"check", "list", "show", "diff"};

}  // namespace value

/// Words as the name of a type: `metric|imperial`.
template <typename List>
std::string one_of(const List& words) {
  std::string out;
  for (const auto& word : words) {
    if (!out.empty()) out += '|';
    out += word;
  }
  return out;
}

/// The words of such a name; none where it is no vocabulary.
std::vector<std::string> words_in(const std::string& type);

}  // namespace kartwright::cli
