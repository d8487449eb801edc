// advise.h - walks the corridor once: debrief and kart in, advice out.

#pragma once

#include <cstdint>

#include "engine/advice/advice.h"
#include "engine/advice/groundwork.h"
#include "engine/records/history.h"

namespace kartwright {

/// How deep to go. Less is done sooner.
struct Depth {
  bool questions = true;      ///< what could still be asked, and what it is worth
  bool room = true;           ///< the facts on room are told though no rule looks at them
  std::size_t together = 2;   ///< most moves in a bundle, 2 or 3
  int draws = 0;              ///< how often each move comes first, by so many draws; 0: not told
  std::uint64_t seed = 1;     ///< of the draws
  bool measure_next = false;  ///< which assumed size to measure first
};

/// Pure: the same inputs give the same advice, whatever the order of reports, facts or rule files.
/// Lengths in the advice's texts are written in `units`. The pack and the kart must outlive the
/// advice. With the kart's own log the effects start from what that has taught; without one, or
/// with an empty one, the advice is the same to the last byte. Throws InputError where the rule
/// pack itself cannot be used.
Advice advise(const Pack& pack, const Kart& kart, const Debrief& debrief, System units,
              Depth depth = {}, const History* history = nullptr);

/// The same of the groundwork's pack and kart, which keeps what the next debrief can use.
Advice advise(Groundwork& ground, const Debrief& debrief, System units, Depth depth = {},
              const History* history = nullptr);

}  // namespace kartwright
