#include "cli/batch_desk.h"

#include <optional>
#include <vector>

#include <nlohmann/json.hpp>

#include "cli/advice_json.h"
#include "cli/diagnostics.h"
#include "cli/json_line.h"
#include "engine/advice/advise.h"
#include "engine/debrief/debrief_file.h"

namespace kartwright::cli {
namespace {

using Json = nlohmann::ordered_json;

/// What an answer is where a line has errors.
std::string errors_json(const std::vector<Diagnostic>& found, int line) {
  JsonWriter out;
  out.object([&] {
    out.field("schema", "kartwright/advice/1");
    out.field("line", line);
    out.list("errors", found, [&](const Diagnostic& d) {
      if (d.severity == Severity::error) write_diagnostic(out, d);
    });
  });
  return out.line();
}

/// YAML knows no pairs of surrogates: escapes are written out, where there are any. What is nested
/// deeper than any document stays as it is, since writing goes down level by level.
std::string without_escapes(const std::string& json) {
  if (json.find("\\u") == std::string::npos) return json;
  bool deep = false;
  const Json read = Json::parse(json, [&](int depth, Json::parse_event_t, const Json&) {
    deep = deep || depth > kDeepest;
    return true;
  });
  return deep ? json : read.dump();
}

}  // namespace

BatchDesk::BatchDesk(const AdviseOptions& options, const Pack& pack)
    : options_(options),
      pack_(pack),
      ear_(pack),
      usual_(pack, usual_kart()),
      out_(options.brief ? kBriefAdvice : kWholeAdvice) {}

void BatchDesk::answer(BatchLine& line) {
  try {
    answer_in(line);
  } catch (const InputError& error) {
    std::vector<Diagnostic> found = error.found();
    for (Diagnostic& d : found) {
      if (d.file == options_.batch) d.span.line += line.number - 1;
    }
    line.answer = errors_json(found, line.number);
    line.failed = true;
  } catch (...) {
    line.fault = std::current_exception();
  }
}

/// Of a line that names no kart.
Kart BatchDesk::usual_kart() const {
  if (options_.kart.empty()) return typical_kart(pack_);
  Findings findings;
  Kart kart = read_kart(read_document(options_.kart), pack_, findings);
  findings.throw_if_errors();
  return kart;
}

Diagnostic BatchDesk::at_line(Code code, std::string message, std::string help) const {
  return {.code = code,
          .file = options_.batch,
          .span = {.line = 1, .column = 1},
          .message = std::move(message),
          .help = std::move(help)};
}

Document BatchDesk::document(const BatchLine& line) const {
  if (line.too_long)
    throw InputError({at_line(Code::too_large, "the line is too long to be a debrief",
                              "a debrief takes a few hundred bytes")});
  if (std::optional<Document> read = parse_json_line(options_.batch, line.text))
    return std::move(*read);
  // JSON is YAML, and what reads YAML can say what is wrong with it.
  if (!Json::accept(line.text) || line.text[line.text.find_first_not_of(" \t")] != '{')
    throw InputError({at_line(Code::wrong_shape, "the line is not a JSON object",
                              R"(one debrief a line: {"track": "green", "said": "it pushes"})")});
  return parse_document(options_.batch, without_escapes(line.text));
}

/// What the options say for lines that do not.
void BatchDesk::fill_in(const Document& document, Debrief& debrief) const {
  const auto unsaid = [&](const char* key) { return document.root.find(key) == nullptr; };
  if (options_.track && unsaid("track")) debrief.track = *options_.track;
  if (options_.minutes && unsaid("minutes")) debrief.minutes = *options_.minutes;
  if (options_.hours && unsaid("hours")) debrief.hours = *options_.hours;
}

/// The kart of a file, read once; of many, the last few are kept.
BatchDesk::KnownKart& BatchDesk::shelved(const std::string& path) {
  constexpr std::size_t kMost = 64;
  if (path == "-")
    throw InputError({at_line(Code::cannot_read, "a line cannot have its kart on standard input",
                              "the path of a kart file, or the kart itself")});
  const auto known = karts_.find(path);
  if (known != karts_.end()) return *known->second;
  Findings findings;
  Kart kart = read_kart(read_document(path), pack_, findings);
  findings.throw_if_errors();
  if (karts_.size() >= kMost) karts_.clear();
  auto made = std::make_unique<KnownKart>(pack_, std::move(kart));
  return *karts_.emplace(path, std::move(made)).first->second;
}

void BatchDesk::answer_in(BatchLine& line) {
  const Document read = document(line);
  Findings findings;
  const DebriefFrame frame{.ear = &ear_};
  DebriefFile file = read_debrief(read, read.root, frame, pack_, findings);
  findings.throw_if_errors();
  fill_in(read, file.debrief);
  std::optional<KnownKart> own;
  if (file.kart) own.emplace(pack_, std::move(*file.kart));
  KnownKart& known = own ? *own : file.kart_path.empty() ? usual_ : shelved(file.kart_path);
  const bool whole = !options_.brief;
  const Depth depth{.questions = whole, .room = whole, .together = options_.together};
  const Advice advice =
      advise(known.ground, file.debrief, options_.common.units.value_or(known.kart.units), depth);
  out_.clear();
  write_advice(out_, advice, pack_, options_.brief, {.warnings = findings.all()});
  out_.put_line(line.answer);
}

}  // namespace kartwright::cli
