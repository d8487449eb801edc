// told_reports.h - reports as a driver would say them, in the words of the rules.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/debrief/sentence.h"
#include "engine/knowledge/pack.h"
#include "engine/practice/dice.h"

namespace kartwright {

/// A sentence for each report, one saying drawn of each list; nothing where the rules have no words
/// for one of them, or where what the ear hears is not exactly these reports.
std::optional<std::string> in_driver_words(const std::vector<Report>& reports, const Pack& pack,
                                           Ear& ear, DrillDice& dice);

/// The same symptoms at the same phases and as severe, nothing else said, nothing not understood.
bool heard_as(const Heard& heard, const std::vector<Report>& reports);

}  // namespace kartwright
