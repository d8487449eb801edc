// advice.h - the answer to one debrief, whole: what was heard, what is believed, what to check,
// what to change, and why. Finished values; presenters add layout and nothing else.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/advice/shared.h"
#include "engine/chassis/load_measures.h"
#include "engine/debrief/debrief.h"
#include "engine/decision/draws.h"
#include "engine/decision/headline.h"
#include "engine/decision/questions.h"
#include "engine/decision/rank.h"
#include "engine/inference/belief.h"
#include "engine/inference/fault_odds.h"
#include "engine/inference/readings.h"

namespace kartwright {

/// Whether the loads of this kart move the way the rules say, on the axis they are surest of.
enum class LoadsSay { the_same, the_opposite, nothing };

/// One reason of a change. `kind` is `rule`, `chassis` or `record`.
struct Because {
  std::string_view kind;
  std::string_view id;  ///< in the pack; of a record the adjustment's
  std::string text;
};

/// What the change does to one axis: notches before and after.
struct AxisMove {
  std::size_t axis = 0;
  double before = 0.0, after = 0.0;
};

/// One ranked change, ready to be read out.
struct Change {
  Candidate candidate = {};
  std::string from = {}, to = {};  ///< as a kart file writes them
  std::string then = {};           ///< where it would go on to, or empty
  std::string tried = {};          ///< under like conditions before, and taken back; or empty
  bool contested = false;
  std::vector<Because> because = {};
  LoadsSay loads = LoadsSay::nothing;  ///< of what the rules say
  std::vector<AxisMove> moves = {};    ///< axes it moves, the one it mends most first
  /// On the axis it mends most: reading index and share, largest first. They sum to the belief
  /// there.
  std::vector<std::pair<std::size_t, double>> shares = {};
  /// Complaints that the move feeds, by reading index, and by how many notches, most first. It may
  /// still be the better kart.
  std::vector<std::pair<std::size_t, double>> against = {};
  std::string_view watch = {}, back_out = {};   ///< in the pack
  std::vector<std::string_view> cautions = {};  ///< texts, in the pack
  std::vector<std::string> open_questions =
      {};  ///< facts nobody stated that would sharpen the effect

  const Adjustment& adjustment() const { return *candidate.option.setting->adjustment; }
  const std::string& direction() const {
    return adjustment().directions.at(candidate.option.direction);
  }
};

/// A direction of an adjustment that is not offered.
struct NotNow {
  std::string_view adjustment = {}, direction = {};  ///< in the pack
  std::string to = {};  ///< the nearest place, or empty where there is none
  Refusal reason = Refusal::none;
  std::string text = {};
};

/// What the track will want once it has moved on by itself.
struct NextWanted {
  std::string track = {};  ///< label of the state that comes next
  std::string adjustment = {}, direction = {};
  std::string phrase = {};  ///< the move in the crew's words
  std::string from = {}, to = {};
  std::string left = {};  ///< travel left behind it, in the crew's measure
  bool stays = false;     ///< the state that comes next is the one that is
};

/// A size that was assumed, and what knowing it could do to the ranking.
struct MeasureNext {
  std::string id, label;
  double points = 0.0;  ///< by which the first change could move against the second
};

/// Moves that are made in one break.
struct Together {
  struct Move {
    std::string adjustment, phrase;
    std::string from, to;  ///< as a kart file writes them
    double steps = 0.0;
    double minutes = 0.0;  ///< more, with what is on the stand already
    double relief = 0.0;   ///< share of the handling error taken out once it is made
  };
  std::vector<Move> moves = {};  ///< in the order to make and to test them
  double relief = 0.0;           ///< share of the handling error taken out
  double minutes = 0.0;          ///< with what the jobs share counted once
};

struct Advice {
  std::string kart;
  std::string track;  ///< id of the state, or `unknown`
  Debrief debrief;
  System units = System::metric;   ///< of lengths in the texts
  bool no_settings = false;        ///< the kart names none, so no change can be ranked
  std::vector<std::string> notes;  ///< on what was assumed: no kart file, an unknown track

  Verdict verdict;
  std::string text;  ///< the reading in one or a few plain sentences
  Coherence coherence;
  std::string look_over;                         ///< after a knock: the whole-kart look, else empty
  std::vector<FaultOdds> checks;                 ///< worth a look now, in order
  std::vector<std::string_view> check_cautions;  ///< texts, in the pack

  std::vector<Change> changes;
  std::vector<NotNow> not_now;
  std::optional<NextWanted> next;
  std::vector<Together> bundles;    ///< smallest first
  std::vector<Question> questions;  ///< most worth asking first
  std::optional<Draws> draws;       ///< by change, where asked for

  std::optional<LoadsToday> loads;          ///< of this kart on this track, where it is known
  std::optional<MeasureNext> measure_next;  ///< the one to measure first, where asked for

  // The working.
  Facts facts;
  Prior prior;
  std::vector<Reading> readings;
  Belief belief;
  Eigen::VectorXd weights;
  Shared<std::vector<Effect>> effects;  ///< in the order of Pack::adjustments
  Experience experience;                ///< of the kart's log; empty without one
  Shared<std::vector<Way>> ways;
  std::vector<Stage> forecast;
  double track_relief = 0.0;  ///< what the next stage takes out by itself, at its weight
  double loss_none = 0.0;
  double score_of_nothing = 0.0;  ///< points, not above zero: as Ranking::nothing
  double effort_rate = 0.0;
};

}  // namespace kartwright
