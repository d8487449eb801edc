// cause_words.h - cause and effect in plain words: axes and phases by the names the rules give
// them, and how much is how strong.

#pragma once

#include <optional>
#include <string>

#include "engine/advice/cause.h"

namespace kartwright {

/// What the labels of a family of axes begin with: "front grip"; the label of one without phases.
std::string family_label(const Axis& axis, const Pack& pack);

/// What the label of an axis goes on with: "going in"; empty for one without phases.
std::string phase_label(const Axis& axis, const Pack& pack);
/// The same for a phase, from the first axis that has it; its name where none does.
std::string phase_label(Phase phase, const Pack& pack);

/// "much less", "a bit more"; "either way" of 0, "same" of what is not moved. In notches.
std::string strength(std::optional<double> notches);

/// "each 10 mm", "each position".
std::string each_step(const Adjustment& adjustment);

/// "rear grip in the middle from much less (-0.9) to much less (-0.5)", axes that change alike
/// together.
std::string changes_text(const EffectChange& change, const Pack& pack);

/// "common practice; 5 published groups say so, 2 the other way: ..."
std::string agreement_text(const Rule& rule);

/// "settled", "a test worth logging", ...: how far a rule may be trusted.
std::string standing_text(const Rule& rule, bool contested);

}  // namespace kartwright
