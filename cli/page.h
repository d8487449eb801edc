// page.h - a calm page of text: section words on the left edge, wrapped to the width, nothing else.

#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace kartwright::cli {

/// How the page may look where it is going.
struct Look {
  std::size_t width = 80;  ///< display columns
  bool unicode = true;
  bool colour = false;
};

/// From the terminal and the environment: width from the terminal or COLUMNS, Unicode where the
/// locale is UTF-8, colour on a terminal without NO_COLOR.
Look look_of_stdout();
/// The same of the stream for messages.
Look look_of_stderr();

struct Glyph {
  char32_t code = 0;
  std::size_t length = 1;  ///< bytes
};

/// The character at the start of a text that is not empty; a byte that fits nowhere comes back as
/// U+FFFD.
Glyph first_glyph(std::string_view text);

/// Controls, and marks that could change how the terminal shows what comes after them.
bool is_unsafe(char32_t code);

/// Text with control characters, escapes and text-direction marks taken out.
std::string printable(std::string_view text);

/// Printable text in the letters of the look: in ASCII where it asks for that.
std::string spelled(std::string_view text, Look look);

/// Display columns of printable text; combining marks take none, wide East Asian characters two.
std::size_t columns(std::string_view text);

/// Bytes of the first character; 0 where there is none, 1 of a byte that is none.
std::size_t glyph_bytes(std::string_view text);

/// The longest start of a text that fits into a width in columns.
std::string_view fitting(std::string_view text, std::size_t width);

/// Words wrapped to a width in columns; a word longer than a line is cut.
std::vector<std::string> wrap(std::string_view text, std::size_t width);

enum class Tint { none, stop, good };

/// One piece of a section, as it was given.
struct PagePiece {
  enum class As { paragraph, row, as_written };
  As as = As::paragraph;
  std::string text = {};
  std::size_t indent = 0;  ///< columns to the right
  std::size_t hang = 0;    ///< of the lines after the first, more than that
  Tint tint = Tint::none;
};

struct PageSection {
  std::string word;
  std::vector<PagePiece> pieces;
};

class Page {
 public:
  explicit Page(Look look) : look_(look) {}

  /// Starts a section; its word stands on the left of the next line. A section without lines leaves
  /// no trace.
  void section(std::string_view word);
  /// A paragraph, wrapped; lines after the first hang by `hang` columns.
  void paragraph(std::string_view text, std::size_t hang = 0, Tint tint = Tint::none);
  /// The same, all of it moved to the right by `indent` columns.
  void indented(std::string_view text, std::size_t indent, std::size_t hang = 0);
  /// A line of a table: not wrapped, cut at the width.
  void row(std::string_view text, Tint tint = Tint::none);
  /// Lines that somebody may copy: neither wrapped nor cut, however narrow the page is.
  void as_written(std::string_view lines, std::size_t indent);

  std::size_t room() const;  ///< columns beside the section words
  const Look& look() const { return look_; }

  /// The finished page.
  std::string text() const;

  /// The same before it is laid out, for pages that are not of text. Sections without pieces are
  /// left out.
  std::vector<PageSection> sections() const;

 private:
  void put(PagePiece piece);

  Look look_;
  std::vector<PageSection> sections_ = {};
};

/// Texts in one line, with something between each two.
std::string joined(const std::vector<std::string>& texts, std::string_view between);

/// Pads with spaces on the right, or on the left, to a width in columns.
std::string left(std::string_view text, std::size_t width);
std::string right(std::string_view text, std::size_t width);

}  // namespace kartwright::cli
