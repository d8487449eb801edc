#include <algorithm>
#include <string_view>

#include <fmt/format.h>

#include "cli/command_texts.h"
#include "cli/help_text.h"
#include "cli/page.h"
#include "cli/papers/papers.h"

namespace kartwright::cli {
namespace {

constexpr std::size_t kExampleWidth = 66;  // a page of 80 columns, less its margins

/// One character as roff writes it, so that it comes out as itself and can be copied.
std::string escaped(char32_t code) {
  switch (code) {
    case U'\\':
      return "\\e";
    case U'-':
      return "\\-";
    case U'\'':
      return "\\(aq";
    case U'"':
      return "\\(dq";
    case U'^':
      return "\\(ha";
    case U'~':
      return "\\(ti";
    case U'`':
      return "\\(ga";
    default:
      break;
  }
  if (code < 0x80) return {static_cast<char>(code)};
  return fmt::format("\\[u{:04X}]", static_cast<unsigned>(code));
}

std::string as_code(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const Glyph glyph = first_glyph(text);
    out += escaped(glyph.code);
    text.remove_prefix(glyph.length);
  }
  return out;
}

/// Running text: a hyphen within a word is one, and what stands in backticks is code.
std::string as_text(std::string_view text) {
  std::string out;
  bool code = false;
  char32_t before = U' ';
  while (!text.empty()) {
    const Glyph glyph = first_glyph(text);
    text.remove_prefix(glyph.length);
    if (glyph.code == U'`') {
      code = !code;
      out += code ? "\\fB" : "\\fR";
    } else if (glyph.code == U'-' && !code && before != U' ' && before != U'-') {
      out += '-';
    } else {
      out += escaped(glyph.code);
    }
    before = glyph.code;
  }
  return out;
}

/// Lines of text in the source: none may begin as a request does.
void add_text(std::string& page, const std::string& text) {
  constexpr std::size_t kSourceWidth = 78;
  for (const std::string& line : wrap(as_text(text), kSourceWidth))
    page += (line.starts_with('.') ? "\\&" : "") + line + "\n";
}

void add_paragraphs(std::string& page, const std::vector<std::string>& paragraphs) {
  for (const std::string& paragraph : paragraphs) {
    if (&paragraph != paragraphs.data()) page += ".PP\n";
    add_text(page, paragraph);
  }
}

void add_told(std::string& page, const std::string& section, const std::vector<Told>& list) {
  page += ".SH " + section + "\n";
  for (const Told& told : list) {
    page += ".TP\n.B " + as_code(told.name) + "\n";
    add_text(page, told.text);
  }
}

std::string heading(const std::string& title, const Edition& edition) {
  std::string upper = title;
  std::ranges::transform(upper, upper.begin(), [](char c) {
    return c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c;
  });
  return fmt::format(".TH \"{}\" 1 \"{}\" \"kartwright {}\" \"Kart setup\"\n", as_code(upper),
                     edition.day, edition.version);
}

/// `\-\-kart` in bold, its value in italics.
std::string tag_of(const OptionPage& option) {
  std::string tag;
  for (const std::string& name : option.names)
    tag += (tag.empty() ? "" : ", ") + ("\\fB" + as_code(name) + "\\fR");
  if (option.value.empty()) return tag;
  return tag + (tag.empty() ? "" : " ") + "\\fI" + as_code(option.value) + "\\fR" +
         (option.repeats && !option.names.empty() ? " ..." : "");
}

void add_options(std::string& page, const std::vector<OptionPage>& options, bool common) {
  for (const OptionPage& option : options) {
    if (option.common != common) continue;
    page += ".TP\n" + tag_of(option) + "\n";
    add_text(page, option.help);
  }
}

void add_example(std::string& page, const ExamplePage& example, bool first) {
  if (!first) page += ".PP\n";
  if (!example.remark.empty()) add_text(page, example.remark + ":");
  page += ".RS 4\n.EX\n";
  for (const std::string& line : wrap_command(example.command, kExampleWidth, 4))
    page += as_code(line) + "\n";
  page += ".EE\n.RE\n";
}

std::string reference(const std::string& name) { return ".BR " + as_code(name) + " (1)"; }

void add_see_also(std::string& page, const std::vector<std::string>& names) {
  page += ".SH SEE ALSO\n";
  for (const std::string& name : names)
    page += reference(name) + (&name == &names.back() ? "\n" : " ,\n");
}

bool has_common(const std::vector<OptionPage>& options) {
  return std::ranges::any_of(options, &OptionPage::common);
}

}  // namespace

std::string command_manual(const CommandPage& command, const Edition& edition) {
  const std::string name = "kartwright-" + command.name;
  std::string page = heading(name, edition);
  page += ".SH NAME\n" + as_code(name) + " \\-\n";
  add_text(page, command.summary);
  page += ".SH SYNOPSIS\n\\fBkartwright " + as_code(command.name) + "\\fR";
  for (const OptionPage& operand : command.operands) page += " [" + tag_of(operand) + "]";
  page += " [\\fIOPTIONS\\fR]\n.SH DESCRIPTION\n";
  add_paragraphs(page, command.about);
  for (const std::string& note : command.notes) {
    page += ".PP\n";
    add_text(page, note);
  }
  page += ".SH OPTIONS\n";
  add_options(page, command.operands, false);
  add_options(page, command.options, false);
  if (has_common(command.options)) page += ".SS Everywhere\n";
  add_options(page, command.options, true);
  page += ".SH EXAMPLES\n";
  for (const ExamplePage& example : command.examples)
    add_example(page, example, &example == command.examples.data());
  page += ".SH EXIT STATUS\n0 where there is an answer.\nThe other codes, the environment and the ";
  page += "files stand in\n" + reference("kartwright") + " .\n";
  add_see_also(page, {"kartwright"});
  return page;
}

std::string program_manual(const ProgramPage& program, const Edition& edition) {
  std::string page = heading("kartwright", edition);
  const std::string summary = program.summary.substr(program.summary.find(" - ") + 3);
  page += ".SH NAME\nkartwright \\- " + as_text(summary) + "\n";
  page += ".SH SYNOPSIS\n\\fBkartwright\\fR \\fICOMMAND\\fR [\\fIOPTIONS\\fR]\n.SH DESCRIPTION\n";
  add_paragraphs(page, about_program());
  page += ".PP\n";
  add_text(page, program.note);
  page += ".SH COMMANDS\n";
  std::vector<std::string> pages;
  for (const CommandPage& command : program.commands) {
    if (&command == program.commands.data() || (&command - 1)->group != command.group)
      page += ".SS \"" + command.group + "\"\n";
    page += ".TP\n.B " + as_code(command.name) + "\n";
    add_text(page, command.summary);
    pages.push_back("kartwright-" + command.name);
  }
  page += ".SH OPTIONS\nEach command has more; they stand in its own page.\n";
  add_options(page, program.options, true);
  add_options(page, program.options, false);
  add_told(page, "EXIT STATUS", exit_codes());
  add_told(page, "ENVIRONMENT", variables_read());
  std::vector<Told> files = files_kept();
  for (const Told& installed : files_installed()) {
    files.push_back({edition.data + "/" + installed.name, installed.text});
  }
  add_told(page, "FILES", files);
  add_see_also(page, pages);
  return page;
}

}  // namespace kartwright::cli
