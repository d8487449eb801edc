// table_rows.h - what the table holds. Each prints its lines, and throws std::runtime_error where
// the two sides come to other answers, or one of them cannot be run.

#pragma once

#include "tests/bench/table.h"

namespace kartwright {

void time_chaining(Effort effort);    ///< beside CLIPS
void time_choice(Effort effort);      ///< beside GLPK
void time_yaml(Effort effort);        ///< beside yaml-cpp's own tree of nodes
void time_posterior(Effort effort);   ///< beside the information form, dense
void time_regression(Effort effort);  ///< beside GSL
void time_cold(Effort effort);        ///< the program beside an empty one of the same libraries
void time_batch(Effort effort);       ///< how time and memory grow with the lines
void time_commands(Effort effort);    ///< plan, log, sheet and sweep, each in a fresh process

}  // namespace kartwright
