// log_columns.h - the fields of a run into the columns of a statement and out of them.

#pragma once

#include <string>

#include <SQLiteCpp/SQLiteCpp.h>

#include "engine/records/field_words.h"
#include "engine/records/run_fields.h"

namespace kartwright {

/// Binds fields one after the other; an empty one is NULL.
struct BindColumns {
  SQLite::Statement& statement;
  int next;

  void operator()(const char*, const std::string& text) {
    text.empty() ? statement.bind(next) : statement.bind(next, text);
    ++next;
  }
  void operator()(const char*, double number) { statement.bind(next++, number); }
  void operator()(const char*, int number) { statement.bind(next++, number); }
  void operator()(const char*, bool truth) { statement.bind(next++, truth ? 1 : 0); }
  template <typename Number>
  void operator()(const char* name, const std::optional<Number>& number) {
    number ? (*this)(name, *number) : (*this)(name, std::string());
  }
  void operator()(const char* name, const std::vector<std::string>& texts) {
    (*this)(name, in_one_text(texts));
  }
  template <typename Enum>
  requires std::is_enum_v<Enum>
  void operator()(const char* name, Enum value) { (*this)(name, std::string(name_of(value))); }
};

/// Reads fields one after the other; a word that is none of an enum is damage.
struct ReadColumns {
  SQLite::Statement& statement;
  int next;
  const std::string& path;

  void operator()(const char*, std::string& text) {
    const SQLite::Column column = statement.getColumn(next++);
    text.assign(column.getText(), static_cast<std::size_t>(column.getBytes()));
  }
  void operator()(const char*, double& number) { number = statement.getColumn(next++).getDouble(); }
  void operator()(const char*, int& number) { number = statement.getColumn(next++).getInt(); }
  void operator()(const char*, bool& truth) { truth = statement.getColumn(next++).getInt() != 0; }
  template <typename T>
  void operator()(const char* name, std::optional<T>& item) {
    if (statement.getColumn(next).isNull()) {
      ++next;
      return;
    }
    (*this)(name, item.emplace());
  }
  void operator()(const char* name, std::vector<std::string>& texts) {
    std::string text;
    (*this)(name, text);
    texts = out_of_one_text(text);
  }
  template <typename Enum>
  requires std::is_enum_v<Enum>
  void operator()(const char* name, Enum& value) {
    std::string text;
    (*this)(name, text);
    if (!from_word(text, value)) no_such_word(path, name, text);
  }

  /// Throws InputError.
  [[noreturn]] static void no_such_word(const std::string& path, const char* name,
                                        const std::string& text);
};

}  // namespace kartwright
