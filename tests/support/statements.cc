#include "tests/support/statements.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>
#include <stdexcept>

namespace kartwright {
namespace {

using Sources = std::map<std::string, CsvRow>;

Sources sources_in(std::string_view text) {
  Sources sources;
  for (const CsvRow& row : read_csv(text)) {
    if (!sources.emplace(row.at("source"), row).second || row.at("group").empty())
      throw std::invalid_argument("source " + row.at("source"));
  }
  return sources;
}

const std::map<std::string, std::set<std::string>>& words() {
  static const std::set<std::string> signs{"+", "-", "0", "?"};
  static const std::map<std::string, std::set<std::string>> words{
      {"surface", {"dry", "wet"}},
      {"track", {"any", "cold", "green", "rubbered"}},
      {"role", {"remedy", "effect", "side_effect", "diagnosis"}},
      {"phase", {"any", "entry", "mid", "exit"}},
      {"end", {"", "front", "rear"}},
      {"front_grip", signs},
      {"rear_grip", signs}};
  return words;
}

void check(const CsvRow& row) {
  for (const auto& [column, known] : words()) {
    if (!known.contains(row.at(column)))
      throw std::invalid_argument(row.at("record") + ": " + column + " " + row.at(column));
  }
}

PublishedStatement statement_of(const CsvRow& row, const Sources& sources) {
  check(row);
  const auto source = sources.find(row.at("source"));
  if (source == sources.end()) throw std::invalid_argument(row.at("record") + ": its source");
  return {.record = row.at("record"),
          .source = row.at("source"),
          .group = source->second.at("group"),
          .title = source->second.at("title"),
          .surface = row.at("surface"),
          .track = row.at("track"),
          .kart = row.at("kart"),
          .role = row.at("role"),
          .symptom = row.at("symptom"),
          .phase = row.at("phase"),
          .adjustment = row.at("adjustment"),
          .direction = row.at("direction"),
          .front_grip = row.at("front_grip"),
          .rear_grip = row.at("rear_grip"),
          .when = row.at("when"),
          .end = row.at("end"),
          .note = row.at("note")};
}

}  // namespace

std::string handling_file(const std::string& name) {
  std::ifstream file(KARTWRIGHT_SOURCE_DIR "/tests/published/handling/" + name, std::ios::binary);
  if (!file) throw std::invalid_argument("cannot read " + name);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::vector<PublishedStatement> statements_in(std::string_view statements,
                                              std::string_view sources) {
  const Sources known = sources_in(sources);
  std::vector<PublishedStatement> out;
  for (const CsvRow& row : read_csv(statements)) out.push_back(statement_of(row, known));
  const auto by_record = [](const auto& a, const auto& b) { return a.record < b.record; };
  std::sort(out.begin(), out.end(), by_record);
  const auto same = [](const auto& a, const auto& b) { return a.record == b.record; };
  const auto twice = std::adjacent_find(out.begin(), out.end(), same);
  if (twice != out.end()) throw std::invalid_argument("record " + twice->record + " twice");
  return out;
}

std::vector<PublishedStatement> published_statements() {
  return statements_in(handling_file("statements.csv"), handling_file("sources.csv"));
}

}  // namespace kartwright
