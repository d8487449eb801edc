// day.h - the settings for each stage of the day on one kart: the start that keeps room for what
// the track will do, what to move at each stop and in which order, where an adjustment runs out and
// which takes over, and what becomes of it if the rubber comes early or never.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/debrief/debrief.h"
#include "engine/decision/day_plan.h"
#include "engine/decision/options.h"
#include "engine/inference/fault_odds.h"
#include "engine/kart/kart.h"
#include "engine/records/history.h"

namespace kartwright {

/// A stage of the day and how long it is.
struct StageOfDay {
  const DayStage* stage = nullptr;  ///< in the pack
  double hours = 1.0;               ///< above zero: by them the stages weigh
};

struct DayAsked {
  std::vector<StageOfDay> stages = {};  ///< at least one; the first is now
  /// The first stop has time for as much as the plan moves in all, however far. Else the kart has
  /// just run, and it is a stop like the others.
  bool at_the_bench = true;
  double minutes = 15.0;        ///< of a stop
  std::size_t changes = 2;      ///< at one stop
  std::size_t most_levers = 3;  ///< that the plan moves in all
  std::size_t most_work = PlanCase{}.most_work;
};

/// The stages of the pack's day from a state of the track on, an hour each. Empty where the day
/// does not know the state.
std::vector<StageOfDay> stages_from(const Pack& pack, std::string_view track);

/// False where the track does not lead from the first stage to one of the others, one behind the
/// other, by what each state says comes next; `broken` is then the number of the first such.
bool leads_on(const Pack& pack, const std::vector<StageOfDay>& stages, std::size_t& broken);

/// One change, in its turn.
struct DayMove {
  const Adjustment* adjustment = nullptr;
  std::size_t direction = 0;
  std::string from = {}, to = {};  ///< as a kart file writes them
  double minutes = 0.0;            ///< that it takes more, with what is on the stand already
  double until = 0.0;              ///< minutes from the start of the stop
  double left = 0.0;               ///< of the handling error once it is done, in Day's measure
  const std::string& phrase() const { return adjustment->phrases.at(direction); }
};

/// A setting as a kart file writes it, and as a number, SI; a named position has none.
struct DaySetting {
  std::string text = {};
  std::optional<double> value = {};
};

/// How far a mover can go: to the last places that the class, the box and the kart let it.
struct DayTravel {
  DaySetting now = {}, low = {}, high = {};              ///< low and high by value
  Refusal below = Refusal::none, above = Refusal::none;  ///< end_stop, class_limit or no_part
  double stands = 0.0;  ///< how far up from low to high it stands now, 0-1
};

struct DayStop {
  const DayStage* stage = nullptr;
  double hours = 1.0;
  std::vector<DayMove> moves = {};  ///< in the order to make them
  double minutes = 0.0;
  double untouched = 0.0, left = 0.0;      ///< of the handling error there, in Day's measure
  std::vector<std::string> settings = {};  ///< of Day::movers, after the stop
  std::vector<std::optional<double>> values = {};  ///< the same as numbers, as in DaySetting
  std::vector<double> at = {};                     ///< of them: how far up from low to high, 0-1
  std::vector<double> room = {};  ///< of them: places to both ends, the lesser share, 0-1
};

/// An adjustment that the track wants beyond where it can go.
struct RunsOut {
  const DayStage* stage = nullptr;  ///< the first where it is missed
  const Adjustment* adjustment = nullptr;
  std::size_t direction = 0;
  std::string at = {};                     ///< where it stands by then
  Refusal reason = Refusal::none;          ///< class_limit, no_part or end_stop
  double missed = 0.0;                     ///< of the handling error there, in Day's measure
  std::optional<DayMove> takes_over = {};  ///< the move that does most of what it cannot
  bool by_plan = false;                    ///< the plan makes that move, at or after that stage
};

/// What to do from the same start if the day goes another way.
struct DayReply {
  bool early = false;  ///< else the rubber never comes
  std::vector<DayStop> stops = {};
  double left = 0.0;    ///< of what the untouched kart would have on such a day
  double regret = 0.0;  ///< by how many points the best start for such a day would have done better
};

/// All shares are of what the untouched kart has on the mean of the day: 1 is that much. Points are
/// hundredths of it, averaged over the day, costs of the stops included.
struct Day {
  std::string kart;
  System units = System::metric;
  bool at_the_bench = true;
  std::size_t runs_in_log = 0;
  std::vector<std::string> notes = {};
  /// What goes before any plan: the reading where a fault stops the kart or the reports do not fit
  /// together, the look over the whole kart after a knock; else empty.
  std::string before_all = {};
  std::vector<FaultOdds> stops_the_kart = {};  ///< faults not to be run, likely enough to stop it
  std::vector<const Adjustment*> movers = {};  ///< that the plan moves, in the order of the pack
  std::vector<std::string> stands = {};        ///< where they stand now
  std::vector<DayTravel> travel = {};          ///< of the movers
  std::vector<DayStop> stops = {};             ///< one a stage; the first is the start
  double left = 0.0;                           ///< mean share left by the plan
  double points_saved = 0.0;                   ///< against leaving the kart alone all day
  double short_of_best = 0.0;  ///< points by which no plan can be better; 0: it is the best
  /// Points that the start gains over one that looks at the first stage alone, where that is
  /// another start.
  std::optional<double> gain_of_looking_ahead = {};
  std::vector<std::string> start_looking_at_now = {};  ///< that other start, in the movers' words
  std::vector<RunsOut> runs_out = {};
  std::vector<DayReply> replies = {};
  std::size_t most_levers = 3, changes = 2;
  std::size_t looked_at = 0;
  std::vector<std::string_view> cautions = {};  ///< of all moves, in the pack
};

/// Plans the day from the kart as it stands and from what is believed of it now. What was stated is
/// taken to hold all day; what the driver reported is taken to stay until it is mended; the track
/// adds what the stages ahead bring. With the kart's log the effects are those that it teaches.
/// REQUIRES: the stages lead on; the debrief's track is that of the first stage; pack and kart
/// outlive the day.
Day plan_day(const Pack& pack, const Kart& kart, const Debrief& debrief, System units,
             const DayAsked& asked, const History* history = nullptr);

}  // namespace kartwright
