// day_pages.h - the places of a plan read back as settings, moves and stops.

#pragma once

#include <string>
#include <vector>

#include "engine/advice/day_case.h"

namespace kartwright {

/// One way the day can go: the case, and which of the pack's stages each of its stages is.
class DayPages {
 public:
  /// The cases outlive it.
  DayPages(const DayCase& day, const PlanCase& search, std::vector<StageOfDay> stages,
           System units);

  /// A place as a kart file writes it.
  std::string setting(std::size_t lever, std::size_t place) const;
  /// How far up a place is between the ends of its lever's travel, 0-1.
  double height(std::size_t lever, std::size_t place) const;
  /// The value of a place, where it has one.
  std::optional<double> value(std::size_t lever, std::size_t place) const;
  DayTravel travel(std::size_t lever) const;
  /// A move by itself, at its whole minutes.
  DayMove move(std::size_t lever, std::size_t from, std::size_t to) const;
  /// Every stage with the stop before it; `movers` are the levers whose settings are told.
  std::vector<DayStop> stops(std::vector<std::size_t> before, const PlanPlaces& places,
                             const std::vector<std::size_t>& movers) const;

 private:
  double loss_at(std::size_t stage, const std::vector<std::size_t>& places) const;
  std::vector<DayMove> moves(std::size_t stage, const std::vector<std::size_t>& before,
                             const std::vector<std::size_t>& after) const;
  DayStop stop(std::size_t stage, const std::vector<std::size_t>& before,
               const std::vector<std::size_t>& after, const std::vector<std::size_t>& movers) const;

  const DayCase& day_;
  const PlanCase& search_;
  std::vector<StageOfDay> stages_;
  System units_;
};

}  // namespace kartwright
