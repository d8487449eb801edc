#include "cli/page.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <utility>

#include <sys/ioctl.h>
#include <unistd.h>

#include "engine/document/utf8.h"

namespace kartwright::cli {
namespace {

constexpr std::size_t kMargin = 11;  // the longest section word and two spaces
constexpr std::size_t kNarrowest = 40;
constexpr std::size_t kWidest = 120;

std::string_view environment(const char* name) {
  const char* value = std::getenv(name);  // NOLINT(concurrency-mt-unsafe): one thread
  return value == nullptr ? std::string_view() : std::string_view(value);
}

std::optional<std::size_t> number(std::string_view text) {
  std::size_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::size_t terminal_width(int stream) {
  winsize size{};
  const bool known = ioctl(stream, TIOCGWINSZ, &size) == 0 && size.ws_col > 0;
  const std::size_t usual = known ? size.ws_col : 80;
  const std::size_t asked = number(environment("COLUMNS")).value_or(0);  // 0: not known
  return std::clamp(asked > 0 ? asked : usual, kNarrowest, kWidest);
}

bool locale_is_utf8() {
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    std::string value(environment(name));
    if (value.empty()) continue;
    std::transform(value.begin(), value.end(), value.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    return value.find("utf-8") != std::string::npos || value.find("utf8") != std::string::npos;
  }
  return false;
}

struct Range {
  char32_t from, to;
};

/// What nearly all of a text is.
constexpr bool is_plain(char32_t code) { return code >= 0x20 && code < 0x7F; }

bool within(char32_t code, const auto& ranges) {
  return std::any_of(ranges.begin(), ranges.end(),
                     [code](const Range& r) { return code >= r.from && code <= r.to; });
}

}  // namespace

Glyph first_glyph(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  if (byte(0) < 0x80) return {byte(0), 1};
  const std::size_t length = sequence_length(text);
  if (length == 0) return {0xFFFD, 1};
  char32_t code = byte(0) & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) code = (code << 6U) | (byte(i) & 0x3FU);
  return {code, length};
}

bool is_unsafe(char32_t code) {
  static constexpr std::array kUnsafe{
      Range{0x00, 0x1F},     Range{0x7F, 0x9F},     Range{0x200B, 0x200F},
      Range{0x2028, 0x202E}, Range{0x2060, 0x2069}, Range{0xFEFF, 0xFEFF},
      Range{0xFFF9, 0xFFFD}, Range{0x61C, 0x61C},   Range{0xE0000, 0xE007F}};
  return !is_plain(code) && within(code, kUnsafe);
}

namespace {

/// Unicode Standard Annex 11, the ranges that matter in running text.
std::size_t width_of(char32_t code) {
  static constexpr std::array kNone{Range{0x300, 0x36F}, Range{0x1AB0, 0x1AFF},
                                    Range{0x20D0, 0x20FF}, Range{0xFE00, 0xFE0F},
                                    Range{0xFE20, 0xFE2F}};
  static constexpr std::array kWide{
      Range{0x1100, 0x115F}, Range{0x2E80, 0xA4CF},   Range{0xAC00, 0xD7A3},
      Range{0xF900, 0xFAFF}, Range{0xFE30, 0xFE6F},   Range{0xFF00, 0xFF60},
      Range{0xFFE0, 0xFFE6}, Range{0x1F300, 0x1FAFF}, Range{0x20000, 0x3FFFD}};
  if (is_plain(code)) return 1;
  if (within(code, kNone)) return 0;
  return within(code, kWide) ? 2 : 1;
}

/// How a character of ours reads in ASCII.
std::string_view in_ascii(char32_t code) {
  static constexpr std::array<std::pair<char32_t, std::string_view>, 14> kNames{{{U'±', "+/-"},
                                                                                 {U'→', "->"},
                                                                                 {U'°', " deg"},
                                                                                 {U'·', "."},
                                                                                 {U'○', "o"},
                                                                                 {U'●', "#"},
                                                                                 {U'×', "x"},
                                                                                 {U'◇', "*"},
                                                                                 {U'−', "-"},
                                                                                 {U'–', "-"},
                                                                                 {U'’', "'"},
                                                                                 {U'“', "\""},
                                                                                 {U'”', "\""},
                                                                                 {U'…', "..."}}};
  const auto* found = std::find_if(kNames.begin(), kNames.end(),
                                   [code](const auto& name) { return name.first == code; });
  return found == kNames.end() ? "?" : found->second;
}

std::string ascii(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const Glyph glyph = first_glyph(text);
    if (glyph.code < 0x80) {
      out += static_cast<char>(glyph.code);
    } else {
      out += in_ascii(glyph.code);
    }
    text.remove_prefix(glyph.length);
  }
  return out;
}

}  // namespace

namespace {

Look look_of(int stream) {
  return {.width = terminal_width(stream),
          .unicode = locale_is_utf8(),
          .colour = isatty(stream) == 1 && environment("NO_COLOR").empty()};
}

}  // namespace

Look look_of_stdout() { return look_of(STDOUT_FILENO); }
Look look_of_stderr() { return look_of(STDERR_FILENO); }

std::size_t glyph_bytes(std::string_view text) {
  return text.empty() ? 0 : first_glyph(text).length;
}

std::string printable(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const Glyph glyph = first_glyph(text);
    if (is_unsafe(glyph.code)) {
      out += ' ';
    } else {
      out += text.substr(0, glyph.length);
    }
    text.remove_prefix(glyph.length);
  }
  return out;
}

std::string spelled(std::string_view text, Look look) {
  return look.unicode ? printable(text) : ascii(printable(text));
}

std::size_t columns(std::string_view text) {
  std::size_t sum = 0;
  while (!text.empty()) {
    const Glyph glyph = first_glyph(text);
    sum += width_of(glyph.code);
    text.remove_prefix(glyph.length);
  }
  return sum;
}

std::string_view fitting(std::string_view text, std::size_t width) {
  std::size_t bytes = 0;
  std::size_t used = 0;
  while (bytes < text.size()) {
    const Glyph glyph = first_glyph(text.substr(bytes));
    used += width_of(glyph.code);
    if (used > width) break;
    bytes += glyph.length;
  }
  return text.substr(0, bytes);
}

std::vector<std::string> wrap(std::string_view text, std::size_t width) {
  std::vector<std::string> lines{""};
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (word.empty()) continue;
    const std::size_t space = lines.back().empty() ? 0 : 1;
    if (columns(lines.back()) + space + columns(word) <= width) {
      lines.back() += (space == 0 ? "" : " ") + std::string(word);
      continue;
    }
    if (!lines.back().empty()) lines.emplace_back();
    for (; columns(word) > width; lines.emplace_back()) {
      const std::string_view start = fitting(word, width);
      lines.back() = start;
      word.remove_prefix(std::max<std::size_t>(1, start.size()));
    }
    lines.back() = word;
  }
  return lines;
}

namespace {

/// The lines of a page as they come to stand.
class Lines {
 public:
  explicit Lines(Look look) : look_(look) {}

  void section(std::string_view word) {
    word_ = word;
    first_ = true;
  }
  void put(const PagePiece& piece, std::size_t room) {
    switch (piece.as) {
      case PagePiece::As::paragraph:
        wrapped(piece, room);
        break;
      case PagePiece::As::row:
        line(fitting(spelled(piece.text, look_), room), piece.tint);
        break;
      case PagePiece::As::as_written:
        line(std::string(piece.indent, ' ') + spelled(piece.text, look_), piece.tint);
        break;
    }
  }
  const std::string& text() const { return out_; }

 private:
  void wrapped(const PagePiece& piece, std::size_t room) {
    std::size_t before = piece.indent;
    const std::size_t width = room - piece.indent - piece.hang;
    for (const std::string& part : wrap(spelled(piece.text, look_), width)) {
      line(std::string(before, ' ') + part, piece.tint);
      before = piece.indent + piece.hang;
    }
  }

  void line(std::string_view text, Tint tint) {
    if (first_ && !out_.empty()) out_ += '\n';
    const std::string word = left(first_ ? word_ : "", kMargin);
    const bool tinted = look_.colour && tint != Tint::none;
    out_ += look_.colour && first_ ? "\x1b[1m" + word + "\x1b[0m" : word;
    if (tinted) out_ += tint == Tint::stop ? "\x1b[31m" : "\x1b[32m";
    out_ += text;
    while (!out_.empty() && out_.back() == ' ') out_.pop_back();
    out_ += tinted ? "\x1b[0m\n" : "\n";
    first_ = false;
  }

  Look look_;
  std::string word_;
  bool first_ = true;
  std::string out_;
};

}  // namespace

void Page::section(std::string_view word) {
  sections_.push_back({.word = std::string(word), .pieces = {}});
}

void Page::put(PagePiece piece) {
  if (sections_.empty()) section("");
  sections_.back().pieces.push_back(std::move(piece));
}

std::size_t Page::room() const { return look_.width - kMargin; }

void Page::paragraph(std::string_view text, std::size_t hang, Tint tint) {
  put({.text = std::string(text), .hang = hang, .tint = tint});
}

void Page::indented(std::string_view text, std::size_t indent, std::size_t hang) {
  put({.text = std::string(text), .indent = indent, .hang = hang});
}

void Page::row(std::string_view text, Tint tint) {
  put({.as = PagePiece::As::row, .text = std::string(text), .tint = tint});
}

void Page::as_written(std::string_view lines, std::size_t indent) {
  while (!lines.empty()) {
    const std::size_t end = std::min(lines.find('\n'), lines.size());
    put({.as = PagePiece::As::as_written,
         .text = std::string(lines.substr(0, end)),
         .indent = indent});
    lines.remove_prefix(std::min(end + 1, lines.size()));
  }
}

std::string Page::text() const {
  Lines lines(look_);
  for (const PageSection& section : sections_) {
    lines.section(section.word);
    for (const PagePiece& piece : section.pieces) lines.put(piece, room());
  }
  return lines.text();
}

std::vector<PageSection> Page::sections() const {
  std::vector<PageSection> out = sections_;
  std::erase_if(out, [](const PageSection& each) { return each.pieces.empty(); });
  return out;
}

std::string joined(const std::vector<std::string>& texts, std::string_view between) {
  std::string out;
  for (const std::string& text : texts) {
    if (!out.empty()) out += between;
    out += text;
  }
  return out;
}

std::string left(std::string_view text, std::size_t width) {
  std::string out(text);
  const std::size_t used = columns(text);
  if (used < width) out.append(width - used, ' ');
  return out;
}

std::string right(std::string_view text, std::size_t width) {
  const std::size_t used = columns(text);
  return used < width ? std::string(width - used, ' ') + std::string(text) : std::string(text);
}

}  // namespace kartwright::cli
