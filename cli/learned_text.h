// learned_text.h - what a log has taught, as a page.

#pragma once

#include <string>

#include "cli/page.h"
#include "engine/advice/learned.h"

namespace kartwright::cli {

/// What a step does, in notches, on the axis where the rules are surest.
struct LearnedRow {
  std::string move, axis, rule, learned, runs, agreement;
};
LearnedRow learned_row_of(const LearnedAdjustment& each, const Pack& pack);

Page learned_page(const Learned& learned, const Pack& pack, Look look);
std::string learned_text(const Learned& learned, const Pack& pack, Look look);

}  // namespace kartwright::cli
