// utf8.h - the little that the document reader must know about UTF-8.

#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace kartwright {

/// Length of the well-formed sequence (RFC 3629) at the start of a text that is not empty, or 0.
std::size_t sequence_length(std::string_view text);

/// Offset of the first byte that is not well-formed UTF-8 (RFC 3629: no overlong forms, no
/// surrogates, at most U+10FFFF), or nothing.
std::optional<std::size_t> first_invalid_utf8(std::string_view text);

/// How many characters (code points) a well-formed text has; in any other, how many lead bytes.
std::size_t characters(std::string_view text);

/// The offset so many characters behind `from`, at most the end of the text.
std::size_t characters_behind(std::string_view text, std::size_t from, std::size_t count);

}  // namespace kartwright
