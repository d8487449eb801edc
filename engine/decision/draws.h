// draws.h - how sure the order is: how often each move comes first when the belief and the effects
// are drawn instead of averaged.
//
// The same seed gives the same draws on every platform.

#pragma once

#include <cstdint>
#include <vector>

#include "engine/decision/rank.h"

namespace kartwright {

/// A move as it is offered, ready to be drawn.
struct Contender {
  double steps = 0.0;              ///< u: signed reference steps
  const Effect* effect = nullptr;  ///< moves of one adjustment share it, and so each draw of it
  double fixed = 0.0;              ///< points that no draw changes: room, effort, last notch
  bool may_lead = true;  ///< false: it never comes first, as where only the complaint goes
};

/// The candidates of a ranking, in its order. `ways` and `effects` are those it was made from, and
/// must outlive the contenders.
std::vector<Contender> contenders_of(const std::vector<Candidate>& candidates,
                                     const std::vector<Way>& ways,
                                     const std::vector<Effect>& effects);

struct DrawPlan {
  int draws = 2000;  ///< above zero
  std::uint64_t seed = 1;
};

/// In what share of the draws each comes first. `first` and `nothing` sum to 1.
struct Draws {
  std::vector<double> first;  ///< by contender
  double nothing = 1.0;       ///< leaving the kart alone
  int draws = 0;
};

/// Draws z from N(mean, covariance) and, for each adjustment, b from N(per_step, its covariance),
/// all independent, and scores every move on them:
///   100 (z'Wz - (z + u b)'W(z + u b)) / J(none) + fixed        doing nothing scores 0
/// with J(none) at the mean, and no variance term since the effect itself is drawn. Ties go to the
/// earlier contender, and to doing nothing last. REQUIRES: covariances are symmetric, positive
/// semidefinite.
Draws draw(const Stakes& stakes, const Eigen::MatrixXd& covariance,
           const std::vector<Contender>& contenders, const DrawPlan& plan = {});

/// True where the draws do not settle what comes first: the two largest shares differ by less than
/// two standard errors of their difference, sqrt((a + b - (a - b)^2) / n) for multinomial shares;
/// or the largest is under one half and within 0.1 of the next.
bool coin_toss(const Draws& draws);

}  // namespace kartwright
