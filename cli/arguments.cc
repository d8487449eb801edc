#include "cli/arguments.h"

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <limits>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/arguments_ask.h"
#include "cli/arguments_drill.h"
#include "cli/arguments_log.h"
#include "cli/command_line.h"
#include "cli/command_pages.h"
#include "cli/formats.h"
#include "cli/help_text.h"
#include "cli/loose_options.h"
#include "cli/option_values.h"
#include "cli/page.h"
#include "cli/tell.h"
#include "cli/version.h"
#include "engine/document/diagnostic.h"
#include "engine/document/fields.h"
#include "engine/knowledge/built_in.h"

namespace kartwright::cli {
namespace {

int usage_error(const std::string& message, const std::string& help) {
  tell("kartwright: error[{}]: {}\n", code_name(Code::bad_option), printable(message));
  if (!help.empty()) tell("help: {}\n", printable(help));
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

/// SharedWords the parser had no use for, answered with the nearest name it would have known.
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

/// The page of the command, or of the program where none is chosen.
Answered answer_help(const ::CLI::App& app) {
  const ProgramPage pages = command_pages(app, built_in_pack());
  const auto chosen = app.get_subcommands();
  std::string text;
  if (chosen.empty()) {
    text = program_help_text(pages, look_of_stdout());
  } else {
    const auto page =
        std::ranges::find(pages.commands, chosen.front()->get_name(), &CommandPage::name);
    text = command_help_text(*page, look_of_stdout());
  }
  std::fwrite(text.data(), 1, text.size(), stdout);
  return Answered{kSuccess};
}

/// False where an option of a small vocabulary has another word.
bool in_the_vocabulary(const ::CLI::App& command, int& exit) {
  for (const ::CLI::Option* option : command.get_options()) {
    const std::vector<std::string> known = words_in(option->get_type_name());
    if (option->get_positional() || known.empty()) continue;
    for (const std::string& word : option->results()) {
      if (std::ranges::find(known, word) != known.end()) continue;
      exit = usage_error("`" + word + "` is not a value of " + option->get_name(),
                         suggestion(word, known));
      return false;
    }
  }
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

void read_common(const SharedWords& words, Common& common) {
  common.format = format_of_word(words.format);
  if (!words.units.empty())
    common.units = words.units == value::kUnits.front() ? System::metric : System::imperial;
  common.loudness = (words.verbose ? 1 : 0) - (words.quiet ? 1 : 0);
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

bool read_counts(const SharedWords& words, AdviseOptions& options, int& exit) {
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
bool fits_a_batch(const AdviseOptions& options, const SharedWords& words, int& exit) {
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

bool read_advise(const SharedWords& words, AdviseOptions& options, int& exit) {
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

bool read_whatif(const SharedWords& words, WhatIfOptions& options, int& exit) {
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

/// The options of the command that was called, looked through: first what every command takes, then
/// what is its own, if anything.
Arguments chosen(CommandLine& line, const std::string& command) {
  const SharedWords& words = line.words;
  int exit = kSuccess;
  const auto given = [&](auto& options, const auto&... own) -> Arguments {
    read_common(words, common_of(options));
    return (own() && ...) ? Arguments{options} : Answered{exit};
  };
  const auto fitting = [&](auto& options) {
    return given(options, [&] { return fits_together(options, exit); });
  };
  if (command == "check") return given(line.check);
  if (command == "explain") return given(line.explain);
  if (command == "rules") return given(line.rules);
  if (command == "plan") return given(line.plan);
  if (command == "compare") return given(line.compare);
  if (command == "start") return given(line.start);
  if (command == "log") return fitting(line.log);
  if (command == "apply") return fitting(line.apply);
  if (command == "drill") return fitting(line.drill);
  if (command == "learned") {
    if (!words.track.empty()) line.learned.track = words.track;
    return given(line.learned);
  }
  if (command == "weigh") return given(line.weigh, [&] { return read_weigh(line.weigh, exit); });
  if (command == "whatif")
    return given(line.whatif, [&] { return read_whatif(words, line.whatif, exit); });
  return given(line.advise, [&] {
    return read_advise(words, line.advise, exit) && fits_together(line.advise, exit);
  });
}

}  // namespace

Arguments parse_arguments(int argc, char** argv) {
  CommandLine line;
  std::vector<std::string> arguments(argv + 1, argv + argc);
  const std::unique_ptr<::CLI::App> built =
      build_app(line, arguments.empty() ? "" : arguments.front());
  ::CLI::App& app = *built;
  int exit = kSuccess;
  if (!take_readings(app, arguments, line.check, exit)) return Answered{exit};
  if (const std::string option = without_value(app, arguments); !option.empty()) {
    return Answered{has_no_value(option)};
  }
  try {
    app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
  } catch (const ::CLI::CallForHelp&) {
    return answer_help(app);
  } catch (const ::CLI::CallForVersion&) {
    fmt::print("{}\n", version_text());
    return Answered{kSuccess};
  } catch (const ::CLI::ParseError& error) {
    return Answered{answer_misuse(error, app)};
  }
  if (!app.remaining(true).empty()) return Answered{answer_leftovers(app)};
  if (app.get_subcommands().empty()) {
    return Answered{usage_error("no command", "`kartwright --help` lists them")};
  }
  const ::CLI::App& command = *app.get_subcommands().front();
  if (!in_the_vocabulary(command, exit)) return Answered{exit};
  return chosen(line, command.get_name());
}

}  // namespace kartwright::cli
