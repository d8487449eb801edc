// rank.h - what each move would leave of the handling error, and in which order to think of them.

#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "engine/decision/effects.h"
#include "engine/decision/forecast.h"
#include "engine/decision/options.h"

namespace kartwright {

/// What the ranking weighs: the belief's mean and the axes' weights, and the pit clock.
struct Stakes {
  Eigen::VectorXd mean;     ///< notches, one per axis
  Eigen::VectorXd weights;  ///< the diagonal of W
  double minutes_left = 15.0;
  std::vector<Stage> forecast = {};  ///< what the track will do, nearest first
  /// The mean as it would be without the complaints, where the clock says the kart is faster: a
  /// move that relieves nothing of this only quiets the complaint, and may not lead.
  std::optional<Eigen::VectorXd> without_complaints = {};
  /// Then also the mean with the complaints at their full weight: a move that makes this worse goes
  /// against what the driver feels on a kart that is fast, and may not lead either.
  std::optional<Eigen::VectorXd> with_complaints = {};
};

/// J(none) = m' W m, the handling error of leaving the kart alone.
double loss_of_nothing(const Stakes& stakes);

/// J = (m + u b)' W (m + u b) + u^2 tr(W Lambda): the handling error expected after moving u steps.
double loss_of(const Stakes& stakes, const Effect& effect, double steps);

/// 1 - J / J(none): the share of the handling error taken out; 0 where there is none to take.
double relief_of(const Stakes& stakes, double loss);

/// Points a minute: 0.5 clamp(15 / minutes_left, 1, 4).
double effort_rate(double minutes_left);

/// Points: 3 where the move lands on an end of an adjustment with five or more places, else 0.
double last_notch_cost(const Option& option);

/// Parts of a score, in points; they sum to it.
struct Parts {
  double effect = 0.0, room = 0.0, effort = 0.0, last_notch = 0.0;
  double score() const { return effect + room + effort + last_notch; }
};

/// A legal move at its best setting in one direction.
struct Candidate {
  Option option;
  double relief = 0.0;
  double room_cost = 0.0;
  Parts parts = {};
  bool only_comfort = false;        ///< it relieves the complaint and nothing else
  bool against_complaint = false;   ///< it makes worse what the driver complains of on a fast kart
  std::optional<double> then = {};  ///< where it would go on to with no limit on one move
  std::optional<double> wanted = {};  ///< where the forecast would best have it, as Setting::now

  /// Not to lead where the clock says that the kart is faster.
  bool held_back() const { return only_comfort || against_complaint; }
};

/// A direction of an adjustment that is not offered, with the place nearest to being offered.
struct Refused {
  const Way* way = nullptr;
  Refusal refusal = Refusal::none;
  std::optional<Option> option = {};
  std::optional<std::size_t> worsens = {};  ///< the axis it takes farthest from the optimum
  bool uncertain = false;  ///< it would help on average, but nobody knows well enough
};

struct Ranking {
  std::vector<Candidate> candidates;  ///< best first
  std::vector<Refused> refused;       ///< by adjustment and direction
  /// What leaving the kart alone scores, not above zero: the price of travel that is missing
  /// already is paid by whatever is done, and so by nothing as well.
  double nothing = 0.0;
};

/// Judges every way. `effects` are in the order of Pack::adjustments. Ties of the score go to fewer
/// minutes, then to the id. The ways must outlive the ranking.
Ranking rank(const Stakes& stakes, const std::vector<Way>& ways,
             const std::vector<Effect>& effects);

/// The first candidate of a ranking, without `then` and `wanted`, and what nothing scores there.
struct Lead {
  std::optional<Candidate> candidate = {};
  double nothing = 0.0;
};

/// What leads the ranking, found without the rest of it.
Lead leading(const Stakes& stakes, const std::vector<Way>& ways,
             const std::vector<Effect>& effects);

/// Every place of ways[way] with all parts of its score, in the order of its options, as if each
/// were allowed.
std::vector<Candidate> judge_places(const Stakes& stakes, const std::vector<Way>& ways,
                                    const std::vector<Effect>& effects, std::size_t way);

}  // namespace kartwright
