// target.h - what is fuzzed: each target takes any bytes, as a crew might hand them in, and holds
// the program to what it promises of them.
//
// The same sources stand in the fuzzers that clang builds and in the suite `fuzz`, which replays
// every corpus and every former find.

#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace kartwright::fuzz {

/// What became of an input.
enum class Fate {
  refused,  ///< with an error that says where and what
  taken,
};

/// Thrown where the program broke a promise. Whatever else a target throws was never promised.
class Broken : public std::logic_error {
 public:
  using std::logic_error::logic_error;
};

Fate fuzz_kart(std::string_view bytes);     ///< a kart file, read, judged and written back
Fate fuzz_rules(std::string_view bytes);    ///< a rule file on top of the built-in rules
Fate fuzz_debrief(std::string_view bytes);  ///< free words, and the same bytes as a debrief file
Fate fuzz_laps(std::string_view bytes);     ///< a lap file, compared
Fate fuzz_log(std::string_view bytes);      ///< a log, edits of one, or an export to import
Fate fuzz_line(std::string_view bytes);     ///< one line of `advise --batch`

struct Target {
  std::string_view name;
  Fate (*run)(std::string_view bytes);
  std::size_t longest;  ///< bytes that are worth trying
};

/// All of them, by name.
const std::vector<Target>& targets();

}  // namespace kartwright::fuzz
