// log: runs into the logbook and out of it.

#include <algorithm>
#include <array>
#include <cstdio>
#include <filesystem>

#include <fmt/format.h>
#include <spdlog/spdlog.h>

#include "cli/commands.h"
#include "cli/diagnostics.h"
#include "cli/exchange.h"
#include "cli/log_words.h"
#include "cli/option_values.h"
#include "cli/run_json.h"
#include "cli/run_text.h"
#include "cli/sheet/run_sheet.h"
#include "cli/tell.h"
#include "engine/records/keeping.h"
#include "engine/records/lap_flags.h"
#include "engine/records/lookup.h"
#include "engine/records/run_record.h"

namespace kartwright::cli {
namespace {

[[noreturn]] void refuse_log_words(const std::string& message, const std::string& help) {
  throw InputError(
      {Diagnostic{.code = Code::bad_option, .file = "log", .message = message, .help = help}});
}

void print_out(const std::string& text) { std::fwrite(text.data(), 1, text.size(), stdout); }

bool in_json(const LogOptions& options) { return options.common.format == Format::json; }

/// Not a word of it but the kart and the moment.
bool says_nothing(const Run& run) {
  const bool words =
      !(run.said + run.session + run.track + run.driver + run.tyres + run.load).empty();
  return !words && run.laps.empty() && run.reports.empty() && run.facts.empty() &&
         run.notes.empty() && !run.air && !run.road && !run.tyre_laps;
}

/// A run as new, of the kart whose file is given.
Run add_new(const LogOptions& options, Run run, const Pack& pack, Findings& findings) {
  if (options.kart.empty())
    refuse_log_words("which kart drove?", "give its file, as --kart blue27.yaml, or --to RUN");
  const Document file = read_document(options.kart);
  const Kart kart = read_kart(file, pack, findings);
  findings.throw_if_errors();
  if (says_nothing(run))
    refuse_log_words("there is nothing to log of this run", "give --laps, --csv, --said or --note");
  run.kart = printable(kart.name);
  run.settings = setup_of(file, kart);
  Logbook log(options.common.log, Logbook::For::keeping);
  const std::vector<std::string> karts = log.karts();
  const bool fresh = std::find(karts.begin(), karts.end(), run.kart) == karts.end();
  if (fresh && !karts.empty() && options.common.loudness >= 0) {
    tell("kartwright: `{}` is new in this log, which has {}\n", printable(run.kart),
         printable(fmt::format("{}", fmt::join(karts, ", "))));
  }
  const std::optional<Run> last = log.last_driven(run.kart);
  if (last && !run.laps.empty() && last->laps == run.laps && options.common.loudness >= 0) {
    tell(
        "kartwright: these are the laps of {} again; what belongs to that run is added "
        "with --to {}\n",
        printable(name_of(*last)), last->id);
  }
  return keep_run(log, std::move(run), kart);
}

Run add_to(const LogOptions& options, const Run& more, Findings& findings) {
  findings.throw_if_errors();
  Logbook log(options.common.log, Logbook::For::writing);
  return add_to_run(log, run_numbered(log, options.to).id, more);
}

int log_add(const LogOptions& options) {
  const Pack pack = load_rules(options.common);
  Findings findings;
  RunAsides asides;
  Run run = run_of(options, pack, asides.not_understood, findings);
  run = options.to.empty() ? add_new(options, std::move(run), pack, findings)
                           : add_to(options, run, findings);
  show_diagnostics(findings.all(), options.common.loudness >= 0);
  if (run.track.empty() && options.common.loudness >= 0)
    tell(
        "kartwright: no --track was given, and it counts; `log add --to {} --track "
        "green` says it\n",
        run.id);
  asides.lap_rule = lap_rule_in_words(slow_share(options.slow, pack, findings));
  print_out(in_json(options) ? run_json(run)
                             : run_text(run, pack, false, asides, look_of_stdout()));
  return kSuccess;
}

/// How many runs to list: `--last 20`, or `all`.
std::optional<std::size_t> last_of(const std::string& text) {
  constexpr std::size_t kUsual = 20;
  if (text.empty()) return kUsual;
  if (text == "all") return {};
  const bool digits = text.find_first_not_of("0123456789") == std::string::npos;
  if (!digits || text.size() > 9 || std::stoul(text) == 0)
    refuse_log_words("`" + text + "` is no number of runs", "a whole number, or all");
  return std::stoul(text);
}

int log_list(const LogOptions& options) {
  const Pack pack = load_rules(options.common);
  const Logbook log(options.common.log, Logbook::For::reading);
  const std::string named = kart_named(options.kart, pack);
  const std::string kart = named.empty() ? named : kart_in_log(named, log);
  const std::optional<std::size_t> last = last_of(options.last);
  const RunParts parts{.settings = false, .reports = false, .facts = false, .notes = false};
  const std::vector<Run> runs = log.runs(kart, parts, last);
  const std::size_t all = last && runs.size() < *last ? runs.size() : log.count_runs(kart);
  print_out(in_json(options) ? runs_json(runs) : runs_text(runs, pack, all, look_of_stdout()));
  return kSuccess;
}

int log_show(const LogOptions& options) {
  const Pack pack = load_rules(options.common);
  const Logbook log(options.common.log, Logbook::For::reading);
  const Run run = run_numbered(log, options.words.at(1));
  if (options.common.format == Format::html) {
    print_out(run_sheet(run, pack));
  } else {
    print_out(in_json(options) ? run_json(run) : run_text(run, pack, true, {}, look_of_stdout()));
  }
  return kSuccess;
}

int log_export(const LogOptions& options) {
  const Logbook log(options.common.log, Logbook::For::reading);
  export_log(log, options.common.format == Format::csv);
  return kSuccess;
}

/// A log that was made for an import that failed goes again.
Imported import_into(const LogOptions& options) {
  std::error_code ignored;
  const bool fresh = !std::filesystem::exists(options.common.log, ignored);
  try {
    Logbook log(options.common.log, Logbook::For::keeping);
    return import_log(log, options.words.at(1), options.common.loudness >= 0);
  } catch (const InputError&) {
    if (fresh && std::filesystem::remove(options.common.log, ignored))
      std::filesystem::remove(options.common.log + "-journal", ignored);
    throw;
  }
}

int log_import(const LogOptions& options) {
  const Imported done = import_into(options);
  const std::string text =
      in_json(options)
          ? fmt::format("{{\"schema\":\"kartwright/import/1\",\"added\":{},\"there\":{}}}\n",
                        done.added, done.there)
          : fmt::format("runs added: {}; in the log already: {}\n", done.added, done.there);
  print_out(text);
  return kSuccess;
}

/// SQLite's own check of the file, then ours of what stands in it.
int log_verify(const LogOptions& options) {
  const Logbook log(options.common.log, Logbook::For::reading);
  std::vector<Diagnostic> found;
  const auto tell = [&](Code code, std::string message) {
    found.push_back({.code = code,
                     .file = options.common.log,
                     .message = std::move(message),
                     .help = "the file is left as it is; take a copy before anything else"});
  };
  for (const std::string& damage : log.damage()) tell(Code::damaged_log, damage);
  std::size_t runs = 0;
  if (found.empty()) {
    for (const Run& run : log.runs("")) {
      ++runs;
      for (const std::string& fault : faults_of(run))
        tell(Code::bad_record, name_of(run) + ": " + fault);
    }
  }
  show_diagnostics(found, true);
  if (!found.empty()) return kBadData;
  print_out(in_json(options)
                ? fmt::format("{{\"schema\":\"kartwright/verify/1\",\"runs\":{}}}\n", runs)
                : fmt::format("the log is sound; runs in it: {}\n", runs));
  return kSuccess;
}

struct LogAction {
  std::string_view name;
  std::size_t words;  ///< how many follow it
  int (*run)(const LogOptions& options);
  std::string_view usage;
};

constexpr std::array kLogActions{
    LogAction{"add", 0, log_add,
              "kartwright log add --log day.db --kart blue27.yaml --laps \"31.42 31.38\""},
    LogAction{"list", 0, log_list, "kartwright log list --log day.db [--last 20]"},
    LogAction{"show", 1, log_show, "kartwright log show 12 --log day.db"},
    LogAction{"export", 0, log_export, "kartwright log export --log day.db [--format csv]"},
    LogAction{"import", 1, log_import, "kartwright log import FILE --log day.db"},
    LogAction{"verify", 0, log_verify, "kartwright log verify --log day.db"},
};

static_assert(std::ranges::equal(kLogActions, value::kLogActions, {}, &LogAction::name));

const LogAction& chosen_of(const LogOptions& options) {
  std::vector<std::string> known;
  for (const LogAction& action : kLogActions) known.emplace_back(action.name);
  if (options.words.empty())
    refuse_log_words("nothing is said to do with the log",
                     fmt::format("one of {}", fmt::join(known, ", ")));
  const std::string& word = options.words.front();
  const auto* const found =
      std::find_if(kLogActions.begin(), kLogActions.end(),
                   [&](const LogAction& action) { return action.name == word; });
  if (found == kLogActions.end())
    refuse_log_words("`" + word + "` is nothing to do with the log", suggestion(word, known));
  return *found;
}

}  // namespace

int run_log(const LogOptions& options) {
  const LogAction& action = chosen_of(options);
  if (options.words.size() != action.words + 1) {
    const bool more = options.words.size() > action.words + 1;
    refuse_log_words(more ? "`" + options.words[action.words + 1] + "` is one word too many"
                          : "`" + std::string(action.name) + "` needs one word more",
                     std::string(action.usage));
  }
  if (options.common.log.empty())
    refuse_log_words("which log?", "name its file, as --log day.db; `log add` makes it");
  return action.run(options);
}

}  // namespace kartwright::cli
