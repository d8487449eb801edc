// property_cases.h - the cases on which the properties of a pack are tried, and their words.
//
// Deterministic and bounded: every state of the track, symptom and phase, and mixes drawn from a
// seed that give the same on every machine.

#pragma once

#include <functional>
#include <random>
#include <string>
#include <vector>

#include "engine/inference/situation.h"

namespace kartwright {

using Dice = std::mt19937_64;
/// 0 .. end-1. REQUIRES: end > 0.
std::size_t throw_below(Dice& dice, std::size_t end);

/// Every state of the pack, and `unknown` first.
std::vector<std::string> every_track(const Pack& pack);
/// The phases at which a symptom is felt, and the unsaid one.
std::vector<Phase> phases_to_try(const Symptom& symptom);
/// The symptoms that a property is claimed of, by id. Points into the pack.
std::vector<const Symptom*> symptoms_of(const Property& property, const Pack& pack);

/// One report on a track.
Debrief one_report(const std::string& track, Report report);

/// Any track, up to two reports of `symptoms`, one a symptom and phase, with side and time; now and
/// then a fact that a crew can state. REQUIRES: a symptom.
Debrief any_mix(Dice& dice, const Pack& pack, const std::vector<const Symptom*>& symptoms);

/// A case with what it takes to break a claim and no more: facts and reports that can be left out
/// are, one after the other. The first `kept` reports stay. REQUIRES: `breaks(debrief)`.
Debrief least_of(Debrief debrief, std::size_t kept,
                 const std::function<bool(const Debrief&)>& breaks);

/// A report as an option writes it: `push@mid=3,left,sure`.
std::string as_option(const Report& report);
/// "with the track unknown and `push@mid=3`, `turn-in=brake`".
std::string case_in_words(const Debrief& debrief);

/// A case with its facts settled. The pack, kart and debrief must outlive it. Throws InputError as
/// settle_facts.
Situation settled_case(const Pack& pack, const Kart& kart, const Debrief& debrief);

}  // namespace kartwright
