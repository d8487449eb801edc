#include <fmt/format.h>

#include "cli/page.h"
#include "cli/papers/papers.h"

namespace kartwright::cli {
namespace {

constexpr const char* kFunctions = R"fish(# Completions of kartwright for fish.
# Written with the manual from one description.

function __kartwright_command
    set -l words (commandline -opc)
    set -e words[1]
    for word in $words
        if not string match -q -- '-*' $word
            echo $word
            return
        end
    end
end

function __kartwright_in
    test "$(__kartwright_command)" = "$argv[1]"
end

complete -c kartwright -f
)fish";

/// fish knows two escapes in single quotes.
std::string fish_quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text) {
    if (c == '\'' || c == '\\') out += '\\';
    out += c;
  }
  return out + "'";
}

std::string value_of(const OptionPage& option) {
  const std::string words = " -a " + fish_quoted(joined(option.words, " "));
  switch (option.kind) {
    case ValueKind::none:
      return "";
    case ValueKind::free:
      return " -x";
    case ValueKind::file:
      return " -r -F";
    case ValueKind::folder:
      return " -x -a '(__fish_complete_directories)'";
    case ValueKind::word_or_file:
      return " -r -F" + words;
    default:
      return " -x" + words;
  }
}

void add_options(std::string& out, const std::string& command,
                 const std::vector<OptionPage>& options) {
  for (const OptionPage& option : options) {
    out += "complete -c kartwright -n " + fish_quoted("__kartwright_in " + command);
    for (const std::string& name : option.names)
      out += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
    out += value_of(option) + " -d " + fish_quoted(option.help) + "\n";
  }
}

void add_operands(std::string& out, const CommandPage& command) {
  for (const OptionPage& operand : command.operands) {
    out += fmt::format("complete -c kartwright -n {} -a {}\n",
                       fish_quoted("__kartwright_in " + command.name),
                       fish_quoted(joined(operand.words, " ")));
    if (operand.value.find('|') != std::string::npos)
      out += fmt::format("complete -c kartwright -n {} -F\n",
                         fish_quoted("__kartwright_in " + command.name));
  }
}

}  // namespace

std::string fish_completion(const ProgramPage& program) {
  std::string out = kFunctions;
  for (const CommandPage& command : program.commands) {
    out +=
        fmt::format("complete -c kartwright -n {} -a {} -d {}\n", fish_quoted("__kartwright_in ''"),
                    command.name, fish_quoted(command.summary));
  }
  add_options(out, "''", program.options);
  for (const CommandPage& command : program.commands) {
    out += "\n";
    add_operands(out, command);
    add_options(out, command.name, command.options);
  }
  return out;
}

}  // namespace kartwright::cli
