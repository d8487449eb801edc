#include "engine/debrief/glyphs.h"

#include "engine/document/utf8.h"

namespace kartwright {
namespace {

/// Bytes that a first byte announces; a byte that can begin nothing announces itself.
std::size_t announced(unsigned char lead) {
  if (lead < 0xC0) return 1;
  if (lead < 0xE0) return 2;
  return lead < 0xF0 ? 3 : 4;
}

GlyphKind kind_of_ascii(char32_t code) {
  if (code >= '0' && code <= '9') return GlyphKind::digit;
  if ((code | 0x20) >= 'a' && (code | 0x20) <= 'z') return GlyphKind::letter;
  switch (code) {
    case '\'':
    case '`':
      return GlyphKind::apostrophe;
    case '-':
      return GlyphKind::hyphen;
    case ',':
    case ':':
    case '(':
    case ')':
    case '[':
    case ']':
      return GlyphKind::comma;
    case '.':
      return GlyphKind::point;
    case ';':
    case '!':
    case '?':
    case '\n':
    case '\r':
      return GlyphKind::stop;
    case '&':
      return GlyphKind::ampersand;
    default:
      return GlyphKind::gap;
  }
}

bool is_between(char32_t code, char32_t first, char32_t last) {
  return code >= first && code <= last;
}

}  // namespace

Glyph glyph_at(std::string_view text, std::size_t at) {
  const auto lead = static_cast<unsigned char>(text[at]);
  const std::string_view bytes = text.substr(at, announced(lead));
  if (first_invalid_utf8(bytes)) return {lead, 1, true};
  if (bytes.size() == 1) return {lead, 1, false};
  char32_t code = lead & (0x7FU >> bytes.size());
  for (const char byte : bytes.substr(1)) {
    code = code << 6 | (static_cast<unsigned char>(byte) & 0x3FU);
  }
  return {code, bytes.size(), false};
}

GlyphKind kind_of(const Glyph& glyph) {
  if (glyph.broken) return GlyphKind::letter;
  const char32_t code = glyph.code;
  if (code < 0x80) return kind_of_ascii(code);
  if (code == 0x2018 || code == 0x2019 || code == 0x02BC) return GlyphKind::apostrophe;
  if (code == 0x2010 || code == 0x2011) return GlyphKind::hyphen;
  if (is_between(code, 0x2012, 0x2015)) return GlyphKind::comma;  // a dash sets words apart
  if (code == 0x85 || code == 0x2026 || is_between(code, 0x2028, 0x2029)) return GlyphKind::stop;
  const bool blank = code <= 0xA0 || is_between(code, 0x2000, 0x206F) || code == 0x3000;
  return blank || code == 0xFEFF ? GlyphKind::gap : GlyphKind::letter;
}

bool is_control(const Glyph& glyph) {
  const char32_t code = glyph.code;
  return code < 0x20 || is_between(code, 0x7F, 0x9F) || is_between(code, 0x2028, 0x202E) ||
         is_between(code, 0x200E, 0x200F) || is_between(code, 0x2066, 0x2069);
}

}  // namespace kartwright
