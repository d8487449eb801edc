// experience.h - what the log of a kart adds to what the rules say of its adjustments.

#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

namespace kartwright {

/// A direction of an adjustment that was tried and taken back.
struct TriedBefore {
  std::size_t direction = 0;
  std::string track;  ///< id of the state it was tried on
  std::string text;   ///< "tried in run 14 (heat 2, 2026-11-14) and taken back"
};

/// Of one adjustment: what its runs say of how far its effect is from what the rules say, in
/// information form: precision times the mean of that, and the precision itself, over the axes.
struct LearnedEffect {
  Eigen::MatrixXd precision = {};  ///< one over notches squared; empty: nothing learned
  Eigen::VectorXd pull = {};
  int runs = 0;                         ///< differences between debriefs that speak of it
  std::vector<std::string> told = {};   ///< the latest of those runs, in words, latest first
  std::vector<TriedBefore> tried = {};  ///< latest first
};

/// By adjustment, in the order of Pack::adjustments; empty where there is no log.
using Experience = std::vector<LearnedEffect>;

}  // namespace kartwright
