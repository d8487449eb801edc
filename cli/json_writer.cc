#include "cli/json_writer.h"

#include <cassert>
#include <cmath>

#include "cli/safe_json.h"

namespace kartwright::cli {

using rapidjson::SizeType;

JsonWriter::JsonWriter(std::size_t expected) : buffer_(nullptr, expected), writer_(buffer_) {}

void JsonWriter::value(double number) {
  assert(std::isfinite(number));
  writer_.Double(number);
}

void JsonWriter::value(std::string_view text) {
  writer_.String(text.data(), static_cast<SizeType>(text.size()));
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

void JsonWriter::key(std::string_view name) {
  writer_.Key(name.data(), static_cast<SizeType>(name.size()));
}

std::string JsonWriter::line() const {
  std::string text = safe_json({buffer_.GetString(), buffer_.GetSize()});
  text += '\n';
  return text;
}

}  // namespace kartwright::cli
