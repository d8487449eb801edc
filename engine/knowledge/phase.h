// phase.h - the parts of a corner, and the small vocabularies of a report.

#pragma once

#include <optional>
#include <string_view>

namespace kartwright {

/// Where in a corner; `any` where nobody said.
enum class Phase { entry, mid, exit, straight, any };
/// Which way the corner turns.
enum class Side { left, right };
/// When in the run.
enum class When { early, late };
/// How sure the driver is.
enum class Confidence { sure, fair, unsure };

std::string_view name_of(Phase phase);
std::string_view name_of(Side side);
std::string_view name_of(When when);
std::string_view name_of(Confidence confidence);
std::optional<Phase> phase_named(std::string_view name);
std::optional<Side> side_named(std::string_view name);
std::optional<When> when_named(std::string_view name);
std::optional<Confidence> confidence_named(std::string_view name);

}  // namespace kartwright
