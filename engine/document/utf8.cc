#include "engine/document/utf8.h"

#include <algorithm>
#include <array>

namespace kartwright {
namespace {

struct Lead {
  unsigned char from, to;  // of the first byte
  int follow;              // bytes that follow
  unsigned char second_from, second_to;
};

// RFC 3629, section 4: the well-formed byte sequences.
constexpr std::array kLeads{Lead{0x00, 0x7F, 0, 0, 0},       Lead{0xC2, 0xDF, 1, 0x80, 0xBF},
                            Lead{0xE0, 0xE0, 2, 0xA0, 0xBF}, Lead{0xE1, 0xEC, 2, 0x80, 0xBF},
                            Lead{0xED, 0xED, 2, 0x80, 0x9F}, Lead{0xEE, 0xEF, 2, 0x80, 0xBF},
                            Lead{0xF0, 0xF0, 3, 0x90, 0xBF}, Lead{0xF1, 0xF3, 3, 0x80, 0xBF},
                            Lead{0xF4, 0xF4, 3, 0x80, 0x8F}};

}  // namespace

std::size_t sequence_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const auto* lead = std::find_if(kLeads.begin(), kLeads.end(), [&](const Lead& l) {
    return byte(0) >= l.from && byte(0) <= l.to;
  });
  if (lead == kLeads.end()) return 0;
  const auto length = static_cast<std::size_t>(lead->follow) + 1;
  if (text.size() < length) return 0;
  if (length > 1 && (byte(1) < lead->second_from || byte(1) > lead->second_to)) return 0;
  for (std::size_t i = 2; i < length; ++i) {
    if (byte(i) < 0x80 || byte(i) > 0xBF) return 0;
  }
  return length;
}

std::optional<std::size_t> first_invalid_utf8(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t length = sequence_length(text.substr(at));
    if (length == 0) return at;
    at += length;
  }
  return std::nullopt;
}

std::size_t characters(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

std::size_t characters_behind(std::string_view text, std::size_t from, std::size_t count) {
  while (from < text.size() && count > 0) {
    ++from;
    while (from < text.size() && (static_cast<unsigned char>(text[from]) & 0xC0U) == 0x80U) ++from;
    --count;
  }
  return from;
}

}  // namespace kartwright
