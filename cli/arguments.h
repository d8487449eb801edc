// arguments.h - the command line, parsed. The only files that know the option library are
// command_line.cc, which declares the options, and arguments*.cc.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "engine/chassis/weighing_input.h"
#include "engine/quantity/quantity.h"

namespace kartwright::cli {

// Exit codes, after sysexits.h.
inline constexpr int kSuccess = 0;
inline constexpr int kUsage = 2;
inline constexpr int kBadData = 65;
inline constexpr int kNoInput = 66;
inline constexpr int kInternal = 70;
inline constexpr int kCannotCreate = 73;
inline constexpr int kInputOutput = 74;
inline constexpr int kInterrupted = 130;  ///< Ctrl-C, as shells have it

enum class Format { text, json, csv, html };  ///< which commands know which: formats.h

/// What every command takes.
struct Common {
  Format format = Format::text;
  std::optional<System> units = {};  ///< unset: as the kart file writes them
  std::string rules = {};            ///< folder of a crew's own rules, or empty
  std::string log = {};              ///< the logbook's file, or empty
  int loudness = 0;                  ///< -1 quiet, 0, 1 verbose
};

struct AdviseOptions {
  Common common;
  std::string kart, debrief, said, laps;
  std::optional<std::string> track;
  std::vector<std::string> reports, facts;
  std::optional<double> minutes, hours;
  bool why = false, brief = false, turns = false, after = false;
  bool ask = false;          ///< the driver, before the advice
  std::string batch = {};    ///< file of JSON lines, or `-`; empty: one debrief
  int threads = 1;           ///< of a batch
  std::size_t together = 2;  ///< most moves in a bundle
  std::vector<std::string> why_not = {};
  std::optional<std::uint64_t> draws = {};  ///< asked for: how often each move comes first
  std::uint64_t seed = 1;
};

struct ExplainOptions {
  Common common;
  std::vector<std::string> id;  ///< words of one name: `rear width`
};

struct StartOptions {
  Common common;
  bool example = false;
};

struct RulesOptions {
  Common common;
  std::vector<std::string> words;  ///< what to do, and with what: `show wider-sheds-side-bite`
  std::string witness;             ///< folder for the cases that show a finding, or empty
  std::string scenarios;           ///< folder whose debriefs both packs are asked about, or empty
};

struct WeighOptions {
  Common common;
  std::string kart;
  WeighingWords four;
  bool lifted = false;  ///< the height of the centre of mass instead
  LiftWords lift;
  bool save = false;  ///< the readings into the kart file
};

struct CheckOptions {
  Common common;
  std::vector<std::string> what;  ///< the check; none: list them
  std::string kart;
  std::vector<std::pair<std::string, std::string>> readings;  ///< options that the check names
};

/// The command line was answered already: help, the version, or a usage error.
struct Answered {
  int exit = kSuccess;
};

struct WhatIfOptions {
  Common common;
  std::string kart;
  std::string track = "unknown";
  std::vector<std::string> sets;  ///< `rear-width=1380mm`
  std::string sweep;              ///< `rear-width=1320mm..1400mm`, or empty
};

struct CompareOptions {
  Common common;
  std::string csv;                   ///< lap file, `-` standard input, or empty
  std::string worth = "0.1s";        ///< an effect worth having
  std::string only;                  ///< `Kart=27`, or empty
  std::vector<std::string> columns;  ///< `time=NAME`
  std::string kart = {}, runs = {};  ///< with a log: whose, and which, `11,12,13`
  bool save = false;                 ///< the verdict into the log
};

/// What `log` does stands in its words; the other options are of `add` but where it is said.
struct LogOptions {
  Common common;
  std::vector<std::string> words;
  std::string kart;  ///< file; of `list` also a name
  std::string at, session, track, laps, csv, only, slow, said;
  std::string tyres, tyre_laps, driver, load, air, road;
  std::vector<std::string> columns, flags, reports, facts, notes;
  bool complete = false;
  std::string to;    ///< of `add`: the run that is added to
  std::string last;  ///< of `list`: how many runs
};

struct ApplyOptions {
  Common common;
  std::string kart;
  std::string change;  ///< rank in the last advice
  std::string set;     ///< `rear-width=1370mm`
  std::string asked_by, why, at;
  bool undo = false, dry_run = false;
};

struct LearnedOptions {
  Common common;
  std::string kart;  ///< file, or name in the log
  std::string track = "unknown";
  bool calibration = false;
};

/// What is said of the kart and the debrief stands in `given`.
struct PlanOptions {
  AdviseOptions given;
  std::string stages;            ///< `cold,green=2h,rubbered-in`, or empty
  std::string minutes, changes;  ///< of a stop, or empty
};

struct DrillOptions {
  Common common;
  std::string case_id;  ///< of a case with a name, or the path of a debrief file; empty: drawn
  std::string level;    ///< id, or empty
  std::string trainee;  ///< whose record is kept; empty: none is
  std::string seed, count, print;  ///< whole numbers, or empty
  bool progress = false;
};

/// What every command takes, of one of them.
template <typename Options>
auto& common_of(Options& options) {
  if constexpr (requires { options.given; }) {
    return options.given.common;
  } else {
    return options.common;
  }
}

using Arguments = std::variant<Answered, AdviseOptions, CheckOptions, WeighOptions, ExplainOptions,
                               StartOptions, RulesOptions, WhatIfOptions, CompareOptions,
                               LogOptions, ApplyOptions, LearnedOptions, PlanOptions, DrillOptions>;

Arguments parse_arguments(int argc, char** argv);

}  // namespace kartwright::cli
