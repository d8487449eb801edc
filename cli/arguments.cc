#include "cli/arguments.h"

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <limits>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/arguments_ask.h"
#include "cli/arguments_drill.h"
#include "cli/arguments_log.h"
#include "cli/arguments_plan.h"
#include "cli/loose_options.h"
#include "cli/page.h"
#include "engine/document/diagnostic.h"
#include "engine/document/fields.h"

namespace kartwright::cli {
namespace {

constexpr const char* kPits = "in the pits";
constexpr const char* kBench = "at the bench";
constexpr const char* kLearn = "to learn";
constexpr const char* kKeep = "to keep";

/// Raw words of the options that have a small vocabulary; checked after parsing, so that a typo
/// gets our answer.
struct Words {
  std::string format = "text", units, minutes, hours, track, together, draws, seed, threads;
  bool verbose = false, quiet = false;
};

void add_answer(::CLI::App& command, Words& words) {
  command.add_option("--format", words.format, "text or json");
  command.add_option("--units", words.units,
                     "metric or imperial; else as the kart file writes them");
}

void add_common(::CLI::App& command, Common& common, Words& words) {
  command.add_option("--rules", common.rules,
                     "folder of rule files that add to or replace the built-in ones");
  command.add_flag("-v,--verbose", words.verbose, "say on stderr what is read");
  command.add_flag("-q,--quiet", words.quiet, "no warnings");
}

/// What every command that answers takes beside its own.
void add_answer_words(::CLI::App* command, Common& common, Words& words) {
  add_answer(*command, words);
  add_common(*command, common, words);
}

void add_advise(::CLI::App& app, AdviseOptions& options, Words& words) {
  auto* command = app.add_subcommand("advise", "rank the next change from the driver's debrief");
  command->group(kPits);
  command->footer(
      "example:\n"
      "  kartwright advise --kart blue27.yaml --track rubbered-in --said \"pushes going in, hops "
      "hard in the middle\"\n"
      "\nreports: "
      "symptom[@entry|mid|exit|straight][=0..3][,left|right][,early|late][,sure|fair|unsure]; 0: "
      "asked, and no");
  command->add_option("--kart", options.kart, "kart file; without one a typical kart answers");
  command->add_option("--debrief", options.debrief,
                      "debrief file: may hold kart, track, words and reports; - is stdin");
  command->add_option("--track", words.track, "cold, green, rubbered-in, greasy, wet or unknown");
  command->add_option("--said", options.said, "what the driver said, in the driver's words");
  command->add_option("--report", options.reports, "one symptom; again for more")->take_all();
  command->add_option("--fact", options.facts, "id=value; again for more")->take_all();
  command->add_option("--minutes", words.minutes, "left before the kart goes out (15)");
  command->add_option("--hours", words.hours, "left in the day (3)");
  command->add_option("--laps", options.laps, "faster, same or slower than the run before");
  command->add_flag("--why", options.why, "reasons for every change, with the working");
  command
      ->add_option("--why-not", options.why_not,
                   "a change as rear-width:narrower, or a rule: why it is not first, or does not "
                   "speak")
      ->take_all();
  command->add_flag("--turns", options.turns,
                    "the smallest change of one input that would put something else first");
  command->add_flag(
      "--after", options.after,
      "what to do next if the change helped, half helped, did nothing or made it worse");
  command->add_option("--together", words.together, "most moves made in one break: 2 or 3 (2)");
  command->add_option("--draws", words.draws,
                      "also how often each move comes first in so many draws of what is not known");
  command->add_option("--seed", words.seed, "of the draws (1)");
  command->add_option("--batch", options.batch,
                      "file of JSON lines, a debrief each, answered line by line; - is stdin");
  command->add_option("--threads", words.threads, "of a batch: 1 or 2 (1)");
  command->add_flag("--brief", options.brief, "json without working and questions");
  command->add_option("--log", options.common.log,
                      "the kart's log: effects start from what it has taught, and the advice is "
                      "remembered for `apply`; without words and reports the last run's debrief "
                      "counts");
  add_ask(*command, options);
  add_answer(*command, words);
  add_common(*command, options.common, words);
}

void add_readings(::CLI::App& command, WeighingWords& four) {
  command.add_option("--lf", four.left_front, "reading under the left front wheel, driver aboard");
  command.add_option("--rf", four.right_front, "under the right front");
  command.add_option("--lr", four.left_rear, "under the left rear");
  command.add_option("--rr", four.right_rear, "under the right rear");
  command.add_option("--swapped", four.swapped,
                     "LF,RF,LR,RR weighed again, the scales of each axle changed over");
  command.add_option(
      "--turned", four.turned,
      "LF,RF,LR,RR weighed again, the kart turned a quarter on its spot, scales with "
      "their wheels");
}

void add_lift(::CLI::App& command, LiftWords& lift) {
  command.add_option("--raised", lift.raised,
                     "with --lifted: the axle that is raised, front or rear");
  command.add_option("--lift", lift.lift, "how far its middle is raised, 200 to 250 mm");
  command.add_option("--level", lift.level,
                     "weight on the axle that stays down, both scales, kart level");
  command.add_option("--up", lift.up, "the same with the other axle raised");
  command.add_option("--mass", lift.mass, "of the whole as it stands there; else the kart file's");
  command.add_option("--wheelbase", lift.wheelbase, "else the kart file's");
}

void add_weigh(::CLI::App& app, WeighOptions& options, Words& words) {
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
  command->add_option("--kart", options.kart,
                      "kart file: bands, class weight, what can be moved, and readings where none "
                      "are given");
  add_readings(*command, options.four);
  command->add_option("--resolution", options.four.resolution,
                      "what one scale can tell apart (0.5kg, or 1lb where pounds are written)");
  command->add_flag("--save", options.save, "write the readings into the kart file, old one kept");
  command->add_flag("--lifted", options.lifted,
                    "height of the centre of mass, from one axle raised");
  add_lift(*command, options.lift);
  add_answer(*command, words);
  add_common(*command, options.common, words);
}

void add_check(::CLI::App& app, CheckOptions& options, Words& words) {
  auto* command = app.add_subcommand("check", "put a measurement in, get a verdict");
  command->group(kPits);
  command->footer(
      "examples:\n"
      "  kartwright check                 lists the checks\n"
      "  kartwright check chain           says how to measure, and what to hand in\n"
      "  kartwright check chain --tight 20mm --loose 34mm --drive clutch\n"
      "  kartwright check toe --front 1012mm --rear 1010mm --kart blue27.yaml\n"
      "\nEach check has options of its own; `kartwright check NAME` shows them.");
  command->add_option("name", options.what, "which check");
  command->add_option("--kart", options.kart,
                      "kart file: its settings, dimensions and bands count");
  add_answer(*command, words);
  add_common(*command, options.common, words);
}

void add_explain(::CLI::App& app, ExplainOptions& options, Words& words) {
  auto* command = app.add_subcommand(
      "explain", "any symptom, adjustment, fault, track state, rule or message in plain words");
  command->group(kLearn);
  command->footer(
      "example:\n  kartwright explain hop\n  kartwright explain K003       what a message means\n  "
      "kartwright explain            lists everything there "
      "is");
  command->add_option("id", options.id, "what to explain; several words are one name");
  add_answer(*command, words);
  add_common(*command, options.common, words);
}

void add_start(::CLI::App& app, StartOptions& options, Words& words) {
  auto* command = app.add_subcommand("start", "write a kart file to fill in");
  command->group(kKeep);
  command->footer("example:\n  kartwright start --example > kart.yaml");
  command->add_flag("--example", options.example, "a complete invented sprint kart instead");
  add_common(*command, options.common, words);
}

void add_rules(::CLI::App& app, RulesOptions& options, Words& words) {
  auto* command = app.add_subcommand("rules", "check a rule pack, list it, show one of its rules");
  command->group(kKeep);
  command->footer(
      "examples:\n"
      "  kartwright rules check --rules our-rules --witness cases\n"
      "  kartwright rules list\n"
      "  kartwright rules show wider-sheds-side-bite\n"
      "  kartwright rules diff built-in our-rules --scenarios scenarios\n"
      "\n`check` answers 65 where it finds an error; warnings and notes do not count.");
  command->add_option("action", options.words, "check, list, show ID or diff OLD NEW");
  command->add_option("--witness", options.witness,
                      "folder for the cases that show what check found");
  command->add_option("--scenarios", options.scenarios,
                      "folder of debriefs that diff asks both packs about");
  command->add_option("--format", words.format, "text or json");
  add_common(*command, options.common, words);
}

void add_whatif(::CLI::App& app, WhatIfOptions& options, Words& words) {
  auto* command = app.add_subcommand(
      "whatif", "make a change on paper: wheel loads, inside-rear release, before and after");
  command->group(kBench);
  command->footer(
      "examples:\n"
      "  kartwright whatif --kart blue27.yaml --track green --set rear-width=1380mm\n"
      "  kartwright whatif --set caster=14deg --set mass-height=300mm\n"
      "  kartwright whatif --kart blue27.yaml --sweep rear-width=1320mm..1400mm");
  command->add_option("--kart", options.kart, "kart file; without one a typical kart");
  command->add_option("--track", words.track, "cold, green, rubbered-in, greasy, wet or unknown");
  command->add_option("--set", options.sets, "a setting or a size as name=value; again for more")
      ->take_all();
  command->add_option("--sweep", options.sweep, "one from one value to another: name=from..to");
  add_answer(*command, words);
  add_common(*command, options.common, words);
}

/// The options of the commands that keep records.
struct Records {
  CompareOptions& compare;
  LogOptions& log;
  ApplyOptions& apply;
  LearnedOptions& learned;
};

void add_records(::CLI::App& app, const Records& records, Words& words) {
  add_apply(app, records.apply, kPits);
  add_log(app, records.log, kPits);
  add_compare(app, records.compare, kBench);
  add_learned(app, records.learned, kBench);
  const std::vector<std::pair<const char*, Common*>> all{{"apply", &records.apply.common},
                                                         {"log", &records.log.common},
                                                         {"compare", &records.compare.common},
                                                         {"learned", &records.learned.common}};
  for (const auto& [name, common] : all) {
    ::CLI::App& command = *app.get_subcommand(name);
    add_answer(command, words);
    add_common(command, *common, words);
  }
  app.get_subcommand("learned")->add_option("--track", words.track,
                                            "the track that the rules' values are told for");
}

int usage_error(const std::string& message, const std::string& help) {
  fmt::print(stderr, "kartwright: error[{}]: {}\n", code_name(Code::bad_option),
             printable(message));
  if (!help.empty()) fmt::print(stderr, "help: {}\n", printable(help));
  return kUsage;
}

std::vector<std::string> names_of_commands(const ::CLI::App& app) {
  std::vector<std::string> names;
  for (const ::CLI::App* command : app.get_subcommands({})) names.push_back(command->get_name());
  return names;
}

std::vector<std::string> names_of_options(const ::CLI::App& command) {
  std::vector<std::string> names;
  for (const ::CLI::Option* option : command.get_options()) {
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  }
  return names;
}

/// Words the parser had no use for, answered with the nearest name it would have known.
int answer_leftovers(const ::CLI::App& app) {
  const std::string word = app.remaining(true).front();
  const auto chosen = app.get_subcommands();
  if (chosen.empty()) {
    return usage_error("`" + word + "` is not a command", suggestion(word, names_of_commands(app)));
  }
  const std::string name = word.substr(0, word.find('='));
  const std::vector<std::string> known = names_of_options(*chosen.front());
  if (!word.starts_with('-')) {
    return usage_error("`" + word + "` belongs to no option",
                       "inputs are named: `kartwright " + chosen.front()->get_name() + " --help`");
  }
  return usage_error("`" + name + "` is not an option of " + chosen.front()->get_name(),
                     suggestion(name, known));
}

int has_no_value(const std::string& option) {
  return usage_error("`" + option + "` has no value",
                     "a value that begins with a dash is written " + option + "=VALUE");
}

/// What the parser could not use at all, in our words: an option without its value, or twice.
int answer_misuse(const ::CLI::ParseError& error, const ::CLI::App& app) {
  const std::string message = error.what();
  const std::string option = message.substr(0, message.find_first_of(": ="));
  const auto chosen = app.get_subcommands();
  const std::string command = chosen.empty() ? "" : " " + chosen.front()->get_name();
  const std::string help = "`kartwright" + command + " --help` shows what there is";
  if (!option.starts_with('-')) return usage_error(message, help);
  const ::CLI::App& asked = chosen.empty() ? app : *chosen.front();
  const ::CLI::Option* const known = asked.get_option_no_throw(option);
  if (known != nullptr && known->count() > 1) {
    return usage_error("`" + option + "` is given " + std::to_string(known->count()) + " times",
                       "give it once");
  }
  if (known != nullptr && known->get_items_expected_max() == 0) {
    return usage_error("`" + option + "` takes no value", help);
  }
  return has_no_value(option);
}

/// The parser takes whatever follows `--kart` for its value. An option of the same command there is
/// none: its value was forgotten.
std::string without_value(const ::CLI::App& app, const std::vector<std::string>& arguments) {
  const ::CLI::App* command = nullptr;
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    if (command == nullptr) {
      const auto commands = app.get_subcommands(
          [&](const ::CLI::App* each) { return each->get_name() == arguments[i]; });
      if (!commands.empty()) command = commands.front();
      continue;
    }
    const ::CLI::Option* const option = command->get_option_no_throw(arguments[i]);
    if (option == nullptr || option->get_items_expected_max() == 0) continue;
    const bool swallows = i + 1 < arguments.size() && arguments[i + 1].starts_with("--") &&
                          command->get_option_no_throw(arguments[i + 1]) != nullptr;
    if (swallows) return arguments[i];
    ++i;
  }
  return {};
}

/// Reads a word of a small vocabulary into an enum; false where it is none.
template <typename Enum>
bool choose(const std::string& option, const std::string& word,
            const std::vector<std::string>& known, Enum& out, int& exit) {
  const auto found = std::find(known.begin(), known.end(), word);
  if (found == known.end()) {
    exit = usage_error("`" + word + "` is not a value of " + option, suggestion(word, known));
    return false;
  }
  out = static_cast<Enum>(found - known.begin());
  return true;
}

bool read_amount(const std::string& option, const std::string& word, std::optional<double>& out,
                 int& exit) {
  if (word.empty()) return true;
  constexpr double kMost = 10'000.0;  // a season's worth of either
  out = bare_number(word);
  if (out && *out >= 0.0 && *out <= kMost) return true;
  exit = usage_error("`" + word + "` is not an amount for " + option, "a number from 0 to 10000");
  return false;
}

bool read_common(const Words& words, Common& common, int& exit, bool csv = false) {
  std::vector<std::string> formats{"text", "json"};
  if (csv) formats.emplace_back("csv");
  if (!choose("--format", words.format, formats, common.format, exit)) return false;
  if (!words.units.empty()) {
    System system = System::metric;
    if (!choose("--units", words.units, {"metric", "imperial"}, system, exit)) return false;
    common.units = system;
  }
  common.loudness = (words.verbose ? 1 : 0) - (words.quiet ? 1 : 0);
  return true;
}

/// A whole number within limits; the usual one where the option was not given.
bool read_count(const std::string& option, const std::string& word, std::uint64_t least,
                std::uint64_t most, std::optional<std::uint64_t>& out, int& exit) {
  if (word.empty()) return true;
  std::uint64_t count = 0;
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), count);
  if (error == std::errc{} && end == word.data() + word.size() && count >= least && count <= most) {
    out = count;
    return true;
  }
  exit = usage_error("`" + word + "` is not an amount for " + option,
                     fmt::format("a whole number from {} to {}", least, most));
  return false;
}

bool read_counts(const Words& words, AdviseOptions& options, int& exit) {
  constexpr std::uint64_t kMostDraws = 1'000'000;
  std::optional<std::uint64_t> together;
  std::optional<std::uint64_t> threads;
  std::optional<std::uint64_t> seed;
  const bool good =
      read_count("--together", words.together, 2, 3, together, exit) &&
      read_count("--threads", words.threads, 1, 2, threads, exit) &&
      read_count("--draws", words.draws, 100, kMostDraws, options.draws, exit) &&
      read_count("--seed", words.seed, 0, std::numeric_limits<std::uint64_t>::max(), seed, exit);
  options.together = static_cast<std::size_t>(together.value_or(options.together));
  options.threads = static_cast<int>(threads.value_or(1));
  options.seed = seed.value_or(options.seed);
  return good;
}

/// A batch takes its debriefs from the lines, and answers in JSON.
bool fits_a_batch(const AdviseOptions& options, const Words& words, int& exit) {
  if (options.batch.empty()) {
    if (words.threads.empty()) return true;
    exit = usage_error("`--threads` belongs to --batch", "one debrief takes one thread");
    return false;
  }
  const std::vector<std::pair<const char*, bool>> others{{"--debrief", !options.debrief.empty()},
                                                         {"--said", !options.said.empty()},
                                                         {"--report", !options.reports.empty()},
                                                         {"--fact", !options.facts.empty()},
                                                         {"--laps", !options.laps.empty()},
                                                         {"--why", options.why},
                                                         {"--why-not", !options.why_not.empty()},
                                                         {"--turns", options.turns},
                                                         {"--after", options.after},
                                                         {"--draws", options.draws.has_value()}};
  for (const auto& [name, given] : others) {
    if (!given) continue;
    exit = usage_error(std::string("`") + name + "` does not go with --batch",
                       "every line of a batch is a debrief of its own");
    return false;
  }
  if (options.kart != "-" || options.batch != "-") return true;
  exit = usage_error("--kart and --batch cannot both come from standard input",
                     "give one of them as a file");
  return false;
}

bool read_advise(const Words& words, AdviseOptions& options, int& exit) {
  if (!words.track.empty()) options.track = words.track;
  if (options.kart == "-" && options.debrief == "-") {
    exit = usage_error("--kart and --debrief cannot both come from standard input",
                       "give one of them as a file, or put the kart into the debrief");
    return false;
  }
  return read_amount("--minutes", words.minutes, options.minutes, exit) &&
         read_amount("--hours", words.hours, options.hours, exit) &&
         read_counts(words, options, exit) && fits_a_batch(options, words, exit);
}

bool read_whatif(const Words& words, WhatIfOptions& options, int& exit) {
  if (!words.track.empty()) options.track = words.track;
  if (!options.sets.empty() || !options.sweep.empty()) return true;
  exit = usage_error("nothing to change", "name it, as `--set rear-width=1380mm`");
  return false;
}

/// A weighing is of four readings or of a lifted axle.
bool read_weigh(WeighOptions& options, int& exit) {
  const WeighingWords& four = options.four;
  const std::vector<std::pair<const char*, const std::string*>> of_the_four{
      {"--lf", &four.left_front}, {"--rf", &four.right_front},  {"--lr", &four.left_rear},
      {"--rr", &four.right_rear}, {"--swapped", &four.swapped}, {"--turned", &four.turned}};
  const LiftWords& lift = options.lift;
  const std::vector<std::pair<const char*, const std::string*>> of_the_lift{
      {"--raised", &lift.raised}, {"--lift", &lift.lift}, {"--level", &lift.level},
      {"--up", &lift.up},         {"--mass", &lift.mass}, {"--wheelbase", &lift.wheelbase}};
  for (const auto& [name, value] : options.lifted ? of_the_four : of_the_lift) {
    if (value->empty()) continue;
    exit = usage_error(
        std::string("`") + name + "` goes " + (options.lifted ? "without" : "with") + " --lifted",
        "`kartwright weigh --help` has an example of each");
    return false;
  }
  options.lift.resolution = four.resolution;
  if (!options.save) return true;
  const bool has_file = !options.kart.empty() && options.kart != "-";
  if (has_file && !options.lifted) return true;
  exit = usage_error(
      options.lifted ? "`--save` goes without --lifted" : "`--save` has no kart file to write into",
      "give it with --kart and four readings");
  return false;
}

/// False where the options do not go together.
template <typename Options>
bool fits_together(const Options& options, int& exit) {
  const auto [message, help] = misuse_of(options);
  if (!message.empty()) exit = usage_error(message, help);
  return message.empty();
}

/// The words of the command line but for those of a check's own options, which go to `readings`;
/// false where one of these has no value.
bool take_readings(const ::CLI::App& app, std::vector<std::string>& words, CheckOptions& check,
                   int& exit) {
  if (words.empty() || words.front() != "check") return true;
  std::vector<std::string> flags;
  std::vector<std::string> options;
  for (const ::CLI::Option* option : app.get_subcommand("check")->get_options()) {
    auto& names = option->get_items_expected_max() == 0 ? flags : options;
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  }
  LooseOptions loose = take_loose_options(words, flags, options);
  words = std::move(loose.rest);
  check.readings = std::move(loose.taken);
  if (loose.without_value.empty()) return true;
  exit = has_no_value(loose.without_value);
  return false;
}

}  // namespace

Arguments parse_arguments(int argc, char** argv) {
  ::CLI::App app{"kartwright - a second opinion on a racing kart's setup", "kartwright"};
  app.footer("The class's rules, the event's officials and qualified people have the last word.");
  app.set_help_flag("-h,--help", "this page; `kartwright COMMAND --help` has more");
  app.set_version_flag("--version", "kartwright " KARTWRIGHT_VERSION);
  app.allow_extras();
  app.fallthrough(false);
  // One command: a later word that is also a command, as in `rules check`, is that command's own.
  app.require_subcommand(0, 1);
  Words words;
  AdviseOptions advise;
  WeighOptions weigh;
  CheckOptions check;
  ExplainOptions explain;
  StartOptions start;
  RulesOptions rules;
  WhatIfOptions whatif;
  CompareOptions compare;
  LogOptions log;
  ApplyOptions apply;
  LearnedOptions learned;
  PlanOptions plan;
  add_advise(app, advise, words);
  add_weigh(app, weigh, words);
  add_check(app, check, words);
  add_explain(app, explain, words);
  add_start(app, start, words);
  add_rules(app, rules, words);
  add_whatif(app, whatif, words);
  add_records(app, {compare, log, apply, learned}, words);
  add_answer_words(add_plan(app, plan, kBench), plan.given.common, words);
  DrillOptions drill;
  add_answer_words(add_drill(app, drill, kLearn), drill.common, words);
  for (::CLI::App* command : app.get_subcommands({})) command->allow_extras();
  int exit = kSuccess;
  std::vector<std::string> arguments(argv + 1, argv + argc);
  if (!take_readings(app, arguments, check, exit)) return Answered{exit};
  if (const std::string option = without_value(app, arguments); !option.empty()) {
    return Answered{has_no_value(option)};
  }
  try {
    app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
  } catch (const ::CLI::Success& done) {
    app.exit(done);
    return Answered{kSuccess};
  } catch (const ::CLI::ParseError& error) {
    return Answered{answer_misuse(error, app)};
  }
  if (!app.remaining(true).empty()) return Answered{answer_leftovers(app)};
  if (app.get_subcommands().empty()) {
    return Answered{usage_error("no command", "`kartwright --help` lists them")};
  }
  // What every command takes is looked at first; then what is the command's own, if anything.
  const auto given = [&](auto& options, const auto&... own) -> Arguments {
    const bool good = read_common(words, common_of(options), exit) && (own() && ...);
    return good ? Arguments{options} : Answered{exit};
  };
  const auto fit = [&](const auto& options) { return fits_together(options, exit); };
  if (app.got_subcommand("check")) return given(check);
  if (app.got_subcommand("advise")) {
    return given(advise, [&] { return read_advise(words, advise, exit) && fit(advise); });
  }
  if (app.got_subcommand("weigh")) return given(weigh, [&] { return read_weigh(weigh, exit); });
  if (app.got_subcommand("explain")) return given(explain);
  if (app.got_subcommand("rules")) return given(rules);
  if (app.got_subcommand("log")) {
    const bool good = read_common(words, log.common, exit, true) && fit(log);
    return good ? Arguments{log} : Answered{exit};
  }
  if (app.got_subcommand("apply")) return given(apply, [&] { return fit(apply); });
  if (app.got_subcommand("learned")) {
    if (!words.track.empty()) learned.track = words.track;
    return given(learned);
  }
  if (app.got_subcommand("plan")) return given(plan);
  if (app.got_subcommand("drill")) return given(drill, [&] { return fit(drill); });
  if (app.got_subcommand("compare")) return given(compare);
  if (app.got_subcommand("whatif")) {
    return given(whatif, [&] { return read_whatif(words, whatif, exit); });
  }
  return given(start);
}

}  // namespace kartwright::cli
