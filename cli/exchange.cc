#include "cli/exchange.h"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>

#include <fmt/format.h>
#include <unistd.h>

#include "cli/exchange_csv.h"
#include "cli/json_line.h"
#include "cli/run_json.h"
#include "engine/records/run_record.h"

namespace kartwright::cli {
namespace {

void put_out(const std::string& text) { std::fwrite(text.data(), 1, text.size(), stdout); }

/// A run as it is compared: the same whatever this log numbers it.
std::string identity(Run run) {
  run.id = 0;
  return export_run(run, true);
}

/// The lines of a JSON export between its first and its last.
class JsonRuns {
 public:
  JsonRuns(std::istream& in, std::string file, Findings& findings)
      : in_(in), file_(std::move(file)), findings_(findings) {}

  std::optional<Document> next() {
    std::string line;
    while (std::getline(in_, line)) {
      ++line_;
      while (!line.empty() && std::string_view(" \t\r,").find(line.back()) != std::string::npos)
        line.pop_back();
      if (line.empty()) continue;
      if (line + "\n" == export_end()) return {};
      std::optional<Document> run = parse_json_line(file_, line);
      if (run) return run;
      findings_.add({.code = Code::bad_record,
                     .file = file_,
                     .span = {.line = line_, .column = 1},
                     .message = "the line is not a run in JSON",
                     .help = "an export has one run a line; `kartwright log export` writes it so"});
    }
    findings_.add({.code = Code::bad_record,
                   .file = file_,
                   .span = {.line = line_, .column = 1},
                   .message = "the end of the export is missing",
                   .help = "its last line is `]}`; was it copied whole?"});
    return {};
  }

  int line() const { return line_; }

 private:
  std::istream& in_;
  std::string file_;
  Findings& findings_;
  int line_ = 1;
};

/// Puts runs into the log; what cannot be goes to `findings`.
class Taking {
 public:
  Taking(Logbook& log, Findings& findings) : log_(log), findings_(findings) {}

  void take(const Document& document, int lines_before) {
    Findings here;
    std::optional<Run> run = read_run(document, here);
    for (Diagnostic found : here.all()) {
      found.span.line += lines_before;
      findings_.add(std::move(found));
    }
    if (!run || findings_.has_errors()) return;
    const std::optional<Run> there = log_.run_at(run->kart, run->at);
    if (!there) {
      log_.put(*run);
      ++done.added;
      return;
    }
    const std::string incoming = identity(*run);
    if (identity(*there) == incoming || (!run->driven && there->driven)) {
      ++done.there;
    } else if (!there->driven) {
      run->id = there->id;
      log_.put(*run);
      ++done.added;
    } else {
      Diagnostic found =
          document.at(document.root.span, Code::run_differs,
                      fmt::format("the log has another run of {} at {}", run->kart, run->at),
                      "nothing was taken; `kartwright log show` shows the log's");
      found.span.line += lines_before;
      findings_.add(std::move(found));
    }
  }

  Imported done;

 private:
  Logbook& log_;
  Findings& findings_;
};

void tell_progress(bool wanted, std::size_t runs) {
  constexpr std::size_t kEvery = 500;
  if (wanted && runs % kEvery == 0 && isatty(STDERR_FILENO) == 1)
    fmt::print(stderr, "\rkartwright: {} runs", runs);
}

}  // namespace

void export_log(const Logbook& log, bool csv) {
  put_out(csv ? csv_head() : export_head());
  const std::vector<std::int64_t> ids = log.ids();
  for (const std::int64_t id : ids) {
    const std::optional<Run> run = log.run(id);
    if (run) put_out(csv ? csv_rows_of(*run) : export_run(*run, id == ids.back()));
  }
  if (!csv) put_out(export_end());
}

Imported import_log(Logbook& log, const std::string& path, bool progress) {
  Findings findings;
  std::ifstream opened;
  if (path != "-") {
    std::error_code ignored;
    opened.open(path, std::ios::binary);
    if (!opened || std::filesystem::is_directory(path, ignored)) {
      throw InputError({Diagnostic{.code = Code::cannot_read,
                                   .file = path,
                                   .message = "there is no export to be read here"}});
    }
  }
  std::istream& in = path == "-" ? std::cin : opened;
  const std::string name = path == "-" ? "standard input" : path;
  Logbook::Writing all(log);
  Taking taking(log, findings);
  const auto count = [&] { return taking.done.added + taking.done.there; };
  if (in.peek() == '{') {
    std::string head;
    std::getline(in, head);
    while (head.ends_with('\r')) head.pop_back();
    if (head + "\n" != export_head()) {
      findings.add({.code = Code::bad_record,
                    .file = name,
                    .span = {.line = 1, .column = 1},
                    .message = "this is no export of a log that is known here",
                    .help = "its first line is `" +
                            export_head().substr(0, export_head().size() - 1) + "`"});
    }
    findings.throw_if_errors();
    JsonRuns runs(in, name, findings);
    while (const auto document = runs.next()) {
      taking.take(*document, runs.line() - 1);
      tell_progress(progress, count());
    }
  } else {
    CsvRows rows(in);
    CsvRuns runs(rows, name, findings);
    while (const auto document = runs.next()) {
      taking.take(*document, 0);
      tell_progress(progress, count());
    }
  }
  findings.throw_if_errors();
  all.commit();
  return taking.done;
}

}  // namespace kartwright::cli
