#include "cli/arguments_drill.h"

#include <charconv>
#include <cstdint>

#include <CLI/CLI.hpp>

#include "cli/option_values.h"

namespace kartwright::cli {
namespace {

bool is_whole(const std::string& word, std::uint64_t least, std::uint64_t most) {
  std::uint64_t number = 0;
  const char* const last = word.data() + word.size();
  const auto [end, error] = std::from_chars(word.data(), last, number);
  return error == std::errc{} && end == last && number >= least && number <= most;
}

std::pair<std::string, std::string> bad_numbers(const DrillOptions& options) {
  constexpr std::uint64_t kMostSeed = 1'000'000'000'000;
  constexpr std::uint64_t kMostDrills = 100;
  if (!options.seed.empty() && !is_whole(options.seed, 0, kMostSeed))
    return {"`" + options.seed + "` is not a seed", "a whole number up to a million million"};
  for (const std::string& count : {options.count, options.print}) {
    if (!count.empty() && !is_whole(count, 1, kMostDrills))
      return {"`" + count + "` is not an amount of drills", "a whole number from 1 to 100"};
  }
  return {};
}

}  // namespace

::CLI::App* add_drill(::CLI::App& app, DrillOptions& options, const char* group) {
  auto* command = app.add_subcommand(
      "drill", "practise: read a debrief, pick a change, see what it would have done and why");
  command->group(group);
  command->footer(
      "examples:\n"
      "  kartwright drill\n"
      "  kartwright drill --level conflict --count 3 --trainee ann\n"
      "  kartwright drill --case first-hop\n"
      "  kartwright drill --case scenarios/harbour/heat-2.yaml\n"
      "  kartwright drill --progress --trainee ann\n"
      "  kartwright drill --print 6 --seed 4 > sheet.txt\n"
      "  kartwright drill --seed 7 < answers.txt     a script: one answer a line\n"
      "\nThe answers: the end at fault, then a change and its size, as `rear wider 10`, `leave it` "
      "or\n`check bent axle`. `?` helps, `quit` ends. It is practice on paper: real work follows "
      "its "
      "cautions.");
  command->add_option("--case", options.case_id, "a case by its name, or a debrief file")
      ->type_name(value::kCase);
  command->add_option("--level", options.level, "what is practised: {}")->type_name(value::kLevel);
  command->add_option("--seed", options.seed, "which draw (1, or the trainee's next)")
      ->type_name("N");
  command->add_option("--count", options.count, "drills in the session (1)")->type_name("N");
  command->add_option("--trainee", options.trainee, "keep a record under this name")
      ->type_name("NAME")
      ->check([](const std::string& name) {
        return name.empty() ? std::string("a trainee has a name, as --trainee ann") : std::string();
      });
  command->add_flag("--progress", options.progress, "the trainee's record instead");
  command
      ->add_option("--print", options.print,
                   "a worksheet of so many tasks, answers on a page of their own")
      ->type_name("N");
  return command;
}

std::pair<std::string, std::string> misuse_of(const DrillOptions& options) {
  constexpr std::size_t kLongestName = 60;
  const std::string help = "`kartwright drill --help` has examples";
  if (options.progress && options.trainee.empty())
    return {"whose progress?", "name the trainee, as --trainee ann"};
  if (options.trainee.size() > kLongestName)
    return {"the trainee's name is too long", "at most 60 characters"};
  if (!options.print.empty() && (!options.trainee.empty() || !options.count.empty()))
    return {"`--print` goes without --trainee and --count", help};
  if (!options.print.empty() && options.common.format == Format::json)
    return {"a worksheet is printed as text", "leave --format out"};
  if (!options.case_id.empty() && (!options.level.empty() || !options.print.empty()))
    return {"`--case` names the task, --level and --print draw it", help};
  if (options.progress && (!options.print.empty() || !options.case_id.empty()))
    return {"`--progress` goes with --trainee alone", help};
  return bad_numbers(options);
}

}  // namespace kartwright::cli
