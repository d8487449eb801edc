#include "tests/support/log_files.h"

#include <csignal>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sys/resource.h>

#include "cli/run_json.h"
#include "engine/records/apply.h"
#include "engine/records/log_schema.h"
#include "engine/records/lookup.h"
#include "engine/records/run_record.h"
#include "engine/records/taking.h"
#include "tests/support/kart_pack.h"
#include "tests/support/small_rules.h"

namespace kartwright {

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

namespace {

std::vector<Report> whole_reports() {
  return {{.symptom = "push",
           .phase = Phase::entry,
           .severity = 3,
           .confidence = Confidence::sure,
           .side = Side::left,
           .when = When::late,
           .corners = {"3", "the hairpin"},
           .words = "pushes, going in"},
          {.symptom = "hop", .phase = Phase::mid, .severity = 0, .from_praise = true}};
}

std::vector<RunChange> whole_changes() {
  return {{.adjustment = "toe",
           .from = "0 mm",
           .to = "1 mm",
           .steps = 1.0,
           .origin = Origin::advice,
           .asked_by = "chief",
           .why = "lazy on the wheel",
           .rank = 2,
           .relief = 0.1 + 0.2,
           .advice = "{\"changes\":[\"é \\\" \"]}\n"},
          {.adjustment = "rear-width", .from = "1370 mm", .to = "1360 mm", .steps = -2.0}};
}

}  // namespace

Run whole_run(const std::string& at) {
  return {.kart = "blue 27",
          .at = at,
          .session = "heat 2; \"the long one\"",
          .track = "green",
          .air = 11.25,
          .road = 17.1,
          .tyres = "set 2, scrubbed",
          .tyre_laps = 31,
          .driver = " Quill Östman",
          .load = "3 l, lead on the left",
          .driven = true,
          .complete = true,
          .said = "pushes, going in",
          .settings = {{"axle", "medium"}, {"rear-width", "1360 mm"}, {"toe", "1 mm"}},
          .laps = {{1, 33.91, LapFlag::out},
                   {2, 31.1 + 0.32, LapFlag::counts, true},
                   {3, 62.417, LapFlag::traffic},
                   {4, 35.0, LapFlag::in}},
          .reports = whole_reports(),
          .facts = {{"turn-in", "brake", "on the brake"}, {"hit", "yes"}},
          .notes = {{"kerb at three"}, {"wind, from the sea"}},
          .changes = whole_changes(),
          .verdicts = {{"toe", ClockVerdict::keep, "clock", "0.21 s a lap"},
                       {"rear-width", ClockVerdict::revert, "crew", ""}}};
}

Run plain_run(const std::string& kart, const std::string& at) {
  return {.kart = kart, .at = at, .laps = {{1, 31.5}, {2, 31.4}, {3, 31.45}}};
}

std::string in_words(const Run& run) { return cli::export_run(run, true); }

std::string log_of_runs(const std::string& path, int runs) {
  Logbook log(path, kKeeping);
  std::string at = "2026-11-14T10:30:00";
  for (int i = 0; i < runs; ++i, at = later(at, 3600)) log.put(whole_run(at));
  return path;
}

std::string blue_kart_file(const std::string& rear_width) {
  return "kart: blue 27\nclass:\n  limits: {rear-width: {at-most: 1390 mm}}\nsettings:\n"
         "  axle: medium\n  rear-width: " +
         rear_width + "  # by the tape\n  toe: 1 mm\nparts: {axle: [soft, medium]}\n";
}

Kart blue_kart(const std::string& rear_width) {
  return read_kart_text(blue_kart_file(rear_width), kart_pack()).kart;
}

FullDisk::FullDisk(std::size_t bytes) : handler_(std::signal(SIGXFSZ, SIG_IGN)) {
  rlimit limit{};
  getrlimit(RLIMIT_FSIZE, &limit);
  before_ = limit.rlim_cur;
  limit.rlim_cur = bytes;
  setrlimit(RLIMIT_FSIZE, &limit);
}

FullDisk::~FullDisk() {
  rlimit limit{};
  getrlimit(RLIMIT_FSIZE, &limit);
  limit.rlim_cur = before_;
  setrlimit(RLIMIT_FSIZE, &limit);
  std::signal(SIGXFSZ, handler_);
}

std::vector<Diagnostic> found_with_log(const std::string& text) {
  const TempFolder folder;
  const std::string path = folder.write("day.db", text);
  return found_by([&] { Logbook(path, kKeeping); });
}

std::vector<Diagnostic> a_log_of_tomorrow() {
  const TempFolder folder;
  const std::string path = log_of_runs(folder.path() + "/day.db", 1);
  change_by_sql(path, fmt::format("PRAGMA user_version = {}", log_version() + 1));
  return found_by([&] { Logbook(path, kKeeping); });
}

std::vector<Diagnostic> a_log_cut_short() {
  const TempFolder folder;
  const std::string path = log_of_runs(folder.path() + "/day.db", 1);
  std::filesystem::resize_file(path, std::filesystem::file_size(path) - 1);
  return found_by([&] { Logbook(path, kWriting); });
}

std::vector<Diagnostic> a_log_that_cannot_grow() {
  const TempFolder folder;
  Logbook log(log_of_runs(folder.path() + "/day.db", 1), kWriting);
  Run run = whole_run("2026-11-15T10:30:00");
  run.notes.push_back({std::string(std::size_t{1} << 16U, 'n')});
  const FullDisk full(std::filesystem::file_size(log.path()));
  return found_by([&] { log.put(run); });
}

std::vector<Diagnostic> a_log_held_by_another() {
  constexpr int kShort = 20;
  const TempFolder folder;
  Logbook log(log_of_runs(folder.path() + "/day.db", 1), kWriting, kShort);
  Logbook other(log.path(), kWriting, kShort);
  const Logbook::Writing held(other);
  return found_by([&] { log.put(whole_run("2026-11-15T10:30:00")); });
}

std::vector<Diagnostic> a_lap_of_no_time() {
  Findings findings;
  read_run(parse_document("day.json",
                          "kart: blue 27\nat: 2026-11-14T10:30:00\n"
                          "laps: [{number: 1, seconds: 0, flag: counts}]\n"),
           findings);
  return findings.all();
}

std::vector<Diagnostic> a_run_that_differs() {
  const TempFolder folder;
  Logbook log(log_of_runs(folder.path() + "/day.db", 1), kWriting);
  Findings findings;
  Run other = whole_run();
  other.driver = "somebody else";
  take_run(log, other, parse_document("day.json", "kart: blue 27"), findings);
  return findings.all();
}

std::vector<Diagnostic> a_run_that_is_not_there() {
  const TempFolder folder;
  const Logbook log(log_of_runs(folder.path() + "/day.db", 1), kReading);
  return found_by([&] { run_numbered(log, "99"); });
}

std::vector<Diagnostic> a_change_beyond_the_class() {
  Findings findings;
  allowed_change("rear-width=1395mm", blue_kart(), kart_pack(), {.file = "--set"}, findings);
  return findings.all();
}

void change_by_sql(const std::string& path, const std::string& sql) {
  SQLite::Database db(path, SQLite::OPEN_READWRITE);
  db.exec("PRAGMA ignore_check_constraints = ON");
  db.exec(sql);
}

}  // namespace kartwright
