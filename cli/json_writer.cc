#include "cli/json_writer.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstring>

#include "cli/safe_json.h"

namespace kartwright::cli {

using rapidjson::SizeType;

namespace {

/// Every byte of a word with this value.
constexpr std::uint64_t each(std::uint64_t byte) { return byte * 0x0101010101010101U; }

constexpr std::uint64_t kHighBits = each(0x80);

/// Not zero where some byte of the word is zero.
constexpr std::uint64_t zeros(std::uint64_t word) { return (word - each(1)) & ~word & kHighBits; }

/// True where each of eight bytes is ASCII, and neither a control, nor a quote or a backslash.
constexpr bool is_plain(std::uint64_t word) {
  const std::uint64_t low = (word - each(0x20)) & ~word & kHighBits;
  const std::uint64_t high = (word | (word + each(1))) & kHighBits;  // 0x7F too
  return (low | high | zeros(word ^ each('"')) | zeros(word ^ each('\\'))) == 0;
}

bool is_plain(std::string_view text) {
  std::uint64_t word = 0;
  for (; text.size() >= sizeof word; text.remove_prefix(sizeof word)) {
    std::memcpy(&word, text.data(), sizeof word);
    if (!is_plain(word)) return false;
  }
  word = each(' ');
  std::memcpy(&word, text.data(), text.size());
  return is_plain(word);
}

}  // namespace

void PlainWriter::plain(std::string_view text) {
  Prefix(rapidjson::kStringType);
  char* to = os_->Push(text.size() + 2);
  *to++ = '"';
  to = std::copy(text.begin(), text.end(), to);
  *to = '"';
}

JsonWriter::JsonWriter(std::size_t expected) : buffer_(nullptr, expected), writer_(buffer_) {}

void JsonWriter::value(double number) {
  assert(std::isfinite(number));
  writer_.Double(number);
}

void JsonWriter::value(std::string_view text) {
  if (is_plain(text)) return writer_.plain(text);
  writer_.String(text.data(), static_cast<SizeType>(text.size()));
  safe_ = safe_ && is_safe(text);
}

void JsonWriter::value(const Eigen::VectorXd& numbers) {
  writer_.StartArray();
  for (Eigen::Index i = 0; i < numbers.size(); ++i) value(numbers[i]);
  writer_.EndArray();
}

void JsonWriter::value(const Eigen::MatrixXd& rows) {
  writer_.StartArray();
  for (Eigen::Index i = 0; i < rows.rows(); ++i) {
    writer_.StartArray();
    for (Eigen::Index k = 0; k < rows.cols(); ++k) value(rows(i, k));
    writer_.EndArray();
  }
  writer_.EndArray();
}

std::string JsonWriter::line() const {
  const std::string_view written(buffer_.GetString(), buffer_.GetSize());
  std::string text;
  text.reserve(written.size() + 1);
  text += written;
  if (!safe_) text = safe_json(text);
  text += '\n';
  return text;
}

}  // namespace kartwright::cli
