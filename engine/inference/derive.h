// derive.h - from what was entered to the settled facts of a case.

#pragma once

#include <vector>

#include "engine/debrief/debrief.h"
#include "engine/inference/situation.h"

namespace kartwright {

/// Facts that hold before any rule: the track, what the crew and the kart file state, when in the
/// run the reports fall, and the room left on every adjustment. A later statement of the crew
/// replaces the kart file's.
std::vector<Fact> given_facts(const Pack& pack, const Kart& kart, const Debrief& debrief);
/// The same but for the room left, and the room left by itself, for facts that lack it. Where no
/// rule looks at that, everything can be settled without.
std::vector<Fact> facts_without_room(const Pack& pack, const Kart& kart, const Debrief& debrief);
void add_room(const Kart& kart, Facts& settled);

/// True where some condition of the pack looks at the room left on an adjustment.
bool looks_at_room(const Pack& pack);

/// Settles the facts: `given` and all that the pack's derivations conclude from them.
/// Throws InputError with Code::negation_cycle, the cycle printed, where a fact would depend on its
/// own absence.
Facts settle_facts(const Pack& pack, const Kart& kart, const std::vector<Report>& reports,
                   std::vector<Fact> given);

}  // namespace kartwright
