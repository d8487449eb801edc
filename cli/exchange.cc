#include "cli/exchange.h"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>

#include <fmt/format.h>
#include <unistd.h>

#include "cli/broken_stream.h"
#include "cli/exchange_csv.h"
#include "cli/json_line.h"
#include "cli/run_json.h"
#include "cli/tell.h"
#include "engine/records/run_record.h"
#include "engine/records/taking.h"

namespace kartwright::cli {
namespace {

void put_out(const std::string& text) { std::fwrite(text.data(), 1, text.size(), stdout); }

[[noreturn]] void refuse_export(const std::string& file, const char* why) {
  throw InputError({Diagnostic{.code = Code::cannot_read, .file = file, .message = why}});
}

Diagnostic bad_line(const std::string& file, int line, std::string message, std::string help) {
  return {.code = Code::bad_record,
          .file = file,
          .span = {.line = line, .column = 1},
          .message = std::move(message),
          .help = std::move(help)};
}

/// The lines of a JSON export between its first and its last.
class JsonRuns {
 public:
  JsonRuns(std::istream& in, std::string file, Findings& findings)
      : in_(in), file_(std::move(file)), findings_(findings) {}

  /// The next line that is a run; nothing at the end.
  std::optional<Document> next() {
    for (std::string line; take_line(line);) {
      if (is_end(line)) return {};
      const bool comma = line.back() == ',';
      if (comma) line.pop_back();
      if (runs_ > 0 && !comma_) refuse("the line before ends without a comma");
      comma_ = comma;
      ++runs_;
      if (std::optional<Document> run = parse_json_line(file_, line)) return run;
      refuse("the line is not a run in JSON");
    }
    findings_.add(bad_line(file_, line_, "the end of the export is missing",
                           "its last line has how many runs it holds; was it copied whole?"));
    return {};
  }

  int line() const { return line_; }

 private:
  /// The next line that is not blank.
  bool take_line(std::string& line) {
    while (std::getline(in_, line)) {
      ++line_;
      while (!line.empty() && std::string_view(" \t\r").find(line.back()) != std::string::npos)
        line.pop_back();
      if (!line.empty()) return true;
    }
    return false;
  }

  /// Whether a line is the last; it must fit to what stood before it, and nothing may follow.
  bool is_end(const std::string& line) {
    if (!line.starts_with(']')) return false;
    if (line + "\n" != export_end(runs_)) {
      refuse(fmt::format("the export has {} runs, and its end says otherwise", runs_));
    } else if (comma_) {
      refuse("the run before the end has a comma behind it");
    }
    std::string more;
    if (take_line(more)) refuse("something stands behind the end of the export");
    return true;
  }

  void refuse(std::string message) {
    findings_.add(bad_line(file_, line_, std::move(message),
                           "an export has one run a line; `kartwright log export` writes it so"));
  }

  std::istream& in_;
  std::string file_;
  Findings& findings_;
  int line_ = 1;
  std::size_t runs_ = 0;
  bool comma_ = false;  ///< behind the last run
};

/// Puts runs into the log; what cannot be goes to `findings`.
class Taking {
 public:
  Taking(Logbook& log, Findings& findings, bool progress)
      : log_(log), findings_(findings), progress_(progress) {}

  void take(const Document& document, int lines_before) {
    Findings here;
    const std::optional<Run> run = read_run(document, here);
    if (run && !findings_.has_errors()) {
      const std::optional<TakenAs> taken = take_run(log_, *run, document, here);
      if (taken) ++(*taken == TakenAs::added ? done.added : done.there);
    }
    for (Diagnostic found : here.all()) {
      found.span.line += lines_before;
      findings_.add(std::move(found));
    }
    tell_progress();
  }

  Imported done;

 private:
  void tell_progress() const {
    constexpr std::size_t kEvery = 500;
    const std::size_t runs = done.added + done.there;
    if (progress_ && runs > 0 && runs % kEvery == 0 && isatty(STDERR_FILENO) == 1)
      tell("\rkartwright: {} runs", runs);
  }

  Logbook& log_;
  Findings& findings_;
  bool progress_;
};

void take_json(std::istream& in, const std::string& name, Taking& taking, Findings& findings) {
  std::string head;
  std::getline(in, head);
  while (head.ends_with('\r')) head.pop_back();
  if (head + "\n" != export_head()) {
    findings.add(
        bad_line(name, 1, "this is no export of a log that is known here",
                 "its first line is `" + export_head().substr(0, export_head().size() - 1) + "`"));
    return;
  }
  JsonRuns runs(in, name, findings);
  while (const auto document = runs.next()) taking.take(*document, runs.line() - 1);
}

void take_csv(std::istream& in, const std::string& name, Taking& taking, Findings& findings) {
  // The advice that was followed stands in a row, whole.
  CsvRows rows(in, {.longest = std::size_t{16} << 20U, .quotes_keep_blanks = true});
  CsvRuns runs(rows, name, findings);
  while (const auto document = runs.next()) taking.take(*document, 0);
}

}  // namespace

void export_log(const Logbook& log, bool csv) {
  put_out(csv ? csv_head() : export_head());
  const std::vector<std::int64_t> ids = log.ids();
  std::size_t written = 0;
  for (const std::int64_t id : ids) {
    const std::optional<Run> run = log.run(id);
    if (!run) continue;
    ++written;
    put_out(csv ? csv_rows_of(*run) : export_run(*run, id == ids.back()));
  }
  put_out(csv ? csv_end(written) : export_end(written));
}

Imported import_log(Logbook& log, const std::string& path, bool progress) {
  Findings findings;
  std::ifstream opened;
  if (path != "-") {
    std::error_code ignored;
    opened.open(path, std::ios::binary);
    if (!opened || std::filesystem::is_directory(path, ignored)) {
      refuse_export(path, "there is no export to be read here");
    }
  }
  std::istream& in = path == "-" ? std::cin : opened;
  const std::string name = path == "-" ? "standard input" : path;
  Logbook::Writing all(log);
  Taking taking(log, findings, progress);
  if (in.peek() == '{') {
    take_json(in, name, taking, findings);
  } else {
    take_csv(in, name, taking, findings);
  }
  if (broke_off(in)) refuse_export(name, "the export cannot be read to its end");
  findings.throw_if_errors();
  all.commit();
  return taking.done;
}

}  // namespace kartwright::cli
