#include "cli/safe_json.h"

#include <fmt/format.h>

#include "cli/page.h"

namespace kartwright::cli {

std::string safe_json(std::string_view json) {
  std::string out;
  while (!json.empty()) {
    const Glyph glyph = first_glyph(json);
    const std::string_view bytes = json.substr(0, glyph.length);
    json.remove_prefix(glyph.length);
    if (glyph.code < 0x80 || !is_unsafe(glyph.code)) {
      out += bytes;  // JSON itself escapes controls below 0x80
    } else if (glyph.code < 0x10000) {
      out += fmt::format("\\u{:04x}", static_cast<unsigned>(glyph.code));
    } else {
      const auto above = static_cast<unsigned>(glyph.code) - 0x10000U;
      out +=
          fmt::format("\\u{:04x}\\u{:04x}", 0xD800U + (above >> 10U), 0xDC00U + (above & 0x3FFU));
    }
  }
  return out;
}

}  // namespace kartwright::cli
