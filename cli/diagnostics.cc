#include "cli/diagnostics.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <map>

#include <fmt/format.h>

#include "cli/arguments.h"
#include "cli/tell.h"

namespace kartwright::cli {

namespace {

/// Characters [from, to) of a text, from 0.
std::string_view characters_of(std::string_view text, std::size_t from, std::size_t to) {
  const auto offset = [&](std::size_t count) {
    std::size_t at = 0;
    for (; count > 0 && at < text.size(); --count)
      at += std::max<std::size_t>(1, glyph_bytes(text.substr(at)));
    return at;
  };
  const std::size_t begin = offset(from);
  return text.substr(begin, offset(to) - begin);
}

/// The source line and a caret under its column, cut to the width around the caret.
std::string source_and_caret(const Diagnostic& diagnostic, Look look) {
  const std::size_t room = look.width - 2;
  const auto column = static_cast<std::size_t>(
      std::max(0, diagnostic.span.column - std::max(1, diagnostic.source_from)));
  const std::string before = spelled(characters_of(diagnostic.source, 0, column), look);
  const std::string behind =
      spelled(characters_of(diagnostic.source, column, diagnostic.source.size()), look);
  // The caret stands no farther right than two thirds of the room, and its line may begin later.
  std::string_view shown = before;
  std::string cut;
  if (diagnostic.source_from > 1 || columns(before) > room * 2 / 3) {
    cut = spelled("…", look);
    while (columns(shown) + columns(cut) > room * 2 / 3) shown.remove_prefix(glyph_bytes(shown));
  }
  const std::string start = cut + std::string(shown);
  const std::size_t left_over = room - std::min(room, columns(start));
  const std::string rest(fitting(behind, left_over));
  const auto length = static_cast<std::size_t>(std::max(1, diagnostic.span.length));
  const std::size_t under = std::clamp<std::size_t>(
      columns(fitting(spelled(characters_of(diagnostic.source, column, column + length), look),
                      left_over)),
      1, std::max<std::size_t>(1, left_over));
  return "  " + start + rest + "\n  " + std::string(columns(start), ' ') + std::string(under, '^') +
         "\n";
}

struct Word {
  std::string_view text, colour;
};
/// By Severity.
constexpr std::array<Word, 3> kWords{
    {{"error", "\x1b[31m"}, {"warning", "\x1b[33m"}, {"note", "\x1b[36m"}}};

/// All of one severity; of each code no more than a few, and how many more there are.
void show_few(const std::vector<Diagnostic>& found, Severity severity, Look look) {
  constexpr std::size_t kOfOneKind = 3;
  std::map<Code, std::size_t> seen;
  for (const Diagnostic& diagnostic : found) {
    if (diagnostic.severity != severity || ++seen[diagnostic.code] > kOfOneKind) continue;
    tell("{}", render(diagnostic, look));
  }
  for (const auto& [code, count] : seen) {
    if (count <= kOfOneKind) continue;
    tell("and {} more {}s {}: `kartwright explain {}`\n", count - kOfOneKind, word_of(severity),
         code_name(code), code_name(code));
  }
}

}  // namespace

std::string_view word_of(Severity severity) {
  return kWords.at(static_cast<std::size_t>(severity)).text;
}

std::string render(const Diagnostic& diagnostic, Look look) {
  const auto& [word, colour] = kWords.at(static_cast<std::size_t>(diagnostic.severity));
  std::string out = spelled(diagnostic.file, look);
  if (diagnostic.span.line > 0) {
    out += fmt::format(":{}:{}", diagnostic.span.line, diagnostic.span.column);
  }
  out += fmt::format("{}{}[{}]: {}\n", out.empty() ? "" : ": ",
                     look.colour ? fmt::format("{}{}\x1b[0m", colour, word) : std::string(word),
                     code_name(diagnostic.code), spelled(diagnostic.message, look));
  if (!diagnostic.source.empty()) out += source_and_caret(diagnostic, look);
  if (!diagnostic.help.empty()) out += "help: " + spelled(diagnostic.help, look) + "\n";
  return out;
}

void write_diagnostic(JsonWriter& out, const Diagnostic& diagnostic) {
  out.object([&] {
    out.field("code", code_name(diagnostic.code));
    out.field("message", printable(diagnostic.message));
    if (!diagnostic.help.empty()) out.field("help", printable(diagnostic.help));
    out.field("file", printable(diagnostic.file));
    out.field("line", diagnostic.span.line);
    out.field("column", diagnostic.span.column);
  });
}

void show_diagnostics(const std::vector<Diagnostic>& found, bool warnings) {
  const Look look = look_of_stderr();
  const auto is_error = [](const Diagnostic& d) { return d.severity == Severity::error; };
  for (const Diagnostic& diagnostic : found) {
    if (is_error(diagnostic)) tell("{}", render(diagnostic, look));
  }
  const auto errors = static_cast<std::size_t>(std::count_if(found.begin(), found.end(), is_error));
  if (errors >= Findings::kMost) {
    tell("kartwright: {} errors, and the rest was not read\n", errors);
  }
  if (!warnings) return;
  show_few(found, Severity::warning, look);
  show_few(found, Severity::note, look);
}

int exit_code_for(const std::vector<Diagnostic>& found) {
  const auto any = [&](auto test) { return std::any_of(found.begin(), found.end(), test); };
  const auto has = [&](Code code) {
    return any([&](const Diagnostic& d) { return d.code == code; });
  };
  if (has(Code::cannot_read)) return kNoInput;
  if (has(Code::log_not_created)) return kCannotCreate;
  if (has(Code::log_not_written) || has(Code::log_busy)) return kInputOutput;
  if (any([](const Diagnostic& d) {
        return d.file.starts_with("--") || d.file == "explain" || d.file == "rules" ||
               d.file == "check" || d.file == "log" || d.file == "apply";
      })) {
    return kUsage;
  }
  return kBadData;
}

}  // namespace kartwright::cli
