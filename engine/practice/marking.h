// marking.h - what every answer to a task is worth, by expectation and not by how it comes off.
//
// Points are those of the ranking (decision/rank.h), so that an answer which leaves as little
// handling error as the best is as good as the best, whatever its name. With
//   D      max(J(none), 0.45), the handling error that there is, notches squared
//   c(f)   100 p loss^2 / D: what going out with the fault costs, p being its probability
//   F      the faults that must not be run and are at least as likely as not
//   rate   points a minute, effort_rate()
// they are
//   a change     its score in the ranking                                     - sum of c over F
//   leave alone  what doing nothing scores, the travel that is missing already - sum of c over F
//   check f of F       B - rate minutes: the same choice comes back afterwards, and nothing but the
//                      minutes is gone; the other faults of F are still there
//   check another f    leave alone + c(f) where it is worth a look - rate minutes, at most
//                      B - rate minutes: the kart goes out as it was            - sum of c over F
// where B is the most that a change or leaving alone is worth without faults. Where the headline
// leaves the kart alone or waits for the track, and for a move that may not lead as the clock says
// faster, a change counts for no more than leaving alone, less its minutes: what it promises beyond
// that is comfort, or is not asked for.

#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/advice/advice.h"
#include "engine/decision/rank.h"
#include "engine/inference/fault_odds.h"
#include "engine/practice/task.h"

namespace kartwright {

/// An answer to a task.
struct DrillChoice {
  enum class Kind { change, leave_alone, check };
  Kind kind = Kind::leave_alone;
  std::size_t way = 0, option = 0;  ///< of a change: index into Advice::ways, and its options
  std::size_t fault = 0;            ///< of a check: index into Pack::faults
};

/// What an answer is worth, in points, and how that came about: the parts sum to it.
struct DrillWorth {
  struct Part {
    std::string what;
    double points = 0.0;
  };
  double points = 0.0;
  std::vector<Part> parts = {};
};

class Marking {
 public:
  /// The pack and the task must outlive it. Throws InputError where the pack cannot be used.
  Marking(const Pack& pack, const DrillTask& task);

  const Advice& advice() const { return advice_; }
  const Pack& pack() const { return pack_; }
  const DrillTask& task() const { return task_; }
  const Option& option_of(const DrillChoice& choice) const;
  const Adjustment& adjustment_of(const DrillChoice& choice) const;

  DrillWorth worth_of(const DrillChoice& choice) const;
  /// The answer worth most; of two, the one that the ranking has first.
  const DrillChoice& best() const { return best_; }
  /// 100 less the points by which it is worth less than the best, from 0 to 100.
  double mark_of(const DrillChoice& choice) const;

  /// Why a change cannot be made at all, in words; empty where it can.
  std::string refusal_of(const DrillChoice& choice) const;
  /// Every change that can be made.
  std::vector<DrillChoice> changes() const;
  /// "rear wider, 1360 mm to 1370 mm", "leave it alone", "check: bent axle".
  std::string words_of(const DrillChoice& choice) const;

  double probability_of_fault(std::size_t fault) const { return odds_[fault].probability; }
  /// Indices into Pack::faults: those that must not be run and are as likely as not.
  std::vector<std::size_t> stopping() const;
  bool leaving_is_right() const;

 private:
  double cost_of(std::size_t fault) const;
  double best_without_faults() const;
  DrillWorth of_change(const DrillChoice& choice) const;
  DrillWorth of_leaving() const;
  DrillWorth of_check(const DrillChoice& choice) const;
  void charge_faults(DrillWorth& worth, const DrillChoice* checked) const;
  DrillChoice find_best() const;

  const Pack& pack_;
  const DrillTask& task_;
  Advice advice_;
  std::vector<std::vector<Candidate>> places_;  ///< by way and option
  std::vector<FaultOdds> odds_;                 ///< in the pack's order
  double scale_ = 1.0;                          ///< D
  DrillChoice best_;
  double best_points_ = 0.0;
};

}  // namespace kartwright
