// A log: the bytes of a database, edits of a sound one, or an export that is imported. Whatever can
// be read of it is listed, shown, learned from, exported and taken back.

#include <algorithm>
#include <filesystem>

#include <nlohmann/json.hpp>

#include "cli/exchange.h"
#include "cli/exchange_csv.h"
#include "cli/run_json.h"
#include "cli/run_text.h"
#include "engine/advice/learned.h"
#include "engine/records/apply.h"
#include "engine/records/run_record.h"
#include "engine/records/taking.h"
#include "tests/fuzz/log_edits.h"
#include "tests/fuzz/oracle.h"
#include "tests/support/temp_folder.h"

namespace kartwright::fuzz {
namespace {

constexpr std::size_t kFewRuns = 50;

/// A file of the name, new for each input.
std::string fresh_file(const char* name, std::string_view bytes) {
  static const TempFolder folder;
  for (const char* const beside : {"-journal", "-wal", "-shm"})
    std::filesystem::remove(folder.path() + "/" + name + beside);
  std::filesystem::remove(folder.path() + "/" + name);
  if (bytes.empty()) return folder.path() + "/" + name;
  return folder.write(name, std::string(bytes));
}

/// Runs go out as JSON and as CSV, and come back the same.
void check_exports(const std::vector<Run>& runs) {
  std::string json = cli::export_head();
  std::string csv = cli::csv_head();
  for (const Run& run : runs) {
    json += cli::export_run(run, &run == &runs.back());
    csv += cli::csv_rows_of(run);
  }
  json += cli::export_end(runs.size());
  csv += cli::csv_end(runs.size());
  for (const std::string& text : {json, csv}) {
    Logbook log(fresh_file("again.db", {}), Logbook::For::keeping);
    const std::string file = fresh_file("again.txt", text);
    try {
      hold(cli::import_log(log, file, false).added == runs.size(), "an export lost runs");
    } catch (const InputError& error) {
      throw Broken("an export is refused: " + error.found().front().message);
    }
    const std::vector<Run> again = log.runs("", {.advice = true});
    hold(std::equal(again.begin(), again.end(), runs.begin(), runs.end(), same_run),
         "a log is not what was exported of it");
  }
}

void check_shown_runs(const std::vector<Run>& runs) {
  const Pack& pack = shipped_rules();
  const std::string list = cli::runs_json(runs);
  hold(nlohmann::json::accept(list), "a list of runs is no JSON");
  check_words(list, "a list of runs in JSON");
  check_words(cli::runs_text(runs, pack, runs.size(), {.width = 60}), "a list of runs");
  for (const Run& run : runs) {
    check_words(cli::run_json(run), "a run in JSON");
    check_words(cli::run_text(run, pack, true, {}, {.width = 40}), "a run");
  }
}

void check_learned(const Logbook& log, const std::string& name) {
  Kart kart = usual_kart_of_rules();
  kart.name = name;
  const History history = learn(log.runs(name), shipped_rules(), kart);
  const Learned learned = learned_from(history, shipped_rules(), kart, "green");
  check_words(learned.track, "a track");
  const auto by_rules = effects_by_rules(shipped_rules(), kart, "green");
  const Experience experience = experience_of(history, by_rules);
  for (const LearnedEffect& each : experience) {
    hold(each.precision.size() == 0 || (each.precision.allFinite() && each.pull.allFinite()),
         "learned beyond all bounds");
  }
  try {
    way_back(log, kart);
  } catch (const InputError& error) {
    hold(!error.found().empty(), "no way back, and nobody says why");
  }
}

/// All that the program reads of a log. Throws InputError where the log is damaged.
void read_all_of(const std::string& path) {
  const Logbook log(path, Logbook::For::reading);
  const bool sound = log.damage().empty();
  if (log.count_runs("") > kFewRuns) return;
  const std::vector<Run> runs = log.runs("", {.advice = true});
  hold(log.ids().size() == runs.size() || !sound, "a run is counted and not given");
  check_shown_runs(runs);
  bool whole = sound;
  for (const Run& run : runs) whole = whole && faults_of(run).empty();
  for (const std::string& kart : log.karts()) {
    check_learned(log, kart);
    log.made_ready(kart);
    log.last_advice(kart);
  }
  if (whole) check_exports(runs);
}

Fate take_log(const std::string& path) {
  try {
    read_all_of(path);
    return Fate::taken;
  } catch (const InputError& error) {
    hold(!error.found().empty() && !error.found().front().message.empty(),
         "a log is refused, and nobody says why");
    for (const Diagnostic& each : error.found()) check_shown(each);
    return Fate::refused;
  }
}

Fate take_export(std::string_view bytes) {
  const std::string file = fresh_file("export.txt", bytes);
  const std::string path = fresh_file("day.db", {});
  try {
    Logbook log(path, Logbook::For::keeping);
    cli::import_log(log, file, false);
  } catch (const InputError& error) {
    check_refusal(error.found(), bytes, file);
    hold(Logbook(path, Logbook::For::reading).count_runs("") == 0, "half an export was taken");
    return Fate::refused;
  }
  hold(take_log(path) == Fate::taken, "an import leaves a log that cannot be read");
  return Fate::taken;
}

}  // namespace

Fate fuzz_log(std::string_view bytes) {
  if (bytes.empty()) return Fate::refused;
  if (bytes.starts_with("SQLite")) return take_log(fresh_file("day.db", bytes));
  if (!bytes.starts_with(kEdits)) return take_export(bytes);
  const std::string path = fresh_file("day.db", sound_log());
  return edit_log(path, bytes) ? take_log(path) : Fate::refused;
}

}  // namespace kartwright::fuzz
