#include "cli/json_writer.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <cstring>

#include "cli/safe_json.h"

namespace kartwright::cli {

namespace {

using EightBytes = std::uint64_t;  // eight bytes of a text, looked at all at once

constexpr EightBytes each_byte(unsigned char byte) { return 0x0101010101010101U * byte; }

EightBytes word_at(const char* bytes, std::size_t count = sizeof(EightBytes)) {
  EightBytes word = each_byte(' ');
  std::memcpy(&word, bytes, count);
  return word;
}

/// Zero only where every byte is ASCII, and neither a control, nor a quote or a backslash: what a
/// difference or a sum brings over from a byte below comes from one that is odd already.
constexpr EightBytes odd_bytes(EightBytes word) {
  const EightBytes odd = word | (word - each_byte(' ')) | (word + each_byte(1)) |
                         ((word ^ each_byte('"')) - each_byte(1)) |
                         ((word ^ each_byte('\\')) - each_byte(1));
  return odd & each_byte(0x80);
}

/// True where a text stands in JSON as it is. The last word reaches back over what was looked at.
bool is_plain(std::string_view text) {
  if (text.empty()) return true;
  if (text.size() < sizeof(EightBytes)) return odd_bytes(word_at(text.data(), text.size())) == 0;
  EightBytes odd = odd_bytes(word_at(text.data() + text.size() - sizeof(EightBytes)));
  for (std::size_t at = 0; at + sizeof(EightBytes) < text.size(); at += sizeof(EightBytes))
    odd |= odd_bytes(word_at(text.data() + at));
  return odd == 0;
}

/// A number whose digits need not be searched for; about every second one is.
bool is_small_whole(double number) {
  constexpr double kSmall = 1e6;
  return std::abs(number) < kSmall && number == std::trunc(number) &&
         !(number == 0.0 && std::signbit(number));
}

}  // namespace

JsonWriter::JsonWriter(std::size_t expected) : buffer_(nullptr, expected), writer_(buffer_) {}

void JsonWriter::clear() {
  buffer_.Clear();
  part_ = false;
  safe_ = true;
}

void JsonWriter::value(double number) {
  assert(std::isfinite(number));
  next(0);
  if (!is_small_whole(number)) return writer_.number(number);
  writer_.number(static_cast<std::int64_t>(number));
  constexpr std::string_view kPoint = ".0";
  std::copy(kPoint.begin(), kPoint.end(), buffer_.Push(kPoint.size()));
}

void JsonWriter::value(std::string_view text) {
  if (is_plain(text)) {
    char* to = next(text.size() + 2);
    *to++ = '"';
    to = std::copy(text.begin(), text.end(), to);
    *to = '"';
    return;
  }
  next(0);
  writer_.text(text);
  safe_ = safe_ && is_safe(text);
}

void JsonWriter::value(const Eigen::VectorXd& numbers) {
  open('[');
  for (Eigen::Index i = 0; i < numbers.size(); ++i) value(numbers[i]);
  close(']');
}

void JsonWriter::value(const Eigen::MatrixXd& rows) {
  open('[');
  for (Eigen::Index i = 0; i < rows.rows(); ++i) {
    open('[');
    for (Eigen::Index k = 0; k < rows.cols(); ++k) value(rows(i, k));
    close(']');
  }
  close(']');
}

std::string JsonWriter::line() const {
  std::string text;
  put_line(text);
  return text;
}

void JsonWriter::put_line(std::string& text) const {
  const std::string_view written(buffer_.GetString(), buffer_.GetSize());
  text.reserve(written.size() + 1);
  text = written;
  if (!safe_) text = safe_json(text);
  text += '\n';
}

}  // namespace kartwright::cli
