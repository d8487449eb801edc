#include "cli/drill_record.h"

#include <optional>
#include <sstream>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/safe_json.h"

namespace kartwright::cli {
namespace {

using nlohmann::json;
constexpr const char* kSchema = "kartwright/drill-record/1";

/// A record of a line; nothing where it is none, whatever it is. Never throws.
std::optional<DrillRecord> record_in(const std::string& line) {
  const json in = json::parse(line, nullptr, false);
  if (!in.is_object()) return std::nullopt;
  try {
    if (in.at("schema") != kSchema) return std::nullopt;
    DrillRecord out{.seed = in.at("seed").get<std::uint64_t>(),
                    .level = in.at("level").get<std::string>(),
                    .task = in.at("task").get<std::string>(),
                    .end = in.at("end").get<std::string>(),
                    .end_right = in.at("end-right").get<std::string>(),
                    .end_mark = in.at("end-mark").get<double>(),
                    .choice = in.at("choice").get<std::string>(),
                    .best = in.at("best").get<std::string>(),
                    .mark = in.at("mark").get<double>(),
                    .refused = in.at("refused").get<int>()};
    for (const json& each : in.at("mistakes"))
      out.mistakes.push_back(
          {each.at("said").get<std::string>(), each.at("right").get<std::string>()});
    return out;
  } catch (const json::exception&) {
    return std::nullopt;  // a key is missing, or holds something else
  }
}

}  // namespace

std::string record_line(const DrillRecord& record) {
  nlohmann::ordered_json mistakes = nlohmann::ordered_json::array();
  for (const Mistake& each : record.mistakes)
    mistakes.push_back({{"said", each.said}, {"right", each.right}});
  const nlohmann::ordered_json out{
      {"schema", kSchema},           {"seed", record.seed},       {"level", record.level},
      {"task", record.task},         {"end", record.end},         {"end-right", record.end_right},
      {"end-mark", record.end_mark}, {"choice", record.choice},   {"best", record.best},
      {"mark", record.mark},         {"refused", record.refused}, {"mistakes", mistakes}};
  return safe_json(out.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace));
}

std::vector<DrillRecord> read_records(const std::string& text, const std::string& name,
                                      Findings& findings) {
  std::vector<DrillRecord> out;
  std::istringstream lines(text);
  int number = 0;
  for (std::string line; std::getline(lines, line);) {
    ++number;
    if (line.empty()) continue;
    if (auto record = record_in(line)) {
      out.push_back(std::move(*record));
      continue;
    }
    findings.add({.code = Code::wrong_shape,
                  .severity = Severity::warning,
                  .file = name,
                  .span = {.line = number, .column = 1},
                  .message = "this line is no record of a drill",
                  .help = "it is left out here and stays in the file"});
  }
  return out;
}

std::string record_file(const std::string& trainee) {
  std::string out = "drill-";
  for (const char c : trainee) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    out += plain ? std::string(1, c)
                 : fmt::format("%{:02X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
  }
  return out + ".jsonl";
}

}  // namespace kartwright::cli
