// next_steps.h - for the first change: if it helped, half helped, did nothing or made it worse,
// then what, two steps deep.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/advice/advice.h"

namespace kartwright {

/// What the driver says of the complaint after a change.
enum class Outcome { gone, halved, as_before, worse };
std::string_view name_of(Outcome outcome);

struct NextStep;

/// What comes of a change, and what to do then.
struct AfterChange {
  Outcome outcome = Outcome::gone;
  double chance = 0.0;         ///< of this answer, by what is believed; those of a change sum to 1
  std::vector<NextStep> then;  ///< one step
};

struct NextStep {
  /// look_for_a_fault: put it back as well, since what was said could hardly be.
  enum class Kind { leave_alone, change, put_back, look_for_a_fault } kind = Kind::leave_alone;
  const Adjustment* adjustment = nullptr;  ///< of what is moved
  std::size_t direction = 0;
  std::string from = {}, to = {};  ///< as a kart file writes them
  double relief = 0.0;             ///< share of the handling error believed by then taken out
  double minutes = 0.0;
  std::vector<AfterChange> after = {};  ///< empty at the end of the tree, and where all is left
};

struct NextSteps {
  NextStep first;         ///< the change that leads
  std::string complaint;  ///< what is listened for: "hop mid"
};

/// The tree behind the change that leads; nothing where none does. The complaint that it mends most
/// is listened for, or where it mends none, what it is made for. After an answer the kart and the
/// effects of the changes made are believed anew, together, and the moves ranked again with the
/// break there is; a change that no longer pays is left. Where a change makes worse what by all
/// that is believed it cannot (one time in fifty or less), the belief itself is in doubt: then it
/// is put back, and the kart looked over. `pack` and `kart` are those of the advice.
std::optional<NextSteps> next_steps(const Advice& advice, const Pack& pack, const Kart& kart,
                                    std::size_t depth = 2);

}  // namespace kartwright
