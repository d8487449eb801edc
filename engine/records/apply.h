// apply.h - a change made: into the kart file, and into the log as the run made ready.
//
// The file is exchanged inside the log's transaction: where the log cannot take the change the file
// goes back to what it was. A signal waits until both have it. What ends the program on the spot
// between the two leaves a change that the log does not know, and the same command again writes it
// down.

#pragma once

#include <optional>
#include <string>

#include "engine/debrief/report_grammar.h"
#include "engine/kart/kart.h"
#include "engine/records/logbook.h"

namespace kartwright {

/// A change that may be made.
struct AllowedChange {
  const Setting* setting = nullptr;  ///< in the kart
  double to = 0.0;                   ///< SI, or the index of a position
  bool far = false;                  ///< farther than is wise at once
};

/// Reads `rear-width=1370mm` as a change of this kart; nothing where it may not be made: beyond its
/// range or its class limit, a part that is not here, or where it stands already. Why goes to
/// `findings`.
std::optional<AllowedChange> allowed_change(std::string_view text, const Kart& kart,
                                            const Pack& pack, const WrittenAt& at,
                                            Findings& findings);

/// The change that takes the last one back that was not taken back yet: of the log, or where there
/// is none of the newest copy that was kept beside the kart file. Throws InputError where there is
/// none, or where the kart no longer stands as it left it.
struct WayBack {
  RunChange change;
  const Setting* setting = nullptr;
  double to = 0.0;
  std::optional<Run> tried = {};  ///< the run that was driven with it, where it was
};
WayBack way_back(const Logbook& log, const Kart& kart);
WayBack way_back(const Document& file, const Kart& kart, const Pack& pack);

/// What the kart file has since its newest copy was put beside it.
struct MadeChange {
  Document before;  ///< that copy
  RunChange change;
};
/// The change that an undo made, where `undone`, or else any other; nothing where there is no such
/// copy, or where one setting alone is not what differs. Throws InputError where it cannot be read.
std::optional<MadeChange> made_since_copy(const Document& file, const Kart& kart, const Pack& pack,
                                          bool undone);

/// False where the last setup of the kart in the log has it already.
bool is_unrecorded(const Logbook& log, const Kart& kart, const RunChange& change);

/// The kart file with a change in it. Throws InputError where it cannot be written so.
std::string file_with(const Document& file, const Setting& setting, double to);

struct Applied {
  std::string kept;        ///< the file as it was
  std::optional<Run> run;  ///< made ready in the log
};

/// Makes a change: `text` in the place of the kart file, and in the log a run made ready. What it
/// takes back, where it is an undo of a driven run, gets the crew's verdict. Throws FileError and
/// InputError; then nothing has changed.
Applied apply_change(const Document& file, const std::string& text, const RunChange& change,
                     const std::optional<Run>& tried, const Kart& kart, Logbook* log,
                     const std::string& now);

/// Writes a change down that the kart file has already: in the log alone, as apply_change does.
Applied record_change(const MadeChange& made, const std::optional<Run>& tried, const Kart& kart,
                      Logbook& log, const std::string& now);

}  // namespace kartwright
