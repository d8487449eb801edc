#include <fmt/format.h>

#include "cli/page.h"
#include "cli/papers/papers.h"

namespace kartwright::cli {

std::string shell_quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text) {
    if (c == '\'') {
      out += "'\\''";
    } else {
      out += c;
    }
  }
  return out + "'";
}

namespace {

/// What reads the words so far, in the script's own variables. `=` and `:` part words in bash, so
/// the line itself is read, and what stands before the last of them is taken off the answers.
constexpr const char* kReadTheLine = R"(_kartwright() {
  local line=${COMP_LINE:0:COMP_POINT} word command='' operand='' option='' taken=''
  local -a words
  read -ra words <<<"$line"
  [[ $line == *[[:space:]] ]] && words+=('')
  local current=${words[${#words[@]} - 1]}
  for word in "${words[@]:1:${#words[@]} - 2}"; do
    if [[ -n $option ]]; then
      option=''
    elif [[ -z $command && $word != -* ]]; then
      command=$word
    elif _kartwright_takes "$command" "$word"; then
      option=$word
    elif [[ $word != -* && -z $operand ]]; then
      operand=$word
    fi
  done
  if [[ -z $option && $current == --*=* ]] && _kartwright_takes "$command" "${current%%=*}"; then
    option=${current%%=*} taken=$option=
  fi
  COMPREPLY=()
  _kartwright_answer "$command" "$option" "$operand" "${current#"$taken"}"
  [[ $COMP_WORDBREAKS == *=* ]] || COMPREPLY=("${COMPREPLY[@]/#/$taken}")
  local before=''
  current=${current#"$taken"}
  [[ $current == *=* && $COMP_WORDBREAKS == *=* ]] && before=${current%"${current##*=}"}
  [[ $current == *:* && $COMP_WORDBREAKS == *:* ]] && before=${current%"${current##*:}"}
  COMPREPLY=("${COMPREPLY[@]#"$before"}")
} &&
  complete -F _kartwright kartwright
)";

constexpr const char* kHelpers =
    R"(# Completions of kartwright for bash.
# Written with the manual from one description.

_kartwright_words() { # WORDS START
  local IFS=$' \t\n'
  COMPREPLY+=($(compgen -W "$1" -- "$2"))
}

_kartwright_files() { # START
  compopt -o filenames 2>/dev/null
  local IFS=$'\n'
  COMPREPLY+=($(compgen -f -- "$1"))
}

_kartwright_folders() { # START
  compopt -o filenames 2>/dev/null
  local IFS=$'\n'
  COMPREPLY+=($(compgen -d -- "$1"))
}

)";

std::string action_of(const OptionPage& option) {
  std::string words = "_kartwright_words " + shell_quoted(joined(option.words, " ")) + " \"$4\"";
  switch (option.kind) {
    case ValueKind::file:
      return "_kartwright_files \"$4\"";
    case ValueKind::folder:
      return "_kartwright_folders \"$4\"";
    case ValueKind::words:
      return words;
    case ValueKind::word_or_file:
      return words + "; _kartwright_files \"$4\"";
    case ValueKind::start_of_word:
      return "compopt -o nospace 2>/dev/null; " + words;
    default:
      return ":";
  }
}

std::vector<std::string> names_of(const std::vector<OptionPage>& options, bool with_value) {
  std::vector<std::string> names;
  for (const OptionPage& option : options) {
    if (with_value && option.kind == ValueKind::none) continue;
    names.insert(names.end(), option.names.begin(), option.names.end());
  }
  return names;
}

std::string takes(const ProgramPage& program) {
  std::string out = "_kartwright_takes() { # COMMAND OPTION\n  case $1 in\n";
  for (const CommandPage& command : program.commands) {
    out += fmt::format("    {}) [[ {} == *\" $2 \"* ]] ;;\n", command.name,
                       shell_quoted(" " + joined(names_of(command.options, true), " ") + " "));
  }
  return out + "    *) false ;;\n  esac\n}\n\n";
}

/// The answers behind a word that is no option: the words, and files behind a verb.
std::string operand_of(const CommandPage& command) {
  if (command.operands.empty()) return "      *) : ;;\n";
  const OptionPage& operand = command.operands.front();
  const bool verb = operand.value.find('|') != std::string::npos;
  return fmt::format("      *) if [[ -z $3 ]]; then {}; else {}; fi ;;\n", action_of(operand),
                     verb ? "_kartwright_files \"$4\"" : ":");
}

std::string answers_of(const CommandPage& command) {
  std::string out = fmt::format("    {})\n      case $2 in\n", command.name);
  for (const OptionPage& option : command.options) {
    if (option.kind != ValueKind::none)
      out += fmt::format("      {}) {}; return ;;\n", option.names.back(), action_of(option));
  }
  out += "      esac\n      case $4 in\n";
  out += fmt::format("      -*) _kartwright_words {} \"$4\" ;;\n",
                     shell_quoted(joined(names_of(command.options, false), " ")));
  return out + operand_of(command) + "      esac\n      ;;\n";
}

}  // namespace

std::string bash_completion(const ProgramPage& program) {
  std::string out = kHelpers + takes(program);
  out += "_kartwright_answer() { # COMMAND OPTION OPERAND START\n  case $1 in\n";
  for (const CommandPage& command : program.commands) out += answers_of(command);
  std::vector<std::string> first = names_of(program.options, false);
  for (const CommandPage& command : program.commands) first.push_back(command.name);
  out += fmt::format("    '') _kartwright_words {} \"$4\" ;;\n  esac\n}}\n\n",
                     shell_quoted(joined(first, " ")));
  return out + kReadTheLine;
}

}  // namespace kartwright::cli
