#include "cli/command_pages.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include <CLI/CLI.hpp>

#include "cli/command_texts.h"
#include "cli/option_values.h"
#include "cli/rule_words.h"

namespace kartwright::cli {
namespace {

constexpr std::array<std::string_view, 6> kOfEveryCommand{"--format",  "--units", "--rules",
                                                          "--verbose", "--quiet", "--help"};

ValueKind kind_of(std::string_view value) {
  if (value == value::kFile) return ValueKind::file;
  if (value == value::kFolder) return ValueKind::folder;
  if (value == value::kCase) return ValueKind::word_or_file;
  if (value == value::kSymptom) return ValueKind::start_of_word;
  return ValueKind::words;
}

/// `cold, green or wet`.
std::string as_a_choice(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) {
    if (!out.empty()) out += &word == &words.back() ? " or " : ", ";
    out += word;
  }
  return out;
}

void set_value(OptionPage& page, std::string value, const Pack& pack) {
  page.words = words_in(value);
  if (page.words.empty()) page.words = rule_words(value, pack);
  page.kind = kind_of(value);
  if (page.kind == ValueKind::words && page.words.empty()) page.kind = ValueKind::free;
  page.value = std::move(value);
  const std::size_t choice = page.help.find("{}");
  if (choice != std::string::npos) page.help.replace(choice, 2, as_a_choice(page.words));
}

OptionPage option_page(const ::CLI::Option& option, const Pack& pack) {
  OptionPage page{.help = option.get_description()};
  for (const std::string& name : option.get_snames()) page.names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) page.names.push_back("--" + name);
  page.repeats = option.get_multi_option_policy() == ::CLI::MultiOptionPolicy::TakeAll;
  page.common = !page.names.empty() &&
                std::ranges::find(kOfEveryCommand, page.names.back()) != kOfEveryCommand.end();
  if (option.get_items_expected_max() > 0) set_value(page, option.get_type_name(), pack);
  return page;
}

/// The command's own options first, the common ones after them in one order everywhere.
std::vector<OptionPage> options_of(const ::CLI::App& app, const Pack& pack, bool operands) {
  std::vector<OptionPage> pages;
  for (const ::CLI::Option* option : app.get_options()) {
    if (option->get_positional() == operands) pages.push_back(option_page(*option, pack));
  }
  const auto place = [](const OptionPage& page) {
    if (!page.common) return std::ptrdiff_t{-1};
    return std::ranges::find(kOfEveryCommand, page.names.back()) - kOfEveryCommand.begin();
  };
  std::ranges::stable_sort(pages, {}, place);
  return pages;
}

/// `  kartwright explain K003       what a message means`.
ExamplePage example_of(const std::string& line) {
  const std::size_t end = line.find("  ");
  if (end == std::string::npos) return {.command = line};
  return {.command = line.substr(0, end), .remark = line.substr(line.find_first_not_of(' ', end))};
}

/// The footer of a command: lines that begin with two spaces are examples, others are notes; an
/// empty line ends a note.
void read_footer(const std::string& footer, CommandPage& page) {
  std::string note;
  const auto end_note = [&] {
    if (!note.empty()) page.notes.push_back(std::exchange(note, {}));
  };
  std::size_t at = 0;
  while (at < footer.size()) {
    const std::size_t end = std::min(footer.find('\n', at), footer.size());
    const std::string line = footer.substr(at, end - at);
    at = end + 1;
    if (line.empty() || line == "example:" || line == "examples:") {
      end_note();
    } else if (line.starts_with("  ")) {
      page.examples.push_back(example_of(line.substr(2)));
    } else {
      note += (note.empty() ? "" : " ") + line;
    }
  }
  end_note();
}

CommandPage command_page(const ::CLI::App& command, const Pack& pack) {
  CommandPage page{.name = command.get_name(),
                   .group = command.get_group(),
                   .summary = command.get_description(),
                   .about = about_command(command.get_name()),
                   .operands = options_of(command, pack, true),
                   .options = options_of(command, pack, false)};
  read_footer(command.get_footer(), page);
  return page;
}

}  // namespace

ProgramPage command_pages(const ::CLI::App& app, const Pack& pack) {
  ProgramPage program{.summary = app.get_description(),
                      .note = app.get_footer(),
                      .options = options_of(app, pack, false)};
  for (const ::CLI::App* command : app.get_subcommands({}))
    program.commands.push_back(command_page(*command, pack));
  for (const std::string_view group : kGroups) program.groups.emplace_back(group);
  std::ranges::stable_sort(program.commands, {}, [](const CommandPage& page) {
    return std::ranges::find(kGroups, page.group) - kGroups.begin();
  });
  return program;
}

}  // namespace kartwright::cli
