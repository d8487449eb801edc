#include "tests/support/columns.h"

#include <charconv>
#include <fstream>
#include <optional>
#include <sstream>
#include <stdexcept>

namespace kartwright {

namespace {

using Table = std::vector<std::vector<std::string>>;

Table read_table(const std::string& path) {
  std::ifstream file(std::string(KARTWRIGHT_SOURCE_DIR) + "/" + path);
  if (!file) throw std::runtime_error("cannot read " + path);
  Table table;
  for (std::string line; std::getline(file, line);) {
    std::istringstream cells(line);
    table.emplace_back();
    for (std::string cell; std::getline(cells, cell, ',');) table.back().push_back(cell);
  }
  if (table.size() < 2) throw std::runtime_error("nothing in " + path);
  return table;
}

std::optional<double> number_of(const std::string& text) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool whole = end == text.data() + text.size();
  return error == std::errc{} && whole ? std::optional(value) : std::nullopt;
}

}  // namespace

std::map<std::string, Eigen::VectorXd> numeric_columns(const std::string& path) {
  const Table table = read_table(path);
  std::map<std::string, Eigen::VectorXd> columns;
  for (std::size_t c = 0; c < table[0].size(); ++c) {
    Eigen::VectorXd column(static_cast<Eigen::Index>(table.size()) - 1);
    bool numeric = true;
    for (std::size_t r = 1; r < table.size() && numeric; ++r) {
      const auto value = number_of(table[r].at(c));
      numeric = value.has_value();
      column[static_cast<Eigen::Index>(r) - 1] = value.value_or(0.0);
    }
    if (numeric) columns.emplace(table[0][c], std::move(column));
  }
  return columns;
}

std::vector<std::string> text_column(const std::string& path, const std::string& name) {
  const Table table = read_table(path);
  for (std::size_t c = 0; c < table[0].size(); ++c) {
    if (table[0][c] != name) continue;
    std::vector<std::string> column;
    for (std::size_t r = 1; r < table.size(); ++r) column.push_back(table[r].at(c));
    return column;
  }
  throw std::runtime_error("no column " + name + " in " + path);
}

}  // namespace kartwright
