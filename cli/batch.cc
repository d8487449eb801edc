#include "cli/batch.h"

#include <atomic>
#include <cstdio>
#include <exception>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include <nlohmann/json.hpp>

#include "cli/advice_json.h"
#include "cli/diagnostics.h"
#include "cli/json_line.h"
#include "cli/json_writer.h"
#include "engine/advice/advise.h"
#include "engine/debrief/debrief_file.h"
#include "engine/debrief/sentence.h"

namespace kartwright::cli {
namespace {

using Json = nlohmann::ordered_json;

/// Lines taken in at a time: enough to keep two threads busy, few enough to hold.
constexpr std::size_t kChunk = 256;

struct Line {
  std::string text;
  int number = 0;
  bool too_long = false;
  std::string answer = {};
  bool failed = false;
  std::exception_ptr fault = {};  ///< of the program, not of the line
};

class File {
 public:
  explicit File(const std::string& path)
      : path_(path == "-" ? "standard input" : path),
        file_(path == "-" ? stdin : std::fopen(path.c_str(), "rb")) {
    if (file_ == nullptr) cannot_read("the file cannot be read", "check the path");
  }
  ~File() {
    if (file_ != stdin) std::fclose(file_);
  }
  File(const File&) = delete;
  File& operator=(const File&) = delete;

  /// The next line without its end; nothing after the last. The rest of one that is too long is
  /// read and dropped.
  std::optional<Line> next() {
    int c = getc_unlocked(file_);
    if (c == EOF) {
      if (std::ferror(file_) != 0) cannot_read("the file cannot be read to its end");
      return std::nullopt;
    }
    Line line{.text = {}, .number = ++number_};
    std::size_t dropped = 0;
    for (; c != EOF && c != '\n'; c = getc_unlocked(file_)) {
      if (line.text.size() < kLongestLine) {
        line.text += static_cast<char>(c);
      } else if (line.too_long = true; ++dropped == kMostDropped) {
        refuse("a line does not end", number_);
      }
    }
    return line;
  }

 private:
  [[noreturn]] void cannot_read(const char* why, const char* help = "") const {
    throw InputError(
        {Diagnostic{.code = Code::cannot_read, .file = path_, .message = why, .help = help}});
  }

  [[noreturn]] void refuse(const char* why, int line) const {
    throw InputError({Diagnostic{.code = Code::too_large,
                                 .file = path_,
                                 .span = {.line = line, .column = 1},
                                 .message = why,
                                 .help = "one debrief a line; is this a text file?"}});
  }

  static constexpr std::size_t kMostDropped = std::size_t{64} << 20U;  ///< bytes of one line
  std::string path_;
  std::FILE* file_;
  int number_ = 0;
};

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

/// A kart, with what was worked out of it already.
struct KnownToDesk {
  Kart kart;
  Groundwork ground;
  KnownToDesk(const Pack& pack, Kart of_this) : kart(std::move(of_this)), ground(pack, kart) {}
  KnownToDesk(const KnownToDesk&) = delete;
  KnownToDesk& operator=(const KnownToDesk&) = delete;
};

/// Answers lines one after another, with an ear and a shelf of karts that it keeps.
class Desk {
 public:
  Desk(const AdviseOptions& options, const Pack& pack)
      : options_(options), pack_(pack), ear_(pack), usual_(pack, usual_kart()) {}

  void answer(Line& line) {
    try {
      line.answer = answered(line);
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

 private:
  /// Of a line that names no kart.
  Kart usual_kart() const {
    if (options_.kart.empty()) return typical_kart(pack_);
    Findings findings;
    Kart kart = read_kart(read_document(options_.kart), pack_, findings);
    findings.throw_if_errors();
    return kart;
  }

  Diagnostic at_line(Code code, std::string message, std::string help) const {
    return {.code = code,
            .file = options_.batch,
            .span = {.line = 1, .column = 1},
            .message = std::move(message),
            .help = std::move(help)};
  }

  Document document(const Line& line) const {
    if (line.too_long)
      throw InputError({at_line(Code::too_large, "the line is too long to be a debrief",
                                "a debrief takes a few hundred bytes")});
    if (std::optional<Document> read = parse_json_line(options_.batch, line.text))
      return std::move(*read);
    // JSON is YAML, and what reads YAML can say what is wrong with it.
    if (!Json::accept(line.text) || line.text[line.text.find_first_not_of(" \t")] != '{')
      throw InputError({at_line(Code::wrong_shape, "the line is not a JSON object",
                                R"(one debrief a line: {"track": "green", "said": "it pushes"})")});
    // YAML knows no pairs of surrogates: escapes are written out first, where there are any.
    const bool escapes = line.text.find("\\u") != std::string::npos;
    return parse_document(options_.batch, escapes ? Json::parse(line.text).dump() : line.text);
  }

  /// What the options say for lines that do not.
  void fill_in(const Document& document, Debrief& debrief) const {
    const auto unsaid = [&](const char* key) { return document.root.find(key) == nullptr; };
    if (options_.track && unsaid("track")) debrief.track = *options_.track;
    if (options_.minutes && unsaid("minutes")) debrief.minutes = *options_.minutes;
    if (options_.hours && unsaid("hours")) debrief.hours = *options_.hours;
  }

  /// The kart of a file, read once; of many, the last few are kept.
  KnownToDesk& shelved(const std::string& path) {
    constexpr std::size_t kMost = 64;
    const auto known = karts_.find(path);
    if (known != karts_.end()) return *known->second;
    Findings findings;
    Kart kart = read_kart(read_document(path), pack_, findings);
    findings.throw_if_errors();
    if (karts_.size() >= kMost) karts_.clear();
    auto made = std::make_unique<KnownToDesk>(pack_, std::move(kart));
    return *karts_.emplace(path, std::move(made)).first->second;
  }

  std::string answered(const Line& line) {
    const Document read = document(line);
    Findings findings;
    const DebriefFrame frame{.ear = &ear_};
    DebriefFile file = read_debrief(read, read.root, frame, pack_, findings);
    findings.throw_if_errors();
    fill_in(read, file.debrief);
    std::optional<KnownToDesk> own;
    if (file.kart) own.emplace(pack_, std::move(*file.kart));
    KnownToDesk& known = own ? *own : file.kart_path.empty() ? usual_ : shelved(file.kart_path);
    const bool whole = !options_.brief;
    const Depth depth{.questions = whole, .room = whole, .together = options_.together};
    const Advice advice =
        advise(known.ground, file.debrief, options_.common.units.value_or(known.kart.units), depth);
    return advice_json(advice, pack_, options_.brief, {.warnings = findings.all()});
  }

  const AdviseOptions& options_;
  const Pack& pack_;
  Ear ear_;
  KnownToDesk usual_;
  std::map<std::string, std::unique_ptr<KnownToDesk>> karts_;
};

/// Answers the lines of a chunk, each desk taking the next one that is free.
void answer_all(std::vector<Line>& lines, std::vector<std::unique_ptr<Desk>>& desks) {
  std::atomic<std::size_t> next = 0;
  const auto work = [&](Desk& desk) {
    for (std::size_t i = next++; i < lines.size(); i = next++) desk.answer(lines[i]);
  };
  std::vector<std::jthread> others;
  for (std::size_t d = 1; d < desks.size(); ++d) others.emplace_back([&, d] { work(*desks[d]); });
  work(*desks.front());
}

}  // namespace

int run_batch(const AdviseOptions& options, const Pack& pack) {
  File file(options.batch);
  std::vector<std::unique_ptr<Desk>> desks;
  for (int d = 0; d < options.threads; ++d) desks.push_back(std::make_unique<Desk>(options, pack));
  int exit = kSuccess;
  std::vector<Line> lines;
  do {
    lines.clear();
    while (lines.size() < kChunk) {
      std::optional<Line> line = file.next();
      if (!line) break;
      lines.push_back(std::move(*line));
    }
    answer_all(lines, desks);
    for (const Line& line : lines) {
      if (line.fault) std::rethrow_exception(line.fault);
      std::fwrite(line.answer.data(), 1, line.answer.size(), stdout);
      if (line.failed) exit = kBadData;
    }
  } while (lines.size() == kChunk && std::ferror(stdout) == 0);
  return exit;
}

}  // namespace kartwright::cli
