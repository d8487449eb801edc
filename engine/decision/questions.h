// questions.h - what could still be asked before a move is chosen, by what the answer is worth.
//
// A question is about a symptom at a phase, or about a plain fact. What has been said already is
// not asked again, and no question is left out for being worth little.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/decision/worth.h"

namespace kartwright {

struct Question {
  const Symptom* symptom = nullptr;  ///< in the pack; null: the question is about a fact
  const FactDef* fact = nullptr;     ///< in the pack; null: the question is about a symptom
  /// Of a symptom. Phase::any where its row is the same at every phase: then it is one question.
  Phase phase = Phase::any;
  Asked asked = {};    ///< how a symptom's answer would read; the row is empty for a fact
  double worth = 0.0;  ///< points of handling error, 100 EVSI: 100 is all of it; not negative

  std::string_view id() const { return symptom != nullptr ? symptom->id : fact->id; }
  const std::string& text() const {
    return symptom != nullptr ? symptom->question : fact->question;
  }
};

/// What a choice is about to be made on. All of it must outlive the call.
struct BeforeChoosing {
  const Situation& situation;
  const Prior& prior;
  const Belief& belief;            ///< of the situation's readings
  const Eigen::VectorXd& weights;  ///< the diagonal of W
  const std::vector<Way>& ways;
  const std::vector<Effect>& effects;  ///< in the order of Pack::adjustments
};

/// All open questions, the one most worth asking first; ties by id, then phase. Where there is no
/// handling error to take out, all are worth nothing.
///
/// *Symptoms*: each with a reading and a question, at each phase where it is felt and reads, unless
/// it, or the symptom it is asked against, has been reported or denied there, or with no phase
/// said. The answer is as sure as a fair report, and wider by the pack's factor where the laps are
/// faster, as a complaint would be. The row is turned so that y > 0 is a complaint.
///
/// *Facts*: each with a question that nobody stated. Under each value, by value_weights, the
/// effects are those with it supposed, and so are the readings that look at it: the track tells of
/// the kart as well as of the moves. What the answer is compared with is the one move that is best
/// over all values together, under those same beliefs; where no reading looks at the fact this is
/// the best move as things stand. An adjustment whose rules do not look at the fact keeps its
/// effect. A fact without a prior is worth nothing: no move waits for it.
std::vector<Question> questions(const BeforeChoosing& at);

}  // namespace kartwright
