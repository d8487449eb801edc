// answer.h - what a trainee wrote, read as an answer to a task.
//
//   rear wider 10        3 wider 10 mm        rear-width=1370mm      hubs shorter     caster more
//   leave it             check bent axle
//
// Names are those of the rules: ids, labels and phrases of adjustments, directions, positions,
// labels of faults, with `check` before them or alone; a part of a name will do where only one
// thing has it. A size is in the adjustment's own unit (mm, deg, bar where none is said) or in
// steps.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/practice/marking.h"

namespace kartwright {

struct TraineeAnswer {
  enum class What {
    choice,   ///< an answer that can be marked; `text` says what its size was taken as, if not as
              ///< said
    how_far,  ///< a change whose size is still open; `choice` holds its way
    refused,  ///< it cannot be done on this kart now; `text` says why
    unknown   ///< not understood; `text` says what, `help` what is nearest
  };
  What what = What::unknown;
  DrillChoice choice = {};
  std::string text = {}, help = {};
};

/// `offers` are the adjustments of the list, by id: a number stands for one of them, from 1.
TraineeAnswer read_answer(std::string_view text, const Marking& marking,
                          const std::vector<std::string>& offers);

/// The size of a change whose way is known.
TraineeAnswer read_size(std::string_view text, std::size_t way, const Marking& marking);

/// The adjustment that a text names, or nullptr: for a question about it.
const Adjustment* adjustment_in(std::string_view text, const Marking& marking,
                                const std::vector<std::string>& offers);

/// Every size that a way has at once, as a trainee may write it: "5 mm, 10 mm".
std::string sizes_of(std::size_t way, const Marking& marking);

/// An adjustment in two lines: what it does, and how far it goes on this kart.
std::vector<std::string> in_two_lines(const Adjustment& adjustment, const Marking& marking);

}  // namespace kartwright
