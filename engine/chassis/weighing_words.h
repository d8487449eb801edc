// weighing_words.h - the sentences of a weighing: what a figure is held against, what the modes
// mean, whether it is the frame, the floor or the scales, and what to weigh next.

#pragma once

#include <string>
#include <vector>

#include "engine/chassis/weighing.h"

namespace kartwright {

/// "in the band", "under by 1.2 %, less than these scales can be sure of".
std::string judged_text(const JudgedFigure& figure, System units);

/// Total, pitch, roll and warp, a sentence each.
std::vector<std::string> modes_in_words(const WeighingAnswer& answer);

/// Which way the pairs lean, and what has been told apart.
std::vector<std::string> twist_in_words(const WeighingAnswer& answer);

/// What neither this weighing nor the tests made so far can tell.
std::vector<std::string> left_open(const WeighingAnswer& answer);

/// The tests not made yet, where there is something to tell apart.
std::vector<std::string> next_weighings(const WeighingAnswer& answer);

/// What the plans reach. `many` is the most moves tried at once; `movable` false where nothing is.
std::string moves_in_words(const WeighingAnswer& answer, bool movable, int many);

/// One of the weighings does not weigh what the first does.
bool weighings_disagree(const WeighingAnswer& answer);

/// The answer in two or three sentences.
std::string weighing_headline(const WeighingAnswer& answer);

/// "seat forward, 0 mm → 10 mm".
std::string step_text(const MassStep& step);

/// True where a figure is two standard deviations or more from nothing.
bool can_be_seen(const WithError& figure);

/// The part of the warp that is the frame's, with what has not been taken out of it.
const WarpPart& frame_part(const WeighingAnswer& answer);

}  // namespace kartwright
