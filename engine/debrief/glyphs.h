// glyphs.h - the characters of what was said, and what each does to a sentence.
//
// Any bytes may come in. Bytes that are no UTF-8 are read one by one and called broken.

#pragma once

#include <cstddef>
#include <string_view>

namespace kartwright {

/// `point` ends a sentence, or stands in a number. Whatever is nothing else is a letter, so that
/// other alphabets stay inside words.
enum class GlyphKind { letter, digit, apostrophe, gap, hyphen, comma, point, stop, ampersand };

struct Glyph {
  char32_t code = 0;
  std::size_t bytes = 1;  ///< at least 1, so that a walk over the text always ends
  bool broken = false;    ///< not UTF-8; `code` is the byte
};

/// The character that begins at byte `at`. REQUIRES: at < text.size().
Glyph glyph_at(std::string_view text, std::size_t at);

GlyphKind kind_of(const Glyph& glyph);

/// Characters that steer a terminal instead of printing, those that turn the direction included.
bool is_control(const Glyph& glyph);

}  // namespace kartwright
