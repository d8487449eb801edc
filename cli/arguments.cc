#include "cli/arguments.h"

#include <algorithm>
#include <cstdio>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/page.h"
#include "engine/document/diagnostic.h"
#include "engine/document/fields.h"

namespace kartwright::cli {
namespace {

constexpr const char* kPits = "in the pits";
constexpr const char* kLearn = "to learn";
constexpr const char* kKeep = "to keep";

/// Raw words of the options that have a small vocabulary; checked after parsing, so that a typo
/// gets our answer.
struct Words {
  std::string format = "text", units, minutes, hours, track;
  bool verbose = false, quiet = false;
};

void add_common(::CLI::App& command, Common& common, Words& words) {
  command.add_option("--format", words.format, "text or json");
  command.add_option("--units", words.units,
                     "metric or imperial; else as the kart file writes them");
  command.add_option("--rules", common.rules,
                     "folder of rule files that add to or replace the built-in ones");
  command.add_flag("-v,--verbose", words.verbose, "say on stderr what is read");
  command.add_flag("-q,--quiet", words.quiet, "no warnings");
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
  command->add_flag("--brief", options.brief, "json without working and questions");
  add_common(*command, options.common, words);
}

void add_explain(::CLI::App& app, ExplainOptions& options, Words& words) {
  auto* command = app.add_subcommand(
      "explain", "any symptom, adjustment, fault, track state or rule in plain words");
  command->group(kLearn);
  command->footer(
      "example:\n  kartwright explain hop\n  kartwright explain            lists everything there "
      "is");
  command->add_option("id", options.id, "what to explain");
  add_common(*command, options.common, words);
}

void add_start(::CLI::App& app, StartOptions& options, Words& words) {
  auto* command = app.add_subcommand("start", "write a kart file to fill in");
  command->group(kKeep);
  command->footer("example:\n  kartwright start --example > kart.yaml");
  command->add_flag("--example", options.example, "a complete invented sprint kart instead");
  add_common(*command, options.common, words);
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
  out = bare_number(word);
  if (out && *out >= 0.0) return true;
  exit =
      usage_error("`" + word + "` is not an amount for " + option, "a number that is not negative");
  return false;
}

bool read_common(const Words& words, Common& common, int& exit) {
  if (!choose("--format", words.format, {"text", "json"}, common.format, exit)) return false;
  if (!words.units.empty()) {
    System system = System::metric;
    if (!choose("--units", words.units, {"metric", "imperial"}, system, exit)) return false;
    common.units = system;
  }
  common.loudness = (words.verbose ? 1 : 0) - (words.quiet ? 1 : 0);
  return true;
}

bool read_advise(const Words& words, AdviseOptions& options, int& exit) {
  if (!words.track.empty()) options.track = words.track;
  if (options.kart == "-" && options.debrief == "-") {
    exit = usage_error("--kart and --debrief cannot both come from standard input",
                       "give one of them as a file, or put the kart into the debrief");
    return false;
  }
  return read_amount("--minutes", words.minutes, options.minutes, exit) &&
         read_amount("--hours", words.hours, options.hours, exit);
}

}  // namespace

Arguments parse_arguments(int argc, char** argv) {
  ::CLI::App app{"kartwright - a second opinion on a racing kart's setup"};
  app.footer("The class's rules, the event's officials and qualified people have the last word.");
  app.set_help_flag("-h,--help", "this page; `kartwright COMMAND --help` has more");
  app.set_version_flag("--version", "kartwright " KARTWRIGHT_VERSION);
  app.allow_extras();
  app.fallthrough(false);
  Words words;
  AdviseOptions advise;
  ExplainOptions explain;
  StartOptions start;
  add_advise(app, advise, words);
  add_explain(app, explain, words);
  add_start(app, start, words);
  for (::CLI::App* command : app.get_subcommands({})) command->allow_extras();
  try {
    app.parse(argc, argv);
  } catch (const ::CLI::Success& done) {
    app.exit(done);
    return Answered{kSuccess};
  } catch (const ::CLI::ParseError& error) {
    return Answered{usage_error(error.what(), "`kartwright --help` shows what there is")};
  }
  if (!app.remaining(true).empty()) return Answered{answer_leftovers(app)};
  if (app.get_subcommands().empty()) {
    return Answered{usage_error("no command", "`kartwright --help` lists them")};
  }
  int exit = kSuccess;
  if (app.got_subcommand("advise")) {
    const bool good = read_common(words, advise.common, exit) && read_advise(words, advise, exit);
    return good ? Arguments{advise} : Answered{exit};
  }
  if (app.got_subcommand("explain")) {
    return read_common(words, explain.common, exit) ? Arguments{explain} : Answered{exit};
  }
  return read_common(words, start.common, exit) ? Arguments{start} : Answered{exit};
}

}  // namespace kartwright::cli
