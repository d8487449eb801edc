#include "cli/arguments_plan.h"

#include <CLI/CLI.hpp>

#include "cli/option_values.h"

namespace kartwright::cli {

::CLI::App* add_plan(::CLI::App& app, PlanOptions& options, const char* group) {
  auto* command = app.add_subcommand("plan", "settings for the day as the track comes in");
  command->group(group);
  command->footer(
      "examples:\n"
      "  kartwright plan --kart blue27.yaml\n"
      "  kartwright plan --kart blue27.yaml --track green --log season.db\n"
      "  kartwright plan --kart blue27.yaml --stages cold=1h,green=2h,rubbered-in=1h\n"
      "\nWhat the driver said is taken to stay until it is mended, what was stated to hold all "
      "day.");
  AdviseOptions& given = options.given;
  command->add_option("--kart", given.kart, "kart file; without one a typical kart is planned for")
      ->type_name(value::kFile);
  command
      ->add_option_function<std::string>(
          "--track", [&](const std::string& track) { given.track = track; },
          "state it is in now: {} (the first stage)")
      ->type_name(value::kDay);
  command
      ->add_option("--stages", options.stages,
                   "the stages of the day, from cold, green, rubbering-in, rubbered-in, late; "
                   "each with its hours, as green=2h (1h)")
      ->type_name("STAGES");
  command->add_option("--minutes", options.minutes, "for the changes of one stop (15)")
      ->type_name("MIN");
  command->add_option("--changes", options.changes, "most at one stop, 1 to 3 (2)")->type_name("N");
  command
      ->add_option("--debrief", given.debrief,
                   "debrief file of the last run: may hold kart, track, words and reports")
      ->type_name(value::kFile);
  command->add_option("--said", given.said, "what the driver said, in the driver's words")
      ->type_name("WORDS");
  command->add_option("--report", given.reports, "one symptom; again for more")
      ->type_name(value::kSymptom)
      ->take_all();
  command->add_option("--fact", given.facts, "id=value; again for more")
      ->type_name(value::kFact)
      ->take_all();
  command->add_option("--log", given.common.log, "the kart's log: effects as it has taught them")
      ->type_name(value::kFile);
  return command;
}

}  // namespace kartwright::cli
