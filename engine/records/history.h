// history.h - the runs of one kart, as what they say of the effects of its adjustments.
//
// Learned is how far this kart is from the rules: a day in the rain says nothing wrong of a dry
// one, where the rules hold them apart.

#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/decision/effects.h"
#include "engine/inference/experience.h"
#include "engine/knowledge/pack.h"
#include "engine/records/learning.h"
#include "engine/records/run.h"

namespace kartwright {

/// What stands between two runs that are held against each other.
struct StepUsed {
  std::vector<double> moves = {};  ///< steps, by adjustment
  bool track_moved = false;        ///< the state of the track changed in between
  bool tyres_changed = false;      ///< other tyres went on
  int changes = 0;                 ///< adjustments that were moved
};

/// A day's steps with what was said around them, as the learning takes them.
struct DayOfRuns {
  std::vector<const Run*> runs = {};  ///< one more than steps
  std::vector<DayStep> steps = {};
  std::vector<DaySayings> sayings = {};  ///< cut where two at an end of the scale follow each other
  std::vector<DaySayings> whole = {};    ///< the same uncut: what could be foretold
  /// For each of the sayings and each run: the report it is of; nullptr for none.
  std::vector<std::vector<const Report*>> reports = {};
  std::vector<StepUsed> used = {};             ///< one for each step
  std::vector<Eigen::VectorXd> by_rules = {};  ///< for each step: notches that the rules expect
};

/// What the rules say that one step of an adjustment does before a run.
using RuleEffect =
    std::function<Effect(std::size_t adjustment, const Run& before, const Run& after)>;

/// The driven runs of one kart, by time, cut into days: where the day or the driver changes there
/// is no step. A day of more than 16 runs is cut as well; the run at the cut counts on both sides.
std::vector<std::vector<const Run*>> cut_into_days(const std::vector<Run>& runs);

/// Makes days of runs.
class DayReader {
 public:
  /// REQUIRES: the pack outlives it.
  DayReader(const Pack& pack, RuleEffect by_rule);
  ~DayReader();
  DayReader(const DayReader&) = delete;
  DayReader& operator=(const DayReader&) = delete;

  /// REQUIRES: two runs or more, which outlive the day.
  DayOfRuns day(const std::vector<const Run*>& runs) const;

 private:
  struct Inside;
  std::unique_ptr<const Inside> in_;
};

/// What the rules say, for a kart: on the track and with the facts of the run, the kart standing
/// as it does now.
RuleEffect rules_for(const Pack& pack, const Kart& kart);

/// What the steps that moved an adjustment were like.
struct StepsOfOne {
  int steps = 0;                                            ///< with something said before or after
  int with_others = 0, track_moved = 0, tyres_changed = 0;  ///< of them
  /// The latest three, latest first: "run 12 (heat 2, 2026-11-14): +1 step, hop mid 2 to 1".
  std::vector<std::string> told = {};
};

/// Everything that a log says of one kart's adjustments.
struct History {
  EffectLearning learning;
  std::vector<StepsOfOne> steps;  ///< by adjustment
  /// What was tried and taken back, by adjustment, latest first; not what a later verdict of its
  /// run keeps, nor what the crew has put back since.
  std::vector<std::vector<TriedBefore>> tried;
  std::size_t runs = 0;
};

/// REQUIRES: runs of one kart, by time. Where the pack has no `learning` nothing is learned.
History learn(const std::vector<Run>& runs, const Pack& pack, const Kart& kart);

/// What it amounts to beside what the rules say today, all adjustments jointly: what is left of
/// each alone is exact for these effects. `effects` are in the order of Pack::adjustments.
Experience experience_of(const History& history, const std::vector<Effect>& effects);

}  // namespace kartwright
