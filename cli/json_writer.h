// json_writer.h - writes JSON front to back, with no tree of it in between.
//
// Keys come out in the order they are written. Numbers read back exactly.

#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

namespace kartwright::cli {

/// What the library writes of a value alone; what stands between values is not its affair.
class ValueWriter : public rapidjson::Writer<rapidjson::StringBuffer> {
 public:
  using Writer::Writer;

  void number(double number) { WriteDouble(number); }
  void number(std::int64_t number) { WriteInt64(number); }
  void text(std::string_view text) {
    WriteString(text.data(), static_cast<rapidjson::SizeType>(text.size()));
  }
};

class JsonWriter {
 public:
  /// `expected` bytes are set aside; more are taken where they are needed.
  explicit JsonWriter(std::size_t expected = 1U << 10U);

  /// Forgets what was written, and keeps what was set aside.
  void clear();

  void value(std::nullptr_t) { plain("null"); }
  void value(bool b) { plain(b ? "true" : "false"); }
  void value(double number);  ///< REQUIRES: finite
  void value(std::string_view text);
  void value(const char* text) { value(std::string_view(text)); }
  void value(const std::string& text) { value(std::string_view(text)); }
  void value(const Eigen::VectorXd& numbers);
  void value(const Eigen::MatrixXd& rows);
  template <std::integral T>
  void value(T number) {
    next(0);
    writer_.number(static_cast<std::int64_t>(number));
  }
  template <typename T>
  void value(const std::optional<T>& item) {
    item ? value(*item) : value(nullptr);
  }

  /// REQUIRES: nothing to escape.
  void key(std::string_view name) {
    char* to = next(name.size() + 3);
    *to++ = '"';
    to = std::copy(name.begin(), name.end(), to);
    *to++ = '"';
    *to = ':';
    part_ = false;
  }
  template <typename T>
  void field(std::string_view name, const T& item) {
    key(name);
    value(item);
  }

  /// An object with the fields that `body()` writes.
  template <typename Body>
  void object(const Body& body) {
    open('{');
    body();
    close('}');
  }
  template <typename Body>
  void object(std::string_view name, const Body& body) {
    key(name);
    object(body);
  }

  /// A list with one value for each item, which `each(item)` writes.
  template <typename Items, typename Each>
  void list(std::string_view name, const Items& items, const Each& each) {
    key(name);
    open('[');
    for (const auto& item : items) each(item);
    close(']');
  }
  /// A list of plain values.
  template <typename Items>
  void list(std::string_view name, const Items& items) {
    list(name, items, [&](const auto& item) { value(item); });
  }

  /// What was written, and a line end, fit to be shown on a terminal; see safe_json.h.
  std::string line() const;
  /// The same in the place of what `text` holds.
  void put_line(std::string& text) const;

 private:
  /// Where so many bytes go, behind what parts them from the value before.
  char* next(std::size_t bytes) {
    char* to = buffer_.Push(bytes + (part_ ? 1 : 0));
    if (part_) *to++ = ',';
    part_ = true;
    return to;
  }
  void open(char bracket) {
    *next(1) = bracket;
    part_ = false;
  }
  void close(char bracket) {
    buffer_.Put(bracket);
    part_ = true;
  }
  void plain(std::string_view word) { std::copy(word.begin(), word.end(), next(word.size())); }

  rapidjson::StringBuffer buffer_;
  ValueWriter writer_;
  bool part_ = false;  ///< what comes next is parted from what came before
  bool safe_ = true;   ///< nothing was written that could steer a terminal
};

}  // namespace kartwright::cli
