// command_pages.h - the command line as plain values, walked off the one description that the
// parser reads by (command_line.h). Help, manual and completions are written from them and from
// nothing else.

#pragma once

#include <string>
#include <vector>

#include "engine/knowledge/pack.h"

namespace CLI {  // NOLINT(readability-identifier-naming): the library's
class App;
}

namespace kartwright::cli {

/// What stands behind an option, as far as a shell can help with it.
enum class ValueKind {
  none,          ///< a flag
  free,          ///< only the crew knows
  file,          ///< a file, or `-`
  folder,        ///< a folder
  words,         ///< one of a few
  word_or_file,  ///< one of a few, or a file
  start_of_word  ///< begins with one of a few
};

/// An option, or where it has no names a word without one.
struct OptionPage {
  std::vector<std::string> names = {};  ///< with their dashes, the short one first
  ValueKind kind = ValueKind::none;
  std::string value = {};               ///< as help shows it, `FILE` or `text|json`
  std::vector<std::string> words = {};  ///< those that the kind speaks of
  bool repeats = false;
  bool common = false;  ///< of every command that answers, not of this one alone
  std::string help = {};
};

struct ExamplePage {
  std::string command = {};
  std::string remark = {};  ///< what it does, or empty
};

struct CommandPage {
  std::string name = {};
  std::string group = {};               ///< `in the pits`
  std::string summary = {};             ///< one line
  std::vector<std::string> about = {};  ///< paragraphs of the manual
  std::vector<OptionPage> operands = {};
  std::vector<OptionPage> options = {};  ///< the command's own, then the common ones
  std::vector<ExamplePage> examples = {};
  std::vector<std::string> notes = {};  ///< paragraphs below the examples
};

struct ProgramPage {
  std::string summary = {};
  std::string note = {};
  std::vector<OptionPage> options = {};
  std::vector<std::string> groups = {};    ///< in the order of the commands
  std::vector<CommandPage> commands = {};  ///< group by group
};

/// The pages of everything that `app` declares; words that the rules know are those of `pack`.
ProgramPage command_pages(const ::CLI::App& app, const Pack& pack);

}  // namespace kartwright::cli
