// gauge_words.h - what a measured check found, in words: the verdict in a line, the texts of its
// rule with the tyres and amounts it speaks of, and how far odds move.

#pragma once

#include <string>
#include <string_view>

#include "engine/advice/gauge_check.h"

namespace kartwright {

/// "235.2 mm", "+0.05 bar": to what it is shown to, with its sign where it is a change.
std::string figure_text(const FigureFound& found, System system);

/// A text of the verdict's rule with `{tyre}` and `{size}` filled in.
std::string verdict_text(const VerdictFound& found, std::string_view text, System system);

/// The same of a rule that nothing was held against, with words for the tyres.
std::string verdict_text(std::string_view text, std::string_view tyre);

/// "too tight: travel at the tightest point 20 mm; in order from 22 mm to under 32 mm"; what it
/// says alone where that names the figure or the figure is not shown.
std::string verdict_line(const VerdictFound& found, System system);

/// "160 times up", "2.5 times down": decibans as odds, to two figures.
std::string odds_text(double decibans);

}  // namespace kartwright
