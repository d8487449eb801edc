// run.h - one run of one kart as the log keeps it: when, on what, as it was set up, what the clock
// and the driver said, and what was changed before it.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/debrief/debrief.h"
#include "engine/records/compare.h"

namespace kartwright {

/// Why a lap does not count. It is kept all the same.
enum class LapFlag { counts, out, in, traffic };
std::string_view name_of(LapFlag flag);
std::optional<LapFlag> lap_flag_named(std::string_view name);

struct RunLap {
  int number = 0;      ///< in the run, from 1
  double seconds = 0;  ///< above zero
  LapFlag flag = LapFlag::counts;
  bool by_crew = false;  ///< the crew said so; else the rule of lap_flags.h

  bool operator==(const RunLap&) const = default;
};

/// Whose idea a change was.
enum class Origin {
  advice,    ///< the ranked change of an advice, which is kept with it
  own_idea,  ///< the crew's
  found,     ///< it stood in the kart file and nobody said why
  undo,      ///< it takes the change before it back
};
std::string_view name_of(Origin origin);
std::optional<Origin> origin_named(std::string_view name);

/// More reference steps than any adjustment has; a change by more was never made.
inline constexpr double kMostSteps = 1000.0;

/// A change made before the run it stands in.
struct RunChange {
  std::string adjustment;          ///< id of the rule pack
  std::string from = {}, to = {};  ///< as a kart file writes them
  double steps = 0;                ///< reference steps, + in direction 0
  Origin origin = Origin::own_idea;
  std::string asked_by = {}, why = {};
  std::optional<int> rank = {};       ///< in the advice that was followed
  std::optional<double> relief = {};  ///< share of the handling error that it promised
  std::string advice = {};            ///< that advice, whole, as JSON; else empty
};

/// What came of a change.
struct RunVerdict {
  std::string adjustment;
  ClockVerdict verdict = ClockVerdict::not_settled;
  std::string by = {};  ///< `clock`, or the crew
  std::string text = {};
};

/// One setting of the kart, as a kart file writes it.
struct RunSetting {
  std::string adjustment, value;
  bool operator==(const RunSetting&) const = default;
};

struct RunNote {
  std::string text;
};

struct Run {
  std::int64_t id = 0;                        ///< in this log; 0: not in it yet
  std::string kart;                           ///< with `at` it names a run in every log
  std::string at;                             ///< local time, `2026-11-14T10:30:00`
  std::string session = {};                   ///< "heat 2"; may be empty, as all that follow
  std::string track = {};                     ///< id of a state
  std::optional<double> air = {}, road = {};  ///< degrees Celsius
  std::string tyres = {};                     ///< which set
  std::optional<int> tyre_laps = {};          ///< on them before the run
  std::string driver = {}, load = {};         ///< load: fuel and ballast, in words
  bool driven = true;                         ///< false: made ready and not driven yet
  bool complete = false;  ///< the driver was asked for everything: what is unmentioned is not there
  std::string said = {};  ///< the driver's words
  std::vector<RunSetting> settings = {};  ///< by adjustment
  std::vector<RunLap> laps = {};
  std::vector<Report> reports = {};
  std::vector<StatedFact> facts = {};
  std::vector<RunNote> notes = {};
  std::vector<RunChange> changes = {};
  std::vector<RunVerdict> verdicts = {};

  std::string day() const { return at.substr(0, 10); }
  /// Of an adjustment; empty where the kart has none.
  std::string setting(std::string_view adjustment) const;
};

/// "run 12 (heat 2, 2026-11-14)"
std::string name_of(const Run& run);

/// `2026-11-14`, `2026-11-14 10:30`, `2026-11-14T10:30:15` as the log writes it; nothing where it
/// is no date.
std::optional<std::string> parse_moment(std::string_view text);
/// The moment a number of seconds later.
std::string later(const std::string& moment, int seconds);

/// The laps that count, seconds, in their order.
std::vector<double> counted(const Run& run);
/// The fastest of them, 0 where there is none.
double best_of(const Run& run);

}  // namespace kartwright
