#include "tests/support/clips.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <sstream>
#include <stdexcept>

#include "tests/support/process.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

constexpr const char* kCase = "case";

std::string pattern(Atom atom) { return "(a (n " + std::to_string(atom) + "))"; }

std::string found_on_path(const std::string& name) {
  const char* const path = std::getenv("PATH");
  std::istringstream folders(path == nullptr ? "" : path);
  for (std::string folder; std::getline(folders, folder, ':');) {
    const std::filesystem::path file = std::filesystem::path(folder) / name;
    if (std::filesystem::is_regular_file(file)) return file.string();
  }
  return {};
}

/// Atom 12 is the fact (a (n 12)).
std::string clips_rules(const Program& program) {
  const std::vector<int> layers = layers_by_raising(program);
  std::string out = "(deftemplate a (slot n))\n";
  for (std::size_t i = 0; i < program.clauses.size(); ++i) {
    const Clause& clause = program.clauses[i];
    out += "(defrule r" + std::to_string(i) + " (declare (salience " + std::to_string(-layers[i]) +
           "))";
    for (const Atom need : clause.needs) out += ' ' + pattern(need);
    for (const Atom absent : clause.without) out += " (not " + pattern(absent) + ")";
    out += " => (assert " + pattern(clause.head) + "))\n";
  }
  return out;
}

std::string clips_assert(const std::vector<Atom>& facts) {
  if (facts.empty()) return {};
  std::string out = "(assert";
  for (const Atom fact : facts) out += ' ' + pattern(fact);
  return out + ")\n";
}

/// Ends the process with 7 where the file is not read to its end.
std::string clips_load(const std::string& path) {
  // Two steps: the value of load* in one expression misses a rule that is not closed.
  return "(defglobal ?*ok* = FALSE)\n(set-reset-globals FALSE)\n(bind ?*ok* (load* \"" + path +
         "\"))\n(if (neq ?*ok* TRUE) then (exit 7))\n";
}

std::string asked_case(const std::vector<Atom>& given) {
  return "(reset)\n" + clips_assert(given) + "(run)\n(printout t " + kCase +
         " crlf)\n(do-for-all-facts ((?f a)) TRUE (printout t ?f:n crlf))\n";
}

/// What each case printed, in the order in which they were asked.
std::vector<std::vector<Atom>> cases_of(const std::string& printed) {
  std::vector<std::vector<Atom>> out;
  std::istringstream lines(printed);
  for (std::string line; std::getline(lines, line);) {
    if (line == kCase) {
      out.emplace_back();
    } else if (out.empty() || line.find_first_not_of("0123456789") != std::string::npos) {
      throw std::runtime_error("clips: " + printed);
    } else {
      out.back().push_back(std::stoi(line));
    }
  }
  for (std::vector<Atom>& each : out) std::sort(each.begin(), each.end());
  return out;
}

}  // namespace

std::string clips_program() { return found_on_path("clips"); }

std::vector<int> layers_by_raising(const Program& program) {
  std::vector<int> of_atom(static_cast<std::size_t>(program.atoms), 0);
  const auto layer = [&](Atom atom) -> int& { return of_atom[static_cast<std::size_t>(atom)]; };
  for (bool raised = true; raised;) {
    raised = false;
    for (const Clause& clause : program.clauses) {
      int least = 0;
      for (const Atom need : clause.needs) least = std::max(least, layer(need));
      for (const Atom absent : clause.without) least = std::max(least, layer(absent) + 1);
      if (layer(clause.head) >= least) continue;
      layer(clause.head) = least;
      raised = true;
    }
  }
  std::vector<int> out;
  for (const Clause& clause : program.clauses) out.push_back(layer(clause.head));
  return out;
}

std::string run_clips(const std::string& batch_path, int seconds) {
  const Ended ended = run({.argv = {found_on_path("timeout"), std::to_string(seconds),
                                    clips_program(), "-f2", batch_path}});
  if (ended.exit != 0) {
    throw std::runtime_error("clips ended with " + std::to_string(ended.exit) + ": " + ended.out +
                             ended.err);
  }
  return ended.out;
}

std::vector<std::vector<std::vector<Atom>>> asked_of_clips(const std::vector<ClipsRules>& sets) {
  const TempFolder folder;
  std::string batch;
  for (std::size_t i = 0; i < sets.size(); ++i) {
    const std::string name = "rules" + std::to_string(i) + ".clp";
    const std::string path = folder.write(name, clips_rules(sets[i].program));
    batch += "(clear)\n" + clips_load(path);
    for (const std::vector<Atom>& given : sets[i].cases) batch += asked_case(given);
  }
  constexpr int kSeconds = 60;
  const auto cases = cases_of(run_clips(folder.write("ask.bat", batch + "(exit 0)\n"), kSeconds));
  std::vector<std::vector<std::vector<Atom>>> out;
  auto next = cases.begin();
  for (const ClipsRules& set : sets) {
    const auto count = static_cast<std::ptrdiff_t>(set.cases.size());
    if (cases.end() - next < count) throw std::runtime_error("clips left cases out");
    out.emplace_back(next, next + count);
    next += count;
  }
  return out;
}

}  // namespace kartwright
