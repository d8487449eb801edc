#include "cli/help_text.h"

#include <algorithm>

namespace kartwright::cli {
namespace {

constexpr std::size_t kEdge = 2;              // before what stands below a heading
constexpr std::size_t kWidestName = 22;       // a longer one has a line of its own
constexpr std::size_t kNeedsTwoColumns = 70;  // narrower pages put the text below the name

struct Entry {
  std::string name;
  std::string text;
};

std::string indent(std::size_t by) { return std::string(by, ' '); }

void add_lines(std::string& out, std::string_view text, std::size_t before, const Look& look) {
  for (const std::string& line : wrap(spelled(text, look), look.width - before))
    out += indent(before) + line + "\n";
}

/// Where the texts of a list of entries begin.
std::size_t text_column(const std::vector<Entry>& entries, const Look& look) {
  if (look.width < kNeedsTwoColumns) return 3 * kEdge;
  std::size_t widest = 0;
  for (const Entry& entry : entries) {
    if (columns(entry.name) <= kWidestName) widest = std::max(widest, columns(entry.name));
  }
  return kEdge + widest + kEdge;
}

void add_entries(std::string& out, const std::vector<Entry>& entries, std::size_t column,
                 const Look& look) {
  for (const Entry& entry : entries) {
    const bool beside = kEdge + columns(entry.name) + kEdge <= column;
    std::string text;
    add_lines(text, entry.text, column, look);
    if (beside) {
      out += left(indent(kEdge) + spelled(entry.name, look), column) + text.substr(column);
      continue;
    }
    for (const std::string& line : wrap(spelled(entry.name, look), look.width - kEdge))
      out += indent(kEdge) + line + "\n";
    out += text;
  }
}

Entry entry_of(const OptionPage& option) {
  Entry entry{.name = joined(option.names, ", "), .text = option.help};
  if (!option.value.empty()) entry.name += (entry.name.empty() ? "" : " ") + option.value;
  if (option.repeats && !option.names.empty()) entry.name += " ...";
  return entry;
}

std::vector<Entry> entries_of(const std::vector<OptionPage>& options, bool common) {
  std::vector<Entry> entries;
  for (const OptionPage& option : options) {
    if (option.common == common) entries.push_back(entry_of(option));
  }
  return entries;
}

void add_section(std::string& out, std::string_view heading, const std::vector<Entry>& entries,
                 std::size_t column, const Look& look) {
  if (entries.empty()) return;
  out += "\n" + std::string(heading) + "\n";
  add_entries(out, entries, column, look);
}

void add_notes(std::string& out, const std::vector<std::string>& notes, const Look& look) {
  for (const std::string& note : notes) {
    out += "\n";
    add_lines(out, note, 0, look);
  }
}

void add_example(std::string& out, const ExamplePage& example, const Look& look) {
  if (!example.remark.empty()) add_lines(out, "# " + example.remark, kEdge, look);
  const std::string command = spelled(example.command, look);
  for (const std::string& line : wrap_command(command, look.width - kEdge, 2 * kEdge))
    out += indent(kEdge) + line + "\n";
}

/// The words of a shell command, those in double quotes with their spaces.
std::vector<std::string> shell_words(const std::string& command) {
  std::vector<std::string> words{""};
  bool quoted = false;
  for (const char c : command) {
    if (c == '"') quoted = !quoted;
    if (c == ' ' && !quoted) {
      if (!words.back().empty()) words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  return words;
}

/// The words, an option and its value as one.
std::vector<std::string> with_their_values(const std::vector<std::string>& words) {
  std::vector<std::string> groups;
  bool wants_value = false;
  for (const std::string& word : words) {
    const bool option = word.starts_with("--");
    if (wants_value && !option && word != ">" && word != "<") {
      groups.back() += " " + word;
    } else {
      groups.push_back(word);
    }
    wants_value = option || word == ">" || word == "<";
  }
  return groups;
}

/// A word in pieces that may stand in lines of their own: quoted ones at each space.
std::vector<std::string> pieces_of(const std::string& word) {
  std::vector<std::string> pieces{""};
  for (const char c : word) {
    pieces.back() += c;
    if (c == ' ') pieces.emplace_back();
  }
  return pieces;
}

}  // namespace

std::vector<std::string> wrap_command(const std::string& command, std::size_t width,
                                      std::size_t indent_by) {
  constexpr std::size_t kBreak = 2;  // a space and a backslash
  std::vector<std::string> lines{""};
  const auto fits = [&](std::string_view more) {
    return columns(lines.back()) + columns(more) + kBreak <= width;
  };
  const auto next_line = [&] {
    lines.back() += "\\";
    lines.push_back(indent(indent_by));
  };
  for (const std::string& word : with_their_values(shell_words(command))) {
    const bool first = lines.size() == 1 && lines.back().empty();
    if (!first && !fits(" " + word) && lines.back().size() > indent_by) {
      lines.back() += ' ';
      next_line();
    } else if (!first && lines.back().back() != ' ') {
      lines.back() += ' ';
    }
    if (fits(word)) {
      lines.back() += word;
      continue;
    }
    for (const std::string& piece : pieces_of(word)) {
      if (!fits(piece) && lines.back().size() > indent_by) next_line();
      lines.back() += piece;
    }
  }
  return lines;
}

std::string program_help_text(const ProgramPage& program, Look look) {
  std::string out;
  add_lines(out, program.summary, 0, look);
  out += "\nusage: kartwright COMMAND [OPTIONS]\n";
  std::vector<Entry> all;
  for (const CommandPage& command : program.commands) all.push_back({command.name, ""});
  const std::vector<Entry> own = entries_of(program.options, false);
  const std::vector<Entry> common = entries_of(program.options, true);
  all.insert(all.end(), own.begin(), own.end());
  all.insert(all.end(), common.begin(), common.end());
  const std::size_t column = text_column(all, look);
  for (const std::string& group : program.groups) {
    std::vector<Entry> entries;
    for (const CommandPage& command : program.commands) {
      if (command.group == group) entries.push_back({command.name, command.summary});
    }
    add_section(out, group, entries, column, look);
  }
  std::vector<Entry> options = common;
  options.insert(options.end(), own.begin(), own.end());
  add_section(out, "options", options, column, look);
  add_notes(out, {program.note}, look);
  return out;
}

std::string command_help_text(const CommandPage& command, Look look) {
  std::string out;
  add_lines(out, command.summary, 0, look);
  std::string usage = "usage: kartwright " + command.name;
  for (const OptionPage& operand : command.operands) usage += " [" + operand.value + "]";
  out += "\n";
  add_lines(out, usage + " [OPTIONS]", 0, look);
  const std::vector<Entry> operands = entries_of(command.operands, false);
  const std::vector<Entry> own = entries_of(command.options, false);
  const std::vector<Entry> common = entries_of(command.options, true);
  std::vector<Entry> all = own;
  all.insert(all.end(), operands.begin(), operands.end());
  all.insert(all.end(), common.begin(), common.end());
  const std::size_t column = text_column(all, look);
  add_section(out, "words", operands, column, look);
  add_section(out, "options", own, column, look);
  add_section(out, "everywhere", common, column, look);
  if (!command.examples.empty()) out += "\nexamples\n";
  for (const ExamplePage& example : command.examples) add_example(out, example, look);
  add_notes(out, command.notes, look);
  return out;
}

}  // namespace kartwright::cli
