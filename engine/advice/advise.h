// advise.h - walks the corridor once: debrief and kart in, advice out.

#pragma once

#include "engine/advice/advice.h"

namespace kartwright {

/// Pure: the same inputs give the same advice, whatever the order of reports, facts or rule files.
/// Lengths in the advice's texts are written in `units`. The pack and the kart must outlive the
/// advice. Throws InputError where the rule pack itself cannot be used.
Advice advise(const Pack& pack, const Kart& kart, const Debrief& debrief, System units);

}  // namespace kartwright
