// same_answer.h - are two answers the same advice, and if not, where do they part?

#pragma once

#include <string>
#include <vector>

#include "engine/advice/advise.h"

namespace kartwright {

/// An advice, with the odds of every fault, worth a look or not.
struct FullAnswer {
  Advice advice;
  std::vector<FaultOdds> odds;
};

/// As advise without questions and bundles, and throws as it does.
FullAnswer answer_in_full(const Pack& pack, const Kart& kart, const Debrief& debrief, System units);

/// What is believed in a case: all that comes before a move is thought of.
struct Beliefs {
  Eigen::VectorXd mean;  ///< notches, one per axis
  std::vector<FaultOdds> odds;
};
Beliefs believe(const Situation& situation, const Prior& prior);
/// The first axis or fault in which two beliefs differ, in words; empty where they are the same.
std::string where_beliefs_apart(const Beliefs& one, const Beliefs& other, const Pack& pack);

/// The first thing in which two answers under one pack differ, in words; empty where they are the
/// same: belief, odds, headline, and every move offered (place, score) or refused (reason). Numbers
/// of notches, decibans and points are the same within 1e-9. Moves that score the same may stand in
/// either order.
std::string where_apart(const FullAnswer& one, const FullAnswer& other, const Pack& pack);

}  // namespace kartwright
