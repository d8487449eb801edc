// learned: what this kart's own records say about each adjustment.

#include "engine/advice/learned.h"

#include <cstdio>
#include <filesystem>
#include <system_error>

#include "cli/commands.h"
#include "cli/diagnostics.h"
#include "cli/learned_json.h"
#include "cli/learned_text.h"
#include "cli/log_words.h"
#include "cli/page.h"
#include "cli/sheet/learned_sheet.h"
#include "engine/records/logbook.h"
#include "engine/records/lookup.h"

namespace kartwright::cli {
namespace {

/// The kart of a file, or the typical one under a name that the log has.
Kart kart_of(const LearnedOptions& options, const Logbook& log, const Pack& pack,
             Findings& findings) {
  std::error_code error;
  const auto kind = std::filesystem::status(options.kart, error).type();
  const bool no_file = kind == std::filesystem::file_type::not_found ||
                       error == std::errc::filename_too_long;  // which a kart's name may be
  const bool file = kind == std::filesystem::file_type::regular || (error && !no_file);
  Kart kart = file ? load_kart(options.kart, pack, findings) : typical_kart(pack);
  kart.name = kart_in_log(file ? printable(kart.name) : printable(options.kart), log);
  return kart;
}

std::string learned_in_format(Format format, const Learned& learned, const Pack& pack) {
  if (format == Format::json) return learned_json(learned, pack);
  if (format == Format::html) return learned_sheet(learned, pack);
  return learned_text(learned, pack, look_of_stdout());
}

}  // namespace

int run_learned(const LearnedOptions& options) {
  const Pack pack = load_rules(options.common);
  Findings findings;
  if (options.common.log.empty()) {
    findings.add({.code = Code::bad_option,
                  .file = "--log",
                  .message = "which log?",
                  .help = "name its file, as --log season.db"});
  }
  check_track(options.track, pack, findings);
  findings.throw_if_errors();
  const Logbook log(options.common.log, Logbook::For::reading);
  const Kart kart = kart_of(options, log, pack, findings);
  findings.throw_if_errors();
  show_diagnostics(findings.all(), options.common.loudness >= 0);
  const RunParts parts{
      .settings = options.calibration, .laps = options.calibration, .notes = false, .words = false};
  const std::vector<Run> runs = log.runs(kart.name, parts);
  Learned learned = learned_from(learn(runs, pack, kart), pack, kart, options.track);
  if (options.calibration) {
    learned.calibration = calibrate(runs, pack, kart, effects_by_rules(pack, kart, options.track));
  }
  const std::string answer = learned_in_format(options.common.format, learned, pack);
  std::fwrite(answer.data(), 1, answer.size(), stdout);
  return kSuccess;
}

}  // namespace kartwright::cli
