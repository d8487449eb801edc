#include "tests/cli/papers.h"

#include <regex>
#include <stdexcept>

#include "tests/cli/pit_box.h"

namespace kartwright {
namespace {

/// What a pattern's first group takes from a text, every time that it is found.
std::set<std::string> all_of(const std::string& text, const std::regex& pattern) {
  std::set<std::string> found;
  for (std::sregex_iterator at(text.begin(), text.end(), pattern), end; at != end; ++at)
    found.insert((*at)[1]);
  return found;
}

std::string help_page_of(const std::string& command) {
  Words words{command, "--help"};
  if (command.empty()) words = {"--help"};
  return run_kartwright(words, {{"COLUMNS", "120"}}).out;
}

/// The lines of a page that name an option.
std::vector<std::string> option_lines(const std::string& page) {
  std::vector<std::string> lines;
  for (const std::string& line : lines_of(page)) {
    if (line.starts_with("  -")) lines.push_back(line.substr(2, line.find("  ", 2) - 2));
  }
  return lines;
}

void exchange_all(std::string& text, const std::string& before, const std::string& after) {
  for (std::size_t at = text.find(before); at != std::string::npos;
       at = text.find(before, at + after.size()))
    text.replace(at, before.size(), after);
}

std::vector<std::string> every_command() {
  std::vector<std::string> all = commands_of_help();
  all.insert(all.begin(), "");
  return all;
}

}  // namespace

std::vector<std::string> commands_of_help() {
  static const std::regex command("  ([a-z]+)  .*");
  std::vector<std::string> commands;
  for (const std::string& line : lines_of(help_page_of(""))) {
    std::smatch match;
    if (std::regex_match(line, match, command)) commands.push_back(match[1]);
  }
  return commands;
}

std::string path_of_paper(const std::string& name) { return KARTWRIGHT_PAPERS "/" + name; }

std::string paper(const std::string& name) {
  std::string text = file_text(path_of_paper(name));
  if (text.empty()) throw std::runtime_error("nothing was written as " + name);
  return text;
}

OptionNames options_in_help() {
  static const std::regex name("(?:^|, )(--?[a-z-]+)");
  OptionNames names;
  for (const std::string& command : every_command()) {
    for (const std::string& line : option_lines(help_page_of(command)))
      names[command].merge(all_of(line, name));
  }
  return names;
}

std::set<std::string> options_with_values(const std::string& command) {
  static const std::regex valued("(--[a-z-]+) [^ ]");
  std::set<std::string> names;
  for (const std::string& line : option_lines(help_page_of(command)))
    names.merge(all_of(line, valued));
  return names;
}

OptionNames options_in_the_manual() {
  static const std::regex name("\\\\fB(\\\\-[a-z\\\\-]+)\\\\fR");
  OptionNames names;
  for (const std::string& command : every_command()) {
    const std::string page =
        paper("man/man1/kartwright" + (command.empty() ? "" : "-" + command) + ".1");
    bool tag = false;
    for (const std::string& line : lines_of(page)) {
      if (tag) {
        for (const std::string& found : all_of(line, name))
          names[command].insert(without_roff(found));
      }
      tag = line == ".TP";
    }
  }
  return names;
}

OptionNames options_in_fish() {
  static const std::regex of(
      "complete -c kartwright -n '__kartwright_in "
      "([a-z]+|\\\\'\\\\')' (.*)");
  static const std::regex long_name(" ?-l ([a-z-]+)");
  static const std::regex short_name(" ?-s ([a-z])");
  OptionNames names;
  for (const std::string& line : lines_of(paper("fish/kartwright.fish"))) {
    std::smatch match;
    if (!std::regex_match(line, match, of)) continue;
    const std::string command = match[1] == "\\'\\'" ? "" : match[1].str();
    const std::string rest = match[2].str().substr(0, match[2].str().find(" -d "));
    for (const std::string& name : all_of(rest, long_name)) names[command].insert("--" + name);
    for (const std::string& name : all_of(rest, short_name)) names[command].insert("-" + name);
  }
  return names;
}

OptionNames options_in_zsh() {
  static const std::regex block("    ([a-z]+)\\)");
  static const std::regex alone("^ +'\\*?(--?[a-z-]+)[=\\[]");
  static const std::regex together("[{,](--?[a-z-]+)(?=[,}])");
  OptionNames names;
  std::string command;
  for (const std::string& line : lines_of(paper("zsh/_kartwright"))) {
    std::smatch match;
    if (std::regex_match(line, match, block)) command = match[1];
    const std::string start = line.substr(0, line.find("'["));
    names[command].merge(all_of(line, alone));
    names[command].merge(all_of(start, together));
  }
  return names;
}

std::string without_roff(std::string text) {
  const std::vector<std::pair<std::string, std::string>> signs{
      {"\\-", "-"},   {"\\(aq", "'"}, {"\\(dq", "\""},   {"\\(ha", "^"},
      {"\\(ti", "~"}, {"\\(ga", "`"}, {"\\fB", ""},      {"\\fI", ""},
      {"\\fR", ""},   {"\\&", ""},    {"\\[u00B1]", "±"}};
  for (const auto& [roff, plain] : signs) exchange_all(text, roff, plain);
  exchange_all(text, "\\e", "\\");
  return text;
}

std::vector<std::string> examples_of_manual(const std::string& page) {
  static const std::regex broken(" *\\\\\n *");
  std::vector<std::string> examples;
  std::string example;
  bool inside = false;
  for (const std::string& line : lines_of(page)) {
    if (line == ".EE") {
      example.pop_back();
      examples.push_back(std::regex_replace(example, broken, " "));
      example.clear();
    }
    inside = (inside && line != ".EE") || line == ".EX";
    if (inside && line != ".EX") example += without_roff(line) + "\n";
  }
  return examples;
}

}  // namespace kartwright
