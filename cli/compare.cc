// compare: the laps of two settings or more, and whether the change helped.

#include <algorithm>
#include <cstdio>
#include <filesystem>

#include <fmt/format.h>

#include "cli/commands.h"
#include "cli/compare_json.h"
#include "cli/compare_text.h"
#include "cli/diagnostics.h"
#include "cli/lap_options.h"
#include "cli/log_words.h"
#include "cli/page.h"
#include "cli/sheet/compare_sheet.h"
#include "cli/tell.h"
#include "engine/document/fields.h"
#include "engine/records/clock_of_runs.h"
#include "engine/records/lookup.h"

namespace kartwright::cli {
namespace {

/// `0.1s` or `0.1`, seconds a lap.
double read_worth(const std::string& text, Findings& findings) {
  constexpr double kLeast = 0.001;
  constexpr double kMost = 10.0;
  std::string_view figures = text;
  if (figures.ends_with('s')) figures.remove_suffix(1);
  while (figures.ends_with(' ')) figures.remove_suffix(1);
  const auto seconds = bare_number(figures);
  if (seconds && *seconds >= kLeast && *seconds <= kMost) return *seconds;
  refuse_option("--worth", text, "`" + text + "` is not an effect worth having",
                "seconds a lap, from 0.001 to 10, as 0.1s", findings);
  return kMost;
}

void refuse_several_karts(const std::vector<Run>& runs, const Logbook& log) {
  for (const Run& run : runs) {
    if (run.kart == runs.front().kart) continue;
    throw InputError(
        {Diagnostic{.code = Code::no_such_run,
                    .file = log.path(),
                    .message = fmt::format("run {} is of {}, and run {} of {}", runs.front().id,
                                           runs.front().kart, run.id, run.kart),
                    .help = "the clock compares setups of one kart"}});
  }
}

/// The runs that are asked for, of one kart and by time; without --runs those of its last day.
std::vector<Run> runs_asked_for(const CompareOptions& options, const Logbook& log) {
  if (options.runs.empty()) {
    const std::string named =
        options.kart.empty() ? "" : kart_named(options.kart, load_rules(options.common));
    std::vector<Run> runs = log.runs(kart_in_log(named, log));
    std::erase_if(runs, [](const Run& run) { return !run.driven; });
    const std::string day = runs.empty() ? "" : runs.back().day();
    std::erase_if(runs, [&](const Run& run) { return run.day() != day; });
    return runs;
  }
  std::vector<Run> runs;
  for (const std::string& word : parts_of_list(options.runs)) {
    Run run = run_numbered(log, word);
    const bool there =
        std::any_of(runs.begin(), runs.end(), [&](const Run& each) { return each.id == run.id; });
    if (!there) runs.push_back(std::move(run));
  }
  refuse_several_karts(runs, log);
  std::sort(runs.begin(), runs.end(), [](const Run& a, const Run& b) { return a.at < b.at; });
  return runs;
}

/// The clock's verdict on what was changed before the runs that decide.
void save_verdict(const LapComparison& compared, const std::vector<Run>& runs, Logbook& log) {
  const ClockJudgement& judged = compared.clock.judged[compared.decides];
  const SettingEffect& effect = compared.clock.fit.effects[compared.decides];
  Logbook::Writing all(log);
  std::string kept;
  std::vector<const Run*> all_runs;
  for (const Run& each : runs) all_runs.push_back(&each);
  const std::vector<std::size_t> groups = groups_of_runs(all_runs);
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const Run& each = runs[i];
    if (groups[i] != judged.setting || each.changes.empty()) continue;
    Run run = log.run(each.id).value_or(each);
    std::erase_if(run.verdicts, [](const RunVerdict& verdict) { return verdict.by == "clock"; });
    for (const RunChange& change : run.changes) {
      run.verdicts.push_back(
          {.adjustment = change.adjustment,
           .verdict = judged.verdict,
           .by = "clock",
           .text = fmt::format("{:+.3f} ± {:.3f} s a lap", effect.seconds, within(effect))});
    }
    log.put(run);
    kept += (kept.empty() ? "" : ", ") + name_of(run);
  }
  all.commit();
  tell("kartwright: {}\n", kept.empty()
                               ? "no change stands before these runs, so no verdict was kept"
                               : "the verdict is kept with " + printable(kept));
}

/// What was compared, and whose laps these are.
struct Compared {
  std::optional<LapComparison> laps = {};
  std::string whose = {};
};

Compared compared_in_log(const CompareOptions& options, double worth, Findings& findings) {
  Logbook log(options.common.log, options.save ? Logbook::For::writing : Logbook::For::reading);
  const std::vector<Run> runs = runs_asked_for(options, log);
  std::vector<const Run*> all;
  for (const Run& run : runs) all.push_back(&run);
  LapFile laps = laps_of(all);
  laps.name = options.common.log;
  auto compared = compare_laps(laps, worth, findings);
  if (compared && options.save) save_verdict(*compared, runs, log);
  return {.laps = std::move(compared), .whose = runs.empty() ? "" : runs.front().kart};
}

Compared compared_in_file(const CompareOptions& options, const LapsWanted& wanted, double worth,
                          Findings& findings) {
  const LapFile laps = read_laps(options.csv, wanted, findings);
  findings.throw_if_errors();
  const bool named = options.csv != "-";
  return {.laps = compare_laps(laps, worth, findings),
          .whose = named ? std::filesystem::path(options.csv).filename().string() : "laps"};
}

std::string compared_in_format(Format format, const LapComparison& compared,
                               const std::string& whose) {
  if (format == Format::json) return compare_json(compared);
  if (format == Format::html) return compare_sheet(compared, whose);
  return compare_text(compared, look_of_stdout());
}

}  // namespace

int run_compare(const CompareOptions& options) {
  Findings findings;
  const bool from_log = !options.common.log.empty();
  if (options.csv.empty() == !from_log) {
    refuse_option("--csv", "",
                  from_log ? "the laps come from a file or from the log" : "there is no lap file",
                  "name one of them, as --csv laps.csv (- is stdin) or --log day.db", findings);
  }
  if (!from_log && (options.save || !options.runs.empty())) {
    refuse_option("--log", "", "`--runs` and `--save` go with --log", "name the log of the runs",
                  findings);
  }
  const LapsWanted wanted = laps_wanted(options.only, options.columns, true, findings);
  const double worth = read_worth(options.worth, findings);
  findings.throw_if_errors();
  const Compared compared = from_log ? compared_in_log(options, worth, findings)
                                     : compared_in_file(options, wanted, worth, findings);
  if (!compared.laps) throw InputError(findings.all());
  const std::string answer =
      compared_in_format(options.common.format, *compared.laps, compared.whose);
  std::fwrite(answer.data(), 1, answer.size(), stdout);
  return kSuccess;
}

}  // namespace kartwright::cli
