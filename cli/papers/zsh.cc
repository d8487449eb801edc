#include <fmt/format.h>

#include "cli/page.h"
#include "cli/papers/papers.h"

namespace kartwright::cli {
namespace {

/// Text of a specification: its own signs are marked as text.
std::string marked(const std::string& text, std::string_view signs) {
  std::string out;
  for (const char c : text) {
    if (c == '\\' || signs.find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
}

std::string zsh_value(const OptionPage& option) {
  const std::string message = ":" + marked(option.value, ":") + ":";
  const std::string words = "(" + marked(joined(option.words, " "), ":()") + ")";
  switch (option.kind) {
    case ValueKind::none:
      return "";
    case ValueKind::free:
      return message + " ";
    case ValueKind::file:
      return message + "_files";
    case ValueKind::folder:
      return message + "_files -/";
    case ValueKind::word_or_file:
      return message + "{compadd -- " + marked(joined(option.words, " "), ":") + "; _files}";
    case ValueKind::start_of_word:
      return message + "{compadd -S \"\" -- " + marked(joined(option.words, " "), ":") + "}";
    default:
      return message + words;
  }
}

/// `'(-q --quiet)'{-q,--quiet}'[no warnings]'`.
std::string specification(const OptionPage& option) {
  const std::string help = "[" + marked(option.help, "[]") + "]" + zsh_value(option);
  const std::string equals = option.kind == ValueKind::none ? "" : "=";
  if (option.names.size() == 1)
    return shell_quoted((option.repeats ? "*" : "") + option.names.front() + equals + help);
  return shell_quoted("(" + joined(option.names, " ") + ")") + "{" + joined(option.names, ",") +
         "}" + shell_quoted(equals + help);
}

void add_operands(std::string& out, const CommandPage& command) {
  for (const OptionPage& operand : command.operands) {
    const bool verb = operand.value.find('|') != std::string::npos;
    out += " \\\n        " + shell_quoted((verb ? "1" : "*") + zsh_value(operand));
    if (verb) out += " \\\n        '*:file:_files'";
  }
}

}  // namespace

std::string zsh_completion(const ProgramPage& program) {
  std::string out =
      "#compdef kartwright\n"
      "# Completions of kartwright for zsh, written with its manual from one description.\n\n"
      "_kartwright() {\n  local curcontext=$curcontext state line\n  typeset -A opt_args\n"
      "  _arguments -C";
  for (const OptionPage& option : program.options) out += " \\\n    " + specification(option);
  out +=
      " \\\n    '1:command:->command' \\\n    '*::argument:->argument' && return\n"
      "  case $state in\n  command)\n    local -a commands=(\n";
  for (const CommandPage& command : program.commands) {
    out += "      " + shell_quoted(command.name + ":" + marked(command.summary, ":")) + "\n";
  }
  out += "    )\n    _describe -t commands command commands\n    ;;\n  argument)\n";
  out += "    case $words[1] in\n";
  for (const CommandPage& command : program.commands) {
    out += "    " + command.name + ")\n      _arguments";
    for (const OptionPage& option : command.options) out += " \\\n        " + specification(option);
    add_operands(out, command);
    out += "\n      ;;\n";
  }
  return out + "    esac\n    ;;\n  esac\n}\n\n_kartwright \"$@\"\n";
}

}  // namespace kartwright::cli
