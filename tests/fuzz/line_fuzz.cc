// One line of `advise --batch`: read as JSON and as YAML alike, answered, and answered again.

#include <nlohmann/json.hpp>

#include "cli/batch_desk.h"
#include "cli/json_line.h"
#include "engine/document/edit.h"
#include "engine/document/utf8.h"
#include "tests/fuzz/oracle.h"

namespace kartwright::fuzz {
namespace {

constexpr const char* kBatch = "day.jsonl";

const cli::AdviseOptions& options_of_the_batch() {
  static const cli::AdviseOptions kOptions = [] {
    cli::AdviseOptions options;
    options.batch = kBatch;
    return options;
  }();
  return kOptions;
}

/// A line may name any file of this machine as its kart: those are not read here.
bool names_a_file(const std::string& line) {
  const nlohmann::json json = nlohmann::json::parse(line, nullptr, false);
  return json.is_object() && json.contains("kart") && !json["kart"].is_object();
}

bool same_places(const Node& a, const Node& b) {
  const auto same = [](const Span& one, const Span& other) {
    return one.line == other.line && one.column == other.column;
  };
  if (!same(a.span, b.span) || a.items.size() != b.items.size() ||
      a.entries.size() != b.entries.size())
    return false;
  for (std::size_t i = 0; i < a.items.size(); ++i) {
    if (!same_places(a.items[i], b.items[i])) return false;
  }
  for (std::size_t i = 0; i < a.entries.size(); ++i) {
    if (!same(a.entries[i].span, b.entries[i].span) ||
        !same_places(a.entries[i].value, b.entries[i].value))
      return false;
  }
  return true;
}

/// What the quick reader of JSON takes, the strict one of YAML takes as the same document.
void check_readers(const std::string& line) {
  const auto quick = cli::parse_json_line(kBatch, line);
  if (!quick) return;
  check_places(*quick);
  if (line.find('\\') != std::string::npos) return;  // YAML has other escapes
  try {
    const Document strict = parse_document(kBatch, line);
    hold(same_node(quick->root, strict.root), "JSON and YAML read different things");
    hold(same_places(quick->root, strict.root), "JSON and YAML read in different places");
  } catch (const InputError& error) {
    throw Broken("YAML refuses what JSON takes: " + error.found().front().message);
  }
}

std::string answer_to(cli::BatchDesk& desk, const std::string& text, bool& failed) {
  cli::BatchLine line{.text = text, .number = 7};
  desk.answer(line);
  if (line.fault) std::rethrow_exception(line.fault);
  failed = line.failed;
  return line.answer;
}

void check_errors(const nlohmann::json& answer, std::string_view line) {
  hold(answer.contains("errors") && !answer["errors"].empty(), "refused without an error");
  for (const nlohmann::json& error : answer["errors"]) {
    const int column = error["column"];
    hold(error["line"] == 7 && error["file"] == kBatch, "an error of another line");
    hold(column >= 1 && static_cast<std::size_t>(column) <= characters(line) + 1,
         "an error outside its line: " + error.dump());
  }
}

}  // namespace

Fate fuzz_line(std::string_view bytes) {
  static cli::BatchDesk desk(options_of_the_batch(), shipped_rules());
  const std::string line(bytes.substr(0, bytes.find('\n')));
  if (names_a_file(line)) return Fate::refused;
  check_readers(line);
  bool failed = false;
  const std::string text = answer_to(desk, line, failed);
  hold(text.find('\n') == text.size() - 1, "an answer is not one line");
  check_words(text, "an answer");
  const nlohmann::json answer = nlohmann::json::parse(text, nullptr, false);
  hold(answer.is_object() && answer["schema"] == "kartwright/advice/1", "an answer is no JSON");
  if (failed) check_errors(answer, line);
  if (line.size() % 4 != 0) return failed ? Fate::refused : Fate::taken;
  bool failed_again = false;  // seldom enough to leave the time for other lines
  hold(answer_to(desk, line, failed_again) == text && failed_again == failed,
       "the same line is answered in two ways");
  return failed ? Fate::refused : Fate::taken;
}

}  // namespace kartwright::fuzz
