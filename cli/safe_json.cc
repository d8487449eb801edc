#include "cli/safe_json.h"

#include <cstdint>
#include <cstring>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/page.h"

namespace kartwright::cli {
namespace {

/// How many bytes of ASCII a text starts with, none of them DEL.
std::size_t ascii_run(std::string_view text) {
  constexpr std::uint64_t kOnes = 0x0101010101010101U;
  constexpr std::uint64_t kHighBits = kOnes << 7U;
  std::size_t at = 0;
  std::uint64_t word = 0;
  for (; at + sizeof word <= text.size(); at += sizeof word) {
    std::memcpy(&word, text.data() + at, sizeof word);
    if (((word | (word + kOnes)) & kHighBits) != 0) break;
  }
  while (at < text.size() && static_cast<unsigned char>(text[at]) < 0x7FU) ++at;
  return at;
}

void append_escaped(std::string& out, char32_t code) {
  if (code < 0x10000) {
    out += fmt::format("\\u{:04x}", static_cast<unsigned>(code));
    return;
  }
  const auto above = static_cast<unsigned>(code) - 0x10000U;
  out += fmt::format("\\u{:04x}\\u{:04x}", 0xD800U + (above >> 10U), 0xDC00U + (above & 0x3FFU));
}

}  // namespace

std::string safe_json(std::string_view json) {
  std::string out;
  out.reserve(json.size());
  while (!json.empty()) {
    const std::size_t plain = ascii_run(json);  // JSON itself escapes the controls among them
    out += json.substr(0, plain);
    json.remove_prefix(plain);
    if (json.empty()) break;
    const Glyph glyph = first_glyph(json);
    if (is_unsafe(glyph.code)) {
      append_escaped(out, glyph.code);
    } else {
      out += json.substr(0, glyph.length);
    }
    json.remove_prefix(glyph.length);
  }
  return out;
}

std::string json_line(const nlohmann::ordered_json& json) { return safe_json(json.dump()) + "\n"; }

bool is_safe(std::string_view text) {
  while (!text.empty()) {
    text.remove_prefix(ascii_run(text));
    if (text.empty()) break;
    const Glyph glyph = first_glyph(text);
    if (is_unsafe(glyph.code)) return false;
    text.remove_prefix(glyph.length);
  }
  return true;
}

}  // namespace kartwright::cli
