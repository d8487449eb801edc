// weighing_input.h - readings of scales as the crew typed them, or as the kart file has them, with
// every slip told and what is plausible beside it.

#pragma once

#include <optional>
#include <string>

#include "engine/chassis/lifted_weighing.h"
#include "engine/chassis/weighing.h"
#include "engine/document/diagnostic.h"

namespace kartwright {

/// Options of a weighing as typed; empty where not given.
struct WeighingWords {
  std::string left_front, right_front, left_rear, right_rear;
  std::string swapped, turned;  ///< four readings with commas between: LF,RF,LR,RR
  std::string resolution;
};

/// Options of a lifted axle as typed; empty where not given.
struct LiftWords {
  std::string raised;     ///< front or rear
  std::string lift;       ///< of the raised axle's middle
  std::string level, up;  ///< weight on the axle that stays down
  std::string mass, wheelbase, resolution;
};

/// Where no reading is typed those of the kart file stand. Without a resolution the kart file's
/// stands, else what the pack assumes of scales in the unit written. Findings name the option; the
/// weighing is not to be used where there are errors.
Weighing read_weighing(const WeighingWords& words, const Kart& kart, const Pack& pack,
                       Findings& findings);

/// Mass and wheelbase that are not typed come from the kart file, else from the pack's assumptions.
LiftedWeighing read_lift(const LiftWords& words, const Kart& kart, const Pack& pack,
                         Findings& findings);

}  // namespace kartwright
