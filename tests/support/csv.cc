#include "tests/support/csv.h"

#include <algorithm>
#include <set>
#include <stdexcept>

namespace kartwright {
namespace {

using CsvFields = std::vector<std::string>;

class CsvReader {
 public:
  explicit CsvReader(std::string_view text) : text_(text) {}

  bool done() const { return at_ == text_.size(); }
  int line() const { return line_; }

  CsvFields record() {
    CsvFields fields{field()};
    while (take(',')) fields.push_back(field());
    end_of_line();
    return fields;
  }

  [[noreturn]] void refuse(const std::string& why) const {
    throw std::invalid_argument("line " + std::to_string(line_) + ": " + why);
  }

 private:
  bool take(char c) {
    if (done() || text_[at_] != c) return false;
    ++at_;
    return true;
  }

  std::string field() { return take('"') ? quoted() : bare(); }

  std::string bare() {
    const std::size_t end = std::min(text_.find_first_of(",\r\n", at_), text_.size());
    std::string out(text_.substr(at_, end - at_));
    if (out.find('"') != std::string::npos) refuse("a quote inside a bare field");
    at_ = end;
    return out;
  }

  std::string quoted() {
    std::string out;
    while (!done()) {
      const char c = text_[at_++];
      if (c == '"' && !take('"')) return out;
      if (c == '\n') ++line_;
      out += c;
    }
    refuse("a quote is left open");
  }

  void end_of_line() {
    const bool carriage = take('\r');
    if (take('\n')) {
      ++line_;
    } else if (carriage || !done()) {
      refuse(carriage ? "a CR without its LF" : "text behind a closing quote");
    }
  }

  std::string_view text_;
  std::size_t at_ = 0;
  int line_ = 1;
};

CsvRow row_of(const CsvReader& reader, const CsvFields& names, const CsvFields& fields) {
  if (fields.size() != names.size())
    reader.refuse("the row before it has " + std::to_string(fields.size()) + " fields, not " +
                  std::to_string(names.size()));
  CsvRow row;
  for (std::size_t i = 0; i < names.size(); ++i) row[names[i]] = fields[i];
  return row;
}

}  // namespace

std::vector<CsvRow> read_csv(std::string_view text) {
  CsvReader reader(text);
  const CsvFields names = reader.record();
  const std::set<std::string> unique(names.begin(), names.end());
  if (unique.size() != names.size() || unique.contains("")) reader.refuse("names of columns");
  std::vector<CsvRow> rows;
  while (!reader.done()) {
    const CsvFields fields = reader.record();
    rows.push_back(row_of(reader, names, fields));
  }
  return rows;
}

}  // namespace kartwright
