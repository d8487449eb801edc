// case_options.h - the kart and the debrief that options and files give together.

#pragma once

#include "cli/arguments.h"
#include "engine/debrief/debrief_file.h"
#include "engine/debrief/report_grammar.h"
#include "engine/knowledge/pack.h"
#include "engine/records/history.h"
#include "engine/records/logbook.h"

namespace kartwright::cli {

struct GivenCase {
  Kart kart;
  DebriefFile file;  ///< its debrief with what the options say on top
};

/// What `--kart`, `--debrief` and the options of a debrief say. What is wrong goes to `findings`.
/// Throws InputError where a file cannot be read. The pack outlives it.
GivenCase read_case(const AdviseOptions& options, const Pack& pack, Findings& findings);

/// What the options say on top of a debrief.
void add_options(const AdviseOptions& options, const Pack& pack, Debrief& debrief,
                 Findings& findings);

/// The value of an option, as messages point at it.
WrittenAt at_option(const std::string& name, const std::string& value);

/// What the log's runs of a kart teach.
History history_in(const Logbook& log, const Pack& pack, const Kart& kart);

}  // namespace kartwright::cli
