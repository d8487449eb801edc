#include "cli/json_writer.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "cli/safe_json.h"

namespace kartwright::cli {

using rapidjson::SizeType;

namespace {

/// True where every byte is ASCII, and neither a control, nor a quote or a backslash. All are
/// looked at, with no way out in between, so that the compiler can take many at once.
bool is_plain(std::string_view text) {
  unsigned char odd = 0;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    odd = static_cast<unsigned char>(odd | (byte < 0x20) | (byte > 0x7E) | (byte == '"') |
                                     (byte == '\\'));
  }
  return odd == 0;
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
