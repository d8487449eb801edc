// tokens.h - cuts what was said into words, numbers and breaks, each knowing where it stood.
//
// Words come out in lower case, with plain apostrophes kept inside them; hyphens and slashes part
// words. Linear in the text, and never throws on any bytes.

#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace kartwright {

/// Bytes [from, to) of the text as said.
struct Stretch {
  std::size_t from = 0;
  std::size_t to = 0;
};

/// The shortest stretch that covers both.
Stretch cover(Stretch a, Stretch b);

struct Token {
  enum class Kind { word, number, comma, stop };
  Kind kind = Kind::word;
  std::string text;  ///< lower case; for breaks, the marks themselves
  Stretch at = {};
  bool capitals = false;  ///< said in CAPITALS, two letters or more, where not all of it was
};

std::vector<Token> tokens_of(std::string_view said);

/// The stretch as it was said, but fit to print: trimmed, control characters turned into spaces,
/// bytes that are no UTF-8 into U+FFFD.
std::string quote(std::string_view said, Stretch at);

}  // namespace kartwright
