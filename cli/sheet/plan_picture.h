// plan_picture.h - the day drawn: for each adjustment that moves how far it can go and where it
// stands stage by stage, and below that what is left of the handling error.

#pragma once

#include <string>
#include <vector>

#include "cli/sheet/drawing.h"
#include "engine/advice/day.h"

namespace kartwright::cli {

/// A letter for each stage; a plan has no more than there are letters.
std::string stage_letters(const Day& day);

/// True where the stages' names have room over their columns; else their letters stand there.
bool stages_are_named(const Day& day);

/// Settings are written below the line where they change, `runs out` where more is wanted.
Picture plan_picture(const Day& day);

}  // namespace kartwright::cli
