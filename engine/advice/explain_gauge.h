// explain_gauge.h - a measured check in plain words: how to measure, what to hand in, and which
// outcome means what.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/advice/explain.h"

namespace kartwright {

/// The gauge of an id, of `check-` and an id, of a measure that it takes, or of one of its
/// verdicts; nullptr where there is none.
const Gauge* gauge_named(std::string_view id, const Pack& pack);

/// Parts: what it finds out, how to measure, hand in, outcomes, care.
Explanation explain_gauge(const Gauge& gauge, const Pack& pack);

/// "--tight 25 mm: whole travel ..., between 0 mm and 75 mm", one for each reading and choice.
std::vector<std::string> options_text(const Gauge& gauge, System system);

/// "kartwright check chain --tight 25mm --drive clutch": everything that must be given.
std::string example_of(const Gauge& gauge);

/// "travel at the tightest point 22 mm to 32 mm, drive clutch": where a verdict holds.
std::string holds_where(const GaugeVerdict& verdict, const Gauge& gauge, System system);

/// "from 22 mm to under 32 mm", "under 22 mm", "from 32 mm"; empty where both ends are open.
std::string range_text(std::optional<double> from, std::optional<double> to, Kind kind,
                       System system);

}  // namespace kartwright
