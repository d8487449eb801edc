#include "cli/json_writer.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "cli/safe_json.h"

namespace kartwright::cli {

namespace {

/// True where no byte of a block is odd: neither beyond ASCII nor a control, a quote or a
/// backslash. All are looked at, with no way out in between, so that the compiler takes them at
/// once.
template <std::size_t size>
bool is_plain_block(const char* block) {
  unsigned char odd = 0;
  for (std::size_t i = 0; i < size; ++i) {
    const auto byte = static_cast<unsigned char>(block[i]);
    odd = static_cast<unsigned char>(odd | (byte < 0x20) | (byte > 0x7E) | (byte == '"') |
                                     (byte == '\\'));
  }
  return odd == 0;
}

/// Block by block; the last one reaches back over what was looked at already.
template <std::size_t size>
bool is_plain_by(std::string_view text) {
  for (std::size_t at = 0; at + size < text.size(); at += size) {
    if (!is_plain_block<size>(text.data() + at)) return false;
  }
  return is_plain_block<size>(text.data() + text.size() - size);
}

bool is_plain(std::string_view text) {
  constexpr std::size_t kLong = 16;
  constexpr std::size_t kShort = 4;
  if (text.size() >= kLong) return is_plain_by<kLong>(text);
  if (text.size() >= kShort) return is_plain_by<kShort>(text);
  return std::all_of(text.begin(), text.end(), [](const char& c) { return is_plain_block<1>(&c); });
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
  writer_.number(number);
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
