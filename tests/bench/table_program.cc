// The program in fresh processes: beside an empty one, line after line, and on long logs.

#include <algorithm>
#include <set>
#include <sstream>
#include <stdexcept>

#include <fmt/format.h>

#include "tests/bench/debriefs.h"
#include "tests/bench/long_log.h"
#include "tests/bench/program.h"
#include "tests/bench/table_rows.h"
#include "tests/support/process.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using Words = std::vector<std::string>;

std::string scenario(const std::string& name) {
  return std::string(KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/") + name;
}

Taken must_run(const Words& arguments, const std::string& program = KARTWRIGHT_BINARY) {
  if (const auto taken = run_program(arguments, program)) return *taken;
  throw std::runtime_error("did not end well: " + program + ' ' +
                           fmt::format("{}", fmt::join(arguments, " ")));
}

/// Of the processor, for the program and for the kernel on its behalf.
double seconds_to_run(const Words& arguments, const std::string& program = KARTWRIGHT_BINARY) {
  return must_run(arguments, program).cpu_seconds;
}

/// The shared libraries that the loader would map, by name.
std::set<std::string> libraries_of(const std::string& program) {
  std::istringstream lines(run({.argv = {program}, .env = {{"LD_TRACE_LOADED_OBJECTS", "1"}}}).out);
  std::set<std::string> names;
  for (std::string line; std::getline(lines, line);) {
    std::istringstream words(line);
    std::string name;
    if (words >> name) names.insert(name);
  }
  return names;
}

void beside_empty(Group& group, const std::string& called, const Words& arguments, int goes) {
  PairedGoes pairs;
  for (int go = 0; go < goes; ++go) {
    pairs.ours.push_back(seconds_to_run(arguments));
    pairs.theirs.push_back(seconds_to_run({}, KARTWRIGHT_EMPTY));
  }
  group.add(called, 0.0, pairs);
}

Words batch_of(const std::string& path, bool brief) {
  Words arguments{"advise", "--batch", path};
  if (brief) arguments.emplace_back("--brief");
  return arguments;
}

/// Each line answered in a batch of its own is answered the same as among the others.
void check_lines(const std::string& lines) {
  const auto answered = [](const std::string& input) {
    Words argv = batch_of("-", true);
    argv.insert(argv.begin(), KARTWRIGHT_BINARY);
    return run({.argv = argv, .input = input}).out;
  };
  std::string one_by_one;
  std::istringstream each(lines);
  for (std::string line; std::getline(each, line);) one_by_one += answered(line + '\n');
  agree(!one_by_one.empty() && answered(lines) == one_by_one, "lines one by one, and all at once");
}

Taken answer(int count, SaidAs said_as, bool brief) {
  const TempFolder folder;
  const std::string path = folder.write("lines.jsonl", debrief_lines(count, said_as));
  if (const auto taken = watch_program(batch_of(path, brief))) return *taken;
  throw std::runtime_error("a batch did not end well");
}

std::string rate_text(int lines, const Taken& taken) {
  return fmt::format("{:.0f}/s", lines / taken.cpu_seconds);
}

std::string memory_text(const Taken& taken) {
  return fmt::format("{:.1f} MiB", static_cast<double>(taken.peak_kib) / 1024.0);
}

void time_command(const std::string& what, const std::string& size, const Words& arguments,
                  Effort effort) {
  Group group(what);
  PairedGoes pairs;
  for (int go = 0; go < effort.goes(); ++go) pairs.ours.push_back(seconds_to_run(arguments));
  group.add(size, 0.0, pairs);
  group.print();
}

/// A command on logs of several lengths.
void time_on_logs(const std::string& what, Words arguments, Effort effort) {
  Group group(what);
  arguments.insert(arguments.end(), {"--log", ""});
  for (const int runs : {1'000, 3'200, 10'000}) {
    if (effort.quick && runs > 1'000) continue;
    arguments.back() = log_of(runs);
    PairedGoes pairs;
    for (int go = 0; go < effort.goes(); ++go) pairs.ours.push_back(seconds_to_run(arguments));
    group.add(fmt::format("{} runs", runs), runs, pairs);
  }
  group.print();
}

}  // namespace

void time_cold(Effort effort) {
  agree(libraries_of(KARTWRIGHT_BINARY) == libraries_of(KARTWRIGHT_EMPTY),
        "the libraries that are mapped");
  const int goes = effort.quick ? 20 : 100;
  Group group("a fresh process", "an empty one");
  beside_empty(group, "advise", {"advise", "--debrief", scenario("heat-2.yaml")}, goes);
  beside_empty(group, "--version", {"--version"}, goes);
  group.print();
}

void time_batch(Effort effort) {
  check_lines(debrief_lines(20, SaidAs::reports) + debrief_lines(20, SaidAs::words));
  Group rates("batch of brief answers, a core");
  Group memory("  the most memory it takes");
  for (const int lines : {1'000, 10'000, 100'000, 1'000'000}) {
    if (effort.quick && lines > 10'000) continue;
    const Taken taken = answer(lines, SaidAs::reports, true);
    const std::string size = fmt::format("{} lines", lines);
    rates.add_figure(size, lines, taken.cpu_seconds, rate_text(lines, taken));
    memory.add_figure(size, lines, static_cast<double>(taken.peak_kib), memory_text(taken));
  }
  rates.print();
  memory.print();
  Group others("other batches, a core");
  const int some = effort.quick ? 2'000 : 20'000;
  const std::string size = fmt::format("{} lines", some);
  others.add_figure("everything", 0.0, 0.0, rate_text(some, answer(some, SaidAs::reports, false)));
  others.add_figure("in words", 0.0, 0.0, rate_text(some, answer(some, SaidAs::words, true)));
  others.print();
}

void time_commands(Effort effort) {
  const std::string debrief = scenario("heat-2.yaml");
  const std::string kart = scenario("harbour-41.yaml");
  time_command("a sheet", "advise", {"advise", "--debrief", debrief, "--format", "html"}, effort);
  time_command("a sweep", "1320 to 1400 mm",
               {"whatif", "--kart", kart, "--sweep", "rear-width=1320mm..1400mm"}, effort);
  time_command("a day's plan", "five stages", {"plan", "--kart", kart}, effort);
  time_on_logs("advise with a log", {"advise", "--kart", logged_kart()}, effort);
  time_on_logs("what a log taught", {"learned", "--kart", logged_kart()}, effort);
  time_on_logs("a log's list", {"log", "list"}, effort);
}

}  // namespace kartwright
