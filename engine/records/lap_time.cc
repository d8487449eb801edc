#include "engine/records/lap_time.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

namespace kartwright {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool all_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), is_digit);
}

/// Digits with at most one point or comma among them.
std::optional<double> plain_seconds(std::string_view text) {
  constexpr std::size_t kLongest = 12;
  if (text.size() > kLongest) return {};
  std::string number(text);
  std::replace(number.begin(), number.end(), ',', '.');
  const std::size_t point = number.find('.');
  const std::string_view whole = std::string_view(number).substr(0, point);
  if (!all_digits(whole)) return {};
  if (point != std::string::npos && !all_digits(std::string_view(number).substr(point + 1)))
    return {};
  double value{};
  std::from_chars(number.data(), number.data() + number.size(), value);
  return value;
}

}  // namespace

std::optional<double> parse_lap_time(std::string_view text) {
  constexpr double kMinute = 60.0;
  constexpr std::size_t kMostMinutes = 3;  // digits
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos) {
    const auto seconds = plain_seconds(text);
    return seconds && *seconds > 0.0 ? seconds : std::nullopt;
  }
  const std::string_view minutes = text.substr(0, colon);
  const std::string_view rest = text.substr(colon + 1);
  const auto seconds = plain_seconds(rest);
  const std::size_t point = rest.find_first_of(".,");
  const std::size_t digits = point == std::string_view::npos ? rest.size() : point;
  if (!all_digits(minutes) || minutes.size() > kMostMinutes || !seconds || digits != 2 ||
      *seconds >= kMinute)
    return {};
  const double time = kMinute * plain_seconds(minutes).value() + *seconds;
  return time > 0.0 ? std::optional(time) : std::nullopt;
}

std::string print_lap_time(double seconds) {
  constexpr long kMinute = 60'000;
  const long thousandths = std::lround(seconds * 1000.0);
  const long minutes = thousandths / kMinute;
  const long rest = thousandths % kMinute;
  if (minutes == 0) return fmt::format("{}.{:03d}", rest / 1000, rest % 1000);
  return fmt::format("{}:{:02d}.{:03d}", minutes, rest / 1000, rest % 1000);
}

}  // namespace kartwright
