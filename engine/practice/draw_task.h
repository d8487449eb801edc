// draw_task.h - a task drawn for a level: the same level and seed give the same task everywhere.
//
// A kart, a track and what the kart truly does are drawn: z from what is believed of that kart on
// that track before a word is said, h z + e of every symptom and phase from z, e as wide as words
// of fair sureness are taken to be. The worst are said, in words of the rules' own (`drill-words`),
// each of which is heard again as exactly that. Where a clock speaks, the truth is drawn from what
// is believed with it, as of a case with a name. Drawn anew until the case is what the level asks.

#pragma once

#include <string>
#include <vector>

#include "engine/practice/task.h"

namespace kartwright {

/// Throws InputError where none of many draws is what the level asks: then it asks too much. The
/// ear hears with the same pack.
DrillTask drawn_task(const DrillLevel& level, const Pack& pack, Ear& ear, std::uint64_t seed);

/// The adjustment whose travel is used up: with all the travel there could be, and no class limit,
/// a move of it would be the best answer, and as things are it is refused. Nothing where there is
/// none.
const Adjustment* used_up(const DrillTask& task, const Pack& pack);

}  // namespace kartwright
