// debrief_file.h - a debrief as a file: words, reports, facts, the track, and the kart or where its
// file is.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/debrief/debrief.h"
#include "engine/document/document.h"
#include "engine/kart/kart.h"

namespace kartwright {

class Ear;

struct DebriefFile {
  Debrief debrief;
  std::optional<Kart> kart;  ///< where the file holds it
  std::string kart_path;     ///< where the file points at it: relative to the debrief's own folder
};

/// Reads a debrief, adding every mistake to `findings`. Keys of a scenario (`title`, `because`,
/// `expect`) are allowed and left to whoever checks it.
DebriefFile read_debrief(const Document& document, const Pack& pack, Findings& findings);

/// How a debrief stands in a map of another file.
struct DebriefFrame {
  std::string what = "a debrief";             ///< the map in messages: "a case"
  std::vector<std::string_view> beside = {};  ///< keys that are left to whoever reads the rest
  bool in_words = true;                       ///< `said` is a key of it
  Ear* ear = nullptr;                         ///< hears `said`; without one, a new ear does
};

/// The same from a map inside a document.
DebriefFile read_debrief(const Document& document, const Node& node, const DebriefFrame& frame,
                         const Pack& pack, Findings& findings);

/// Puts reports of one symptom and phase together: the severer is kept, or else the surer, and a
/// complaint beats what praise denies at any phase. Order is kept.
void settle_reports(std::vector<Report>& reports);

/// Adds what was heard to a debrief and settles its reports.
void add_heard(Debrief& debrief, Heard heard);

/// Adds what was heard in words to a debrief and settles its reports.
void add_words(Debrief& debrief, std::string_view said, const Pack& pack);

}  // namespace kartwright
