#include "engine/chassis/lifted_weighing.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace kartwright {

namespace {

LiftedAxle without_tape_error(LiftedAxle test) {
  test.sigma_lift = 0.0;
  return test;
}

LiftedAxle without_scale_error(LiftedAxle test) {
  test.sigma_scale = 0.0;
  return test;
}

std::string lengths(double from, double to, System units) {
  return print_quantity(from, Kind::length, units) + " to " +
         print_quantity(to, Kind::length, units);
}

WeighingVerdict lift_verdict(const HeightAnswer& answer, const MeasureDef& limits) {
  const double lift = answer.given.test.lift;
  const double from = limits.band_from.value_or(limits.from);
  const double to = limits.band_to.value_or(limits.to);
  const bool low = lift < from;
  const bool ok = !low && lift <= to;
  return {
      "lift", ok, true,
      fmt::format("lifted {}, {:.1f} deg; {}{}", print_quantity(lift, Kind::length, answer.units),
                  answer.angle * 180.0 / std::acos(-1.0),
                  ok    ? "within "
                  : low ? "so low that the error grows; wanted "
                        : "higher than is safe: let it down; wanted ",
                  lengths(from, to, answer.units))};
}

WeighingVerdict height_verdict(const HeightAnswer& answer, const MeasureDef& limits) {
  const double height = answer.height.value;
  const bool ok = height >= limits.from && height <= limits.to;
  return {"mass-height", ok, true,
          fmt::format("{}: most have {}", ok ? "as karts can have it" : "no kart has that",
                      lengths(limits.likely_from.value_or(limits.from),
                              limits.likely_to.value_or(limits.to), answer.units))};
}

std::vector<std::string> sources_of_error(const HeightAnswer& answer) {
  // To the millimetre: no error is known better.
  const auto length = [&](double si) {
    return print_quantity(std::max(1.0, std::round(1000.0 * si)) / 1000.0, Kind::length,
                          answer.units);
  };
  const bool scales = answer.by_scales >= answer.by_tape;
  const System units = answer.units;
  const LiftedAxle& test = answer.given.test;
  return {
      fmt::format("mostly {}: {} from scales that read to {}, {} from a lift known to {}",
                  scales ? "the scales" : "the tape", length(answer.by_scales),
                  print_quantity(test.sigma_scale, Kind::mass, units), length(answer.by_tape),
                  length(test.sigma_lift)),
      scales
          ? "finer scales, or the mean of several weighings, would lower it; a higher lift would "
            "too and is not worth the risk"
          : "measure the lift at both wheels of the axle, on the wheels' middles",
      "mass, wheelbase and tyre radii are taken as exact",
  };
}

}  // namespace

HeightAnswer lifted_height(const Kart& kart, const LiftedWeighing& lifted, const Pack& pack,
                           System units) {
  HeightAnswer answer{.kart = kart.name,
                      .given = lifted,
                      .height = mass_height(lifted.test),
                      .by_scales = mass_height(without_tape_error(lifted.test)).sd,
                      .by_tape = mass_height(without_scale_error(lifted.test)).sd,
                      .angle = std::asin(lifted.test.lift / lifted.test.wheelbase),
                      .headline = {},
                      .verdicts = {},
                      .error = {},
                      .cautions = caution_texts(weighing_cautions::kOfLifting, pack),
                      .units = units};
  answer.headline =
      fmt::format("The centre of mass is {} above the ground, with what is strapped into the seat.",
                  print_measured(answer.height, Kind::length, units));
  const MeasureDef* const lift = pack.dimension("axle-lift");
  const MeasureDef* const height = pack.dimension("mass-height");
  if (lift != nullptr) {
    answer.verdicts.push_back(lift_verdict(answer, *lift));
    const bool ok = answer.verdicts.back().ok;
    if (!ok) answer.headline = "Careful: " + answer.verdicts.back().text + ". " + answer.headline;
  }
  if (height != nullptr) answer.verdicts.push_back(height_verdict(answer, *height));
  answer.error = sources_of_error(answer);
  return answer;
}

}  // namespace kartwright
