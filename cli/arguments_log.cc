#include "cli/arguments_log.h"

#include <CLI/CLI.hpp>

#include "cli/option_values.h"

namespace kartwright::cli {
namespace {

void add_what_drove(::CLI::App& command, LogOptions& options) {
  command
      .add_option("--kart", options.kart,
                  "kart file as it was driven; for list also the name of a kart")
      ->type_name(value::kFile);
  command
      .add_option("--to", options.to, "a run of the log that this belongs to; else it is a new one")
      ->type_name("RUN");
  command.add_option("--at", options.at, "when it was driven, as \"2026-11-14 10:30\" (now)")
      ->type_name("WHEN");
  command.add_option("--session", options.session, "as \"heat 2\"")->type_name("NAME");
  command.add_option("--track", options.track, "state of the track: {}")->type_name(value::kState);
  command.add_option("--air", options.air, "temperature of the air, as 12C or 54F")
      ->type_name("TEMP");
  command.add_option("--road", options.road, "temperature of the track")->type_name("TEMP");
  command.add_option("--driver", options.driver, "who drove")->type_name("NAME");
  command.add_option("--tyres", options.tyres, "which set, as \"set 2\"")->type_name("NAME");
  command.add_option("--tyre-laps", options.tyre_laps, "laps on them before the run")
      ->type_name("N");
  command.add_option("--load", options.load, "fuel and ballast, in words")->type_name("WORDS");
  command.add_option("--note", options.notes, "a note; again for more")
      ->type_name("WORDS")
      ->take_all();
}

void add_what_was_said(::CLI::App& command, LogOptions& options) {
  command.add_option("--said", options.said, "what the driver said, in the driver's words")
      ->type_name("WORDS");
  command.add_option("--report", options.reports, "one symptom; again for more")
      ->type_name(value::kSymptom)
      ->take_all();
  command.add_option("--fact", options.facts, "id=value; again for more")
      ->type_name(value::kFact)
      ->take_all();
  command.add_flag("--complete", options.complete,
                   "the driver was asked for everything: what is unmentioned is not there");
}

void add_laps(::CLI::App& command, LogOptions& options) {
  command.add_option("--laps", options.laps, "lap times, as \"31.42 31.38 1:02.417\"")
      ->type_name("TIMES");
  command.add_option("--csv", options.csv, "lap times from a file; - is stdin")
      ->type_name(value::kFile);
  command.add_option("--only", options.only, "COLUMN=VALUE: the rows of one kart")
      ->type_name("COLUMN=VALUE");
  command.add_option("--column", options.columns, "time=NAME or lap=NAME: which column is which")
      ->type_name("WHICH=NAME")
      ->take_all();
  command
      .add_option("--flag", options.flags,
                  "LAP=out, in, traffic or counts: what a lap is, whatever the rule says")
      ->type_name("LAP=FLAG")
      ->take_all();
  command
      .add_option("--flag-over", options.slow,
                  "a lap so much over the run's median does not count (3%)")
      ->type_name("SHARE");
}

std::string strays_of(const LogOptions& options) {
  const std::vector<std::pair<const char*, bool>> of_add{
      {"--to", !options.to.empty()},
      {"--at", !options.at.empty()},
      {"--session", !options.session.empty()},
      {"--track", !options.track.empty()},
      {"--air", !options.air.empty()},
      {"--road", !options.road.empty()},
      {"--driver", !options.driver.empty()},
      {"--tyres", !options.tyres.empty()},
      {"--tyre-laps", !options.tyre_laps.empty()},
      {"--load", !options.load.empty()},
      {"--note", !options.notes.empty()},
      {"--said", !options.said.empty()},
      {"--report", !options.reports.empty()},
      {"--fact", !options.facts.empty()},
      {"--complete", options.complete},
      {"--laps", !options.laps.empty()},
      {"--csv", !options.csv.empty()},
      {"--only", !options.only.empty()},
      {"--column", !options.columns.empty()},
      {"--flag", !options.flags.empty()},
      {"--flag-over", !options.slow.empty()}};
  for (const auto& [name, given] : of_add) {
    if (given) return name;
  }
  return {};
}

}  // namespace

void add_log(::CLI::App& app, LogOptions& options, const char* group) {
  auto* command = app.add_subcommand("log", "add, list, show, export, import, verify runs");
  command->group(group);
  command->footer(
      "examples:\n"
      "  kartwright log add --log day.db --kart blue27.yaml --track green --session \"heat 2\" "
      "--laps \"33.91 31.42 31.38 31.44\" --said \"pushes going in\"\n"
      "  kartwright log add --log day.db --kart blue27.yaml --csv laps.csv --only Kart=27\n"
      "  kartwright log add --log day.db --to 12 --said \"hops in the middle\"\n"
      "  kartwright log list --log day.db\n"
      "  kartwright log show 12 --log day.db\n"
      "  kartwright log show 12 --log day.db --format html > run-12.html\n"
      "  kartwright log export --log day.db --format csv > day.csv\n"
      "  kartwright log import day.csv --log other.db\n"
      "  kartwright log verify --log day.db\n"
      "\nA lap more than 3 % over its run's median is flagged and does not count: the first as "
      "out-lap,\nthe last as in-lap, others as traffic. No lap is ever deleted.");
  command->add_option("action", options.words, "what to do; show takes a RUN more, import a FILE")
      ->type_name(one_of(value::kLogActions));
  command->add_option("--log", options.common.log, "the log's file; add and import make it")
      ->type_name(value::kFile);
  add_what_drove(*command, options);
  add_laps(*command, options);
  add_what_was_said(*command, options);
  command->add_option("--last", options.last, "of list: how many runs, or all (20)")
      ->type_name("N");
}

void add_apply(::CLI::App& app, ApplyOptions& options, const char* group) {
  auto* command =
      app.add_subcommand("apply", "make a change: rewrites the kart file, old one kept");
  command->group(group);
  command->footer(
      "examples:\n"
      "  kartwright apply --kart blue27.yaml --log day.db --change 1\n"
      "  kartwright apply --kart blue27.yaml --log day.db --set rear-width=1370mm --why \"it was "
      "quick so last year\"\n"
      "  kartwright apply --kart blue27.yaml --log day.db --undo\n"
      "\n--change is a rank in the last `advise --log` of this kart. --dry-run shows the "
      "difference only.");
  command->add_option("--kart", options.kart, "kart file to change")->type_name(value::kFile);
  command->add_option("--log", options.common.log, "the log's file: opens the next run in it")
      ->type_name(value::kFile);
  command->add_option("--change", options.change, "rank in the last advice")->type_name("RANK");
  command->add_option("--set", options.set, "a setting as name=value")->type_name("NAME=VALUE");
  command->add_flag("--undo", options.undo, "take the last change back");
  command->add_option("--asked-by", options.asked_by, "who wants it")->type_name("NAME");
  command->add_option("--why", options.why, "why, in words")->type_name("WORDS");
  command->add_option("--at", options.at, "when, as \"2026-11-14 10:30\" (now)")->type_name("WHEN");
  command->add_flag("--dry-run", options.dry_run, "show the difference, write nothing");
}

void add_learned(::CLI::App& app, LearnedOptions& options, const char* group) {
  auto* command =
      app.add_subcommand("learned", "what this kart's own records say about each adjustment");
  command->group(group);
  command->footer(
      "examples:\n"
      "  kartwright learned --log season.db --kart blue27.yaml\n"
      "  kartwright learned --log season.db --kart blue27.yaml --calibration");
  command->add_option("--log", options.common.log, "the log's file")->type_name(value::kFile);
  command->add_option("--kart", options.kart, "kart file, or the name of a kart in the log")
      ->type_name(value::kFile);
  command->add_flag("--calibration", options.calibration, "how often what was promised came true");
}

void add_compare(::CLI::App& app, CompareOptions& options, const char* group) {
  auto* command = app.add_subcommand("compare", "did the change help? two or more groups of laps");
  command->group(group);
  command->footer(
      "examples:\n"
      "  kartwright compare --csv laps.csv\n"
      "  kartwright compare --log day.db --runs 11,12,13 --save\n"
      "  kartwright compare --csv session.csv --only Kart=27 --column \"group=rear width\" --worth "
      "0.05s\n"
      "\nThe first row names the columns: a lap number, a lap time, a group. The first group "
      "driven "
      "is what\nothers are held against: drive it again at the end.");
  command
      ->add_option("--csv", options.csv, "laps, parted by commas, semicolons or tabs; - is stdin")
      ->type_name(value::kFile);
  command->add_option("--log", options.common.log, "laps of the log's runs instead, by setup")
      ->type_name(value::kFile);
  command->add_option("--kart", options.kart, "with --log: which kart, where it has several")
      ->type_name(value::kFile);
  command->add_option("--runs", options.runs, "with --log: which, as 11,12,13 (the last day's)")
      ->type_name("RUNS");
  command->add_flag("--save", options.save, "with --log: keep the verdict in it");
  command->add_option("--worth", options.worth, "an effect worth having, seconds a lap (0.1s)")
      ->type_name("TIME");
  command->add_option("--only", options.only, "COLUMN=VALUE: the rows of one kart")
      ->type_name("COLUMN=VALUE");
  command
      ->add_option("--column", options.columns,
                   "time=NAME, lap=NAME or group=NAME: which column is which; again for more")
      ->type_name("WHICH=NAME")
      ->take_all();
}

std::pair<std::string, std::string> misuse_of(const LogOptions& options) {
  const std::string action = options.words.empty() ? "" : options.words.front();
  const std::string help = "`kartwright log --help` has examples";
  if (!action.empty() && action != "add") {
    if (const std::string stray = strays_of(options); !stray.empty())
      return {"`" + stray + "` goes with `log add`", help};
  }
  if (!options.last.empty() && action != "list") return {"`--last` goes with `log list`", help};
  if (!options.to.empty() && (!options.kart.empty() || !options.at.empty()))
    return {"`--to` names a run that has its kart and its moment", "leave --kart and --at out"};
  if (!options.laps.empty() && !options.csv.empty())
    return {"the laps are given twice, by --laps and by --csv", "give one of them"};
  if (options.csv.empty() && (!options.only.empty() || !options.columns.empty()))
    return {"`--only` and `--column` go with --csv", help};
  if (options.common.format == Format::csv && action != "export")
    return {"`--format csv` goes with `log export`", help};
  if (options.common.format == Format::html && action != "show")
    return {"`--format html` goes with `log show`",
            "`kartwright log show 12 --log day.db --format "
            "html` is the sheet of one run"};
  return {};
}

std::pair<std::string, std::string> misuse_of(const ApplyOptions& options) {
  if (options.kart.empty() || options.kart == "-")
    return {"there is no kart file to change", "name it, as --kart blue27.yaml"};
  const int ways =
      (options.change.empty() ? 0 : 1) + (options.set.empty() ? 0 : 1) + (options.undo ? 1 : 0);
  if (ways == 0)
    return {"nothing to change",
            "--change 1 for the first of the last advice, --set "
            "rear-width=1370mm, or --undo"};
  if (ways > 1) return {"one change at a time", "give one of --change, --set and --undo"};
  if (!options.change.empty() && options.common.log.empty())
    return {"--change needs the log that remembers the advice", "give --log, or --set"};
  return {};
}

}  // namespace kartwright::cli
