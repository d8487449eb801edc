#include "cli/command_line.h"

#include <algorithm>
#include <array>

#include <CLI/CLI.hpp>

#include "cli/arguments_ask.h"
#include "cli/arguments_drill.h"
#include "cli/arguments_log.h"
#include "cli/arguments_plan.h"
#include "cli/command_texts.h"
#include "cli/formats.h"
#include "cli/option_values.h"
#include "cli/version.h"

namespace kartwright::cli {
namespace {

void add_format(::CLI::App& command, SharedWords& words) {
  command.add_option("--format", words.format, "how the answer is written (text)")
      ->type_name(one_of(formats_of(command.get_name())));
}

void add_answer(::CLI::App& command, SharedWords& words) {
  add_format(command, words);
  command.add_option("--units", words.units, "of the answer; else as the kart file writes them")
      ->type_name(one_of(value::kUnits));
}

void add_common(::CLI::App& command, Common& common, SharedWords& words) {
  command
      .add_option("--rules", common.rules,
                  "folder of rule files that add to or replace the built-in ones")
      ->type_name(value::kFolder);
  command.add_flag("-v,--verbose", words.verbose, "say on stderr what is read");
  command.add_flag("-q,--quiet", words.quiet, "no warnings");
}

/// What every command that answers takes beside its own.
void add_answer_words(::CLI::App* command, Common& common, SharedWords& words) {
  add_answer(*command, words);
  add_common(*command, common, words);
}

/// The kart, the track and what the driver said.
void add_debrief(::CLI::App* command, AdviseOptions& options, SharedWords& words) {
  command->add_option("--kart", options.kart, "kart file; without one a typical kart answers")
      ->type_name(value::kFile);
  command
      ->add_option("--debrief", options.debrief,
                   "debrief file: may hold kart, track, words and reports; - is stdin")
      ->type_name(value::kFile);
  command->add_option("--track", words.track, "state of the track: {}")->type_name(value::kTrack);
  command->add_option("--said", options.said, "what the driver said, in the driver's words")
      ->type_name("WORDS");
  command->add_option("--report", options.reports, "one symptom; again for more")
      ->type_name(value::kSymptom)
      ->take_all();
  command->add_option("--fact", options.facts, "id=value; again for more")
      ->type_name(value::kFact)
      ->take_all();
  command->add_option("--minutes", words.minutes, "left before the kart goes out (15)")
      ->type_name("MIN");
  command->add_option("--hours", words.hours, "left in the day (3)")->type_name("H");
  command->add_option("--laps", options.laps, "beside the run before: {}")->type_name(value::kLaps);
}

void add_advise(::CLI::App& app, AdviseOptions& options, SharedWords& words) {
  auto* command = app.add_subcommand("advise", "rank the next change from the driver's debrief");
  command->group(kPits);
  command->footer(
      "example:\n"
      "  kartwright advise --kart blue27.yaml --track rubbered-in --said \"pushes going in, hops "
      "hard in the middle\"\n"
      "\nA report is symptom[@entry|mid|exit|straight][=0..3], and behind it any of ,left or "
      ",right, "
      ",early or ,late, and ,sure or ,fair or ,unsure. =0 is asked, and no.");
  add_debrief(command, options, words);
  command->add_flag("--why", options.why, "reasons for every change, with the working");
  command
      ->add_option("--why-not", options.why_not,
                   "a change as rear-width:narrower, or a rule: why it is not first, or does not "
                   "speak")
      ->type_name(value::kChange)
      ->take_all();
  command->add_flag("--turns", options.turns,
                    "the smallest change of one input that would put something else first");
  command->add_flag(
      "--after", options.after,
      "what to do next if the change helped, half helped, did nothing or made it worse");
  command->add_option("--together", words.together, "most moves made in one break (2)")
      ->type_name(one_of(value::kTogether));
  command
      ->add_option("--draws", words.draws,
                   "also how often each move comes first in so many draws of what is not known")
      ->type_name("N");
  command->add_option("--seed", words.seed, "of the draws (1)")->type_name("N");
  command
      ->add_option("--batch", options.batch,
                   "file of JSON lines, a debrief each, answered line by line; - is stdin")
      ->type_name(value::kFile);
  command->add_option("--threads", words.threads, "of a batch (1)")
      ->type_name(one_of(value::kThreads));
  command->add_flag("--brief", options.brief, "json without working and questions");
  command
      ->add_option("--log", options.common.log,
                   "the kart's log: effects start from what it has taught, and the advice is "
                   "remembered for `apply`; without words and reports the last run's debrief "
                   "counts")
      ->type_name(value::kFile);
  add_ask(*command, options);
  add_answer(*command, words);
  add_common(*command, options.common, words);
}

void add_readings(::CLI::App& command, WeighingWords& four) {
  command.add_option("--lf", four.left_front, "reading under the left front wheel, driver aboard")
      ->type_name("MASS");
  command.add_option("--rf", four.right_front, "under the right front")->type_name("MASS");
  command.add_option("--lr", four.left_rear, "under the left rear")->type_name("MASS");
  command.add_option("--rr", four.right_rear, "under the right rear")->type_name("MASS");
  command
      .add_option("--swapped", four.swapped,
                  "LF,RF,LR,RR weighed again, the scales of each axle changed over")
      ->type_name("LF,RF,LR,RR");
  command
      .add_option("--turned", four.turned,
                  "LF,RF,LR,RR weighed again, the kart turned a quarter on its spot, scales with "
                  "their wheels")
      ->type_name("LF,RF,LR,RR");
}

void add_lift(::CLI::App& command, LiftWords& lift) {
  command.add_option("--raised", lift.raised, "with --lifted: the axle that is raised")
      ->type_name(one_of(value::kAxles));
  command.add_option("--lift", lift.lift, "how far its middle is raised, 200 to 250 mm")
      ->type_name("LENGTH");
  command
      .add_option("--level", lift.level,
                  "weight on the axle that stays down, both scales, kart level")
      ->type_name("MASS");
  command.add_option("--up", lift.up, "the same with the other axle raised")->type_name("MASS");
  command.add_option("--mass", lift.mass, "of the whole as it stands there; else the kart file's")
      ->type_name("MASS");
  command.add_option("--wheelbase", lift.wheelbase, "else the kart file's")->type_name("LENGTH");
}

void add_weigh(::CLI::App& app, WeighOptions& options, SharedWords& words) {
  auto* command = app.add_subcommand(
      "weigh",
      "four scale readings: distribution, frame twist, where the seat or ballast should go");
  command->group(kBench);
  command->footer(
      "examples:\n"
      "  kartwright weigh --lf 78.5lb --rf 80lb --lr 108lb --rr 112lb --resolution 0.2lb\n"
      "  kartwright weigh --kart blue27.yaml --lf 35.6kg --rf 36.3kg --lr 49kg --rr 50.8kg --save\n"
      "  kartwright weigh --lf 37kg --rf 34kg --lr 48kg --rr 51kg --swapped "
      "36.8kg,34.2kg,48.1kg,50.9kg\n"
      "  kartwright weigh --lifted --raised front --lift 220mm --level 205lb --up 214lb --mass "
      "378lb\n"
      "\nCare with --lifted: a low lift, ballast strapped into the seat, never a person aboard.");
  command
      ->add_option("--kart", options.kart,
                   "kart file: bands, class weight, what can be moved, and readings where none "
                   "are given")
      ->type_name(value::kFile);
  add_readings(*command, options.four);
  command
      ->add_option("--resolution", options.four.resolution,
                   "what one scale can tell apart (0.5kg, or 1lb where pounds are written)")
      ->type_name("MASS");
  command->add_flag("--save", options.save, "write the readings into the kart file, old one kept");
  command->add_flag("--lifted", options.lifted,
                    "height of the centre of mass, from one axle raised");
  add_lift(*command, options.lift);
  add_answer(*command, words);
  add_common(*command, options.common, words);
}

void add_check(::CLI::App& app, CheckOptions& options, SharedWords& words) {
  auto* command = app.add_subcommand("check", "put a measurement in, get a verdict");
  command->group(kPits);
  command->footer(
      "examples:\n"
      "  kartwright check                 lists the checks\n"
      "  kartwright check chain           says how to measure, and what to hand in\n"
      "  kartwright check chain --tight 20mm --loose 34mm --drive clutch\n"
      "  kartwright check toe --front 1012mm --rear 1010mm --kart blue27.yaml\n"
      "\nEach check has options of its own; `kartwright check NAME` shows them.");
  command->add_option("name", options.what, "which check: {}")->type_name(value::kCheck);
  command->add_option("--kart", options.kart, "kart file: its settings, dimensions and bands count")
      ->type_name(value::kFile);
  add_answer(*command, words);
  add_common(*command, options.common, words);
}

void add_explain(::CLI::App& app, ExplainOptions& options, SharedWords& words) {
  auto* command = app.add_subcommand(
      "explain", "any symptom, adjustment, fault, track state, rule or message in plain words");
  command->group(kLearn);
  command->footer(
      "example:\n  kartwright explain hop\n  kartwright explain K003       what a message means\n  "
      "kartwright explain            lists everything there "
      "is");
  command->add_option("id", options.id, "what to explain; several words are one name")
      ->type_name(value::kTopic);
  add_answer(*command, words);
  add_common(*command, options.common, words);
}

void add_start(::CLI::App& app, StartOptions& options, SharedWords& words) {
  auto* command = app.add_subcommand("start", "write a kart file to fill in");
  command->group(kKeep);
  command->footer("example:\n  kartwright start --example > kart.yaml");
  command->add_flag("--example", options.example, "a complete invented sprint kart instead");
  add_common(*command, options.common, words);
}

void add_rules(::CLI::App& app, RulesOptions& options, SharedWords& words) {
  auto* command = app.add_subcommand("rules", "check a rule pack, list it, show one of its rules");
  command->group(kKeep);
  command->footer(
      "examples:\n"
      "  kartwright rules check --rules our-rules --witness cases\n"
      "  kartwright rules list\n"
      "  kartwright rules show wider-sheds-side-bite\n"
      "  kartwright rules diff built-in our-rules --scenarios scenarios\n"
      "\n`check` answers 65 where it finds an error; warnings and notes do not count.");
  command
      ->add_option("action", options.words,
                   "what to do; show takes an ID more, diff an OLD pack and a NEW one")
      ->type_name(one_of(value::kRulesActions));
  command
      ->add_option("--witness", options.witness, "folder for the cases that show what check found")
      ->type_name(value::kFolder);
  command
      ->add_option("--scenarios", options.scenarios,
                   "folder of debriefs that diff asks both packs about")
      ->type_name(value::kFolder);
  add_format(*command, words);
  add_common(*command, options.common, words);
}

void add_whatif(::CLI::App& app, WhatIfOptions& options, SharedWords& words) {
  auto* command = app.add_subcommand(
      "whatif", "make a change on paper: wheel loads, inside-rear release, before and after");
  command->group(kBench);
  command->footer(
      "examples:\n"
      "  kartwright whatif --kart blue27.yaml --track green --set rear-width=1380mm\n"
      "  kartwright whatif --set caster=14deg --set mass-height=300mm\n"
      "  kartwright whatif --kart blue27.yaml --sweep rear-width=1320mm..1400mm");
  command->add_option("--kart", options.kart, "kart file; without one a typical kart")
      ->type_name(value::kFile);
  command->add_option("--track", words.track, "state of the track: {}")->type_name(value::kTrack);
  command->add_option("--set", options.sets, "a setting or a size as name=value; again for more")
      ->type_name("NAME=VALUE")
      ->take_all();
  command->add_option("--sweep", options.sweep, "one from one value to another: name=from..to")
      ->type_name("NAME=FROM..TO");
  add_answer(*command, words);
  add_common(*command, options.common, words);
}

void add_learned_words(::CLI::App& app, CommandLine& line) {
  add_learned(app, line.learned, kBench);
  ::CLI::App* const command = app.get_subcommand("learned");
  add_answer_words(command, line.learned.common, line.words);
  command
      ->add_option("--track", line.words.track, "the track that the rules' values are told for: {}")
      ->type_name(value::kTrack);
}

/// A command by its name, and what declares it with its options.
struct Declared {
  std::string_view name;
  void (*add)(::CLI::App& app, CommandLine& line);
};

/// In the order in which they are shown.
constexpr std::array<Declared, 13> kCommands{{
    {"advise",
     [](::CLI::App& app, CommandLine& line) { add_advise(app, line.advise, line.words); }},
    {"weigh", [](::CLI::App& app, CommandLine& line) { add_weigh(app, line.weigh, line.words); }},
    {"check", [](::CLI::App& app, CommandLine& line) { add_check(app, line.check, line.words); }},
    {"whatif",
     [](::CLI::App& app, CommandLine& line) { add_whatif(app, line.whatif, line.words); }},
    {"plan",
     [](::CLI::App& app, CommandLine& line) {
       add_answer_words(add_plan(app, line.plan, kBench), line.plan.given.common, line.words);
     }},
    {"apply",
     [](::CLI::App& app, CommandLine& line) {
       add_apply(app, line.apply, kPits);
       add_answer_words(app.get_subcommand("apply"), line.apply.common, line.words);
     }},
    {"log",
     [](::CLI::App& app, CommandLine& line) {
       add_log(app, line.log, kPits);
       add_answer_words(app.get_subcommand("log"), line.log.common, line.words);
     }},
    {"compare",
     [](::CLI::App& app, CommandLine& line) {
       add_compare(app, line.compare, kBench);
       add_answer_words(app.get_subcommand("compare"), line.compare.common, line.words);
     }},
    {"learned", add_learned_words},
    {"drill",
     [](::CLI::App& app, CommandLine& line) {
       add_answer_words(add_drill(app, line.drill, kLearn), line.drill.common, line.words);
     }},
    {"explain",
     [](::CLI::App& app, CommandLine& line) { add_explain(app, line.explain, line.words); }},
    {"start", [](::CLI::App& app, CommandLine& line) { add_start(app, line.start, line.words); }},
    {"rules", [](::CLI::App& app, CommandLine& line) { add_rules(app, line.rules, line.words); }},
}};

}  // namespace

std::unique_ptr<::CLI::App> build_app(CommandLine& line, std::string_view called) {
  auto app = std::make_unique<::CLI::App>("kartwright - a second opinion on a racing kart's setup",
                                          "kartwright");
  app->footer("The class's rules, the event's officials and qualified people have the last word.");
  app->set_help_flag("-h,--help", "this page; `kartwright COMMAND --help` has more");
  app->set_version_flag(
      "--version", [] { return version_text(); }, "version and commit of the program");
  app->allow_extras();
  app->fallthrough(false);
  // One command: a later word that is also a command, as in `rules check`, is that command's own.
  app->require_subcommand(0, 1);
  const bool known = std::ranges::find(kCommands, called, &Declared::name) != kCommands.end();
  for (const Declared& command : kCommands) {
    if (!known || command.name == called) command.add(*app, line);
  }
  for (::CLI::App* command : app->get_subcommands({})) {
    command->allow_extras();
    command->set_help_flag("-h,--help", "this page");
  }
  return app;
}

}  // namespace kartwright::cli
