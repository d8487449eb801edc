// lifted_weighing.h - the height of the centre of mass from one axle lifted, and how far to trust
// it.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/chassis/lifted_axle.h"
#include "engine/chassis/weighing.h"
#include "engine/kart/kart.h"

namespace kartwright {

/// The test as read.
struct LiftedWeighing {
  LiftedAxle test;
  bool front_raised = true;
  ResolutionFrom resolution_from = ResolutionFrom::crew;
  std::vector<std::string> assumed = {};  ///< what nobody gave, each with its figure
  System written = System::metric;
};

struct HeightAnswer {
  std::string kart;
  LiftedWeighing given;
  WithError height;                   ///< m above the ground
  double by_scales = 0, by_tape = 0;  ///< m, the two parts of its standard deviation
  double angle = 0;                   ///< rad, of the lifted kart
  std::string headline;
  std::vector<WeighingVerdict> verdicts;  ///< lift in its band, height among what karts have
  std::vector<std::string> error;         ///< where the error comes from, and what would lower it
  std::vector<std::string_view> cautions;
  System units = System::metric;
};

/// REQUIRES: as mass_height; the pack outlives the answer.
HeightAnswer lifted_height(const Kart& kart, const LiftedWeighing& lifted, const Pack& pack,
                           System units);

}  // namespace kartwright
