// keeping.h - a run into the log as the crew hands it in: joined with the run that was made ready,
// its setup held against the run before.

#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/document/document.h"
#include "engine/kart/kart.h"
#include "engine/records/logbook.h"

namespace kartwright {

/// The settings of a kart as its file writes them, by adjustment.
std::vector<RunSetting> setup_of(const Document& file, const Kart& kart);

/// What differs between two setups, as changes that somebody made to the kart file; both must hold
/// an adjustment and the kart must have it. Steps are counted on this kart.
std::vector<RunChange> differences(const std::vector<RunSetting>& before,
                                   const std::vector<RunSetting>& after, const Kart& kart);

/// A setting that stands where it stood is written as it was before, however the kart file has it
/// now: `137 cm` and `1370 mm` are one setup.
void write_alike(const std::vector<RunSetting>& before, std::vector<RunSetting>& after,
                 const Kart& kart);

/// Keeps a driven run, in one transaction: in the place of the run that was made ready for its kart
/// where there is one, with the changes made on the way to it and those that stand in the kart file
/// and nobody told of. The laps are taken as flagged. Gives it as the log now holds it. A moment
/// that a run of this kart has already is moved on by seconds. Throws InputError.
Run keep_run(Logbook& log, Run run, const Kart& kart);

/// Adds to a run that the log holds: what is given takes the place of what was not known or is put
/// behind it, and nothing is taken away. Throws InputError with Code::bad_record where it has laps
/// already and more are given. Gives it as the log now holds it.
Run add_to_run(Logbook& log, std::int64_t id, const Run& more);

/// The first moment from this one on at which the kart has no run but, where it is one of the log,
/// the run `own` itself: so runs told of within one second stand in the order they were told of.
std::string free_moment(const Logbook& log, const std::string& kart, std::string at,
                        std::int64_t own = 0);

}  // namespace kartwright
