// json_writer.h - writes JSON front to back, with no tree of it in between.
//
// Keys come out in the order they are written. Numbers read back exactly.

#pragma once

#include <Eigen/Core>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

namespace kartwright::cli {

/// The library's writer, which looks at every byte of a text, and a way around that.
class PlainWriter : public rapidjson::Writer<rapidjson::StringBuffer> {
 public:
  using Writer::Writer;

  /// A text or a key that stands in JSON as it is.
  void plain(std::string_view text);
};

class JsonWriter {
 public:
  /// `expected` bytes are set aside; more are taken where they are needed.
  explicit JsonWriter(std::size_t expected = 1U << 10U);

  void value(std::nullptr_t) { writer_.Null(); }
  void value(bool b) { writer_.Bool(b); }
  void value(double number);  ///< REQUIRES: finite
  void value(std::string_view text);
  void value(const char* text) { value(std::string_view(text)); }
  void value(const std::string& text) { value(std::string_view(text)); }
  void value(const Eigen::VectorXd& numbers);
  void value(const Eigen::MatrixXd& rows);
  template <std::integral T>
  void value(T number) {
    writer_.Int64(static_cast<std::int64_t>(number));
  }
  template <typename T>
  void value(const std::optional<T>& item) {
    item ? value(*item) : value(nullptr);
  }

  void key(std::string_view name) { writer_.plain(name); }  ///< REQUIRES: nothing to escape
  template <typename T>
  void field(std::string_view name, const T& item) {
    key(name);
    value(item);
  }

  /// An object with the fields that `body()` writes.
  template <typename Body>
  void object(const Body& body) {
    writer_.StartObject();
    body();
    writer_.EndObject();
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
    writer_.StartArray();
    for (const auto& item : items) each(item);
    writer_.EndArray();
  }
  /// A list of plain values.
  template <typename Items>
  void list(std::string_view name, const Items& items) {
    list(name, items, [&](const auto& item) { value(item); });
  }

  /// What was written, and a line end, fit to be shown on a terminal; see safe_json.h.
  std::string line() const;

 private:
  rapidjson::StringBuffer buffer_;
  PlainWriter writer_;
  bool safe_ = true;  ///< nothing was written that could steer a terminal
};

}  // namespace kartwright::cli
