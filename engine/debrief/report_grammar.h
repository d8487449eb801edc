// report_grammar.h - reports and facts as options and files write them.
//
//   symptom[@phase][=0..3][,left|right][,early|late][,sure|fair|unsure]      push@entry=2,late
//   id=value                                                                 turn-in=brake

#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "engine/debrief/debrief.h"
#include "engine/document/diagnostic.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

/// Where a written report stands, for messages: an option, or a line of a file.
struct WrittenAt {
  std::string file;  ///< `--report`, or the file's name
  Span span = {.line = 1, .column = 1};
  std::string source = {};  ///< the whole line; for an option its value
};

/// Severity 2 and fair unless said; 0 is denied. Everything wrong with it is added to `findings`; a
/// phase at which the symptom is not felt is a warning.
std::optional<Report> parse_report(std::string_view text, const Pack& pack, const WrittenAt& at,
                                   Findings& findings);

std::optional<StatedFact> parse_fact(std::string_view text, const Pack& pack, const WrittenAt& at,
                                     Findings& findings);

/// A fact given as two words; checked against the pack's ids and values.
std::optional<StatedFact> make_fact(const std::string& id, const std::string& value,
                                    const Pack& pack, const WrittenAt& at, Findings& findings);

}  // namespace kartwright
