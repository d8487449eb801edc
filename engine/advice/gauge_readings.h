// gauge_readings.h - what a crew hands to a measured check, read: amounts with units, words, and
// what is missing or cannot be.

#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "engine/chassis/gauges.h"
#include "engine/document/diagnostic.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

/// An option and its words, `tight` and `20mm`, in the order they were given.
using GivenWords = std::vector<std::pair<std::string, std::string>>;

struct GaugeReadings {
  std::map<std::string, Amounts> amounts;      ///< by reading id, SI
  std::map<std::string, std::string> choices;  ///< by choice id
  std::optional<System> written;               ///< of the first length or pressure that says
};

/// Reads what was given. Throws InputError with everything wrong: an option the check does not
/// take with the nearest that it does, an amount without its unit or beyond what can be, a word
/// that is none of the choice, every reading that is missing. REQUIRES: some words are given.
/// `others` are options of the command itself, which a misspelt one may have meant.
GaugeReadings read_gauge_readings(const Gauge& gauge, const GivenWords& given,
                                  const std::vector<std::string>& others = {});

/// "between 0 mm and 75 mm": what a reading can plausibly be.
std::string plausible_text(const GaugeReading& reading, System system);

}  // namespace kartwright
