#include "engine/quantity/number_text.h"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>

namespace kartwright {
namespace {

/// The largest double has 309 digits before the point.
using Room = std::array<char, 330>;

std::uint64_t power_of_ten(int exponent) {
  std::uint64_t power = 1;
  for (; exponent > 0; --exponent) power *= 10;
  return power;
}

/// Writes a whole number of the last decimal.
void append_scaled(std::string& text, std::uint64_t scaled, int decimals) {
  std::array<char, 20> digits{};
  char* const end = digits.data() + digits.size();
  char* at = end;
  for (int place = 0; scaled > 0 || place <= decimals; ++place) {
    if (place == decimals && decimals > 0) *--at = '.';
    *--at = static_cast<char>('0' + scaled % 10);
    scaled /= 10;
  }
  text.append(at, end);
}

}  // namespace

void append_fixed(std::string& text, double value, int decimals) {
  // Far from a half of the last decimal, and small enough to be exact in it, it is plain which way
  // to round; the rest is left to the library.
  constexpr double kLargest = 1e9;
  constexpr double kFarFromHalf = 0.499;
  const double scaled = std::abs(value) * static_cast<double>(power_of_ten(decimals));
  const double whole = std::round(scaled);
  if (scaled < kLargest && std::abs(scaled - whole) < kFarFromHalf) {
    if (std::signbit(value)) text += '-';
    append_scaled(text, static_cast<std::uint64_t>(whole), decimals);
    return;
  }
  Room room{};
  const auto end = std::to_chars(room.data(), room.data() + room.size(), value,
                                 std::chars_format::fixed, decimals);
  text.append(room.data(), end.ptr);
}

void append_short(std::string& text, double value) {
  constexpr int kDigits = 6;
  Room room{};
  const auto end = std::to_chars(room.data(), room.data() + room.size(), value,
                                 std::chars_format::general, kDigits);
  text.append(room.data(), end.ptr);
}

}  // namespace kartwright
