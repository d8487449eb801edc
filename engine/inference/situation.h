// situation.h - everything a condition can look at, and the looking.

#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/debrief/debrief.h"
#include "engine/inference/experience.h"
#include "engine/kart/kart.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

/// A fact that holds, and where it came from.
struct Fact {
  std::string id;
  std::string value;
  std::string rule;  ///< the rule that concluded it; else `crew`, `kart` or `reports`
  std::vector<std::string>
      premises;  ///< what the rule stood on, in words that name facts and tests

  std::string text() const { return id + ":" + value; }
};

/// a.text() < b.text(), mostly without writing them out.
bool comes_before(const Fact& a, const Fact& b);

/// The facts of one case, settled. A fact has at most one value unless a rule concludes another.
struct Facts {
  std::vector<Fact> all;  ///< sorted by text

  bool has(std::string_view id, std::string_view value) const;
  bool stated(std::string_view id) const;  ///< any value of it holds
};

/// One case, as conditions see it. The pack, kart and reports outlive it.
struct Situation {
  const Pack& pack;
  const Kart& kart;
  const std::vector<Report>& reports;
  Facts facts = {};
  /// Values taken for granted on top of the facts, while a mixture over unstated facts is worked
  /// out.
  std::map<std::string, std::string, std::less<>> supposed = {};
  /// What the physics measures of the kart on this track; what the crew measured goes before it.
  std::map<std::string, double, std::less<>> loads = {};
  /// What the kart's log adds to the rules' effects; it outlives the situation.
  const Experience* experience = nullptr;
};

/// Fills in `loads` for the track that the facts state. Derived facts do not look at them.
void measure_loads(Situation& situation);

/// A measurement of the crew or of the physics, SI.
std::optional<double> measured(std::string_view measure, const Situation& situation);

bool holds(const Test& test, const Situation& situation);
bool holds(const Condition& condition, const Situation& situation);

/// How far a range's setting stands from the last place the class allows towards the end that is
/// meant, in its SI unit; nothing where the kart has no such setting, or it has named positions.
std::optional<double> distance_from_end(const SettingTest& test, const Situation& situation);

/// The limit that a measurement is held against, or the edge of its band, in its SI unit; nothing
/// where neither is known.
std::optional<double> edge_of(const MeasureTest& test, const Situation& situation);

/// How far a measurement lies beyond the limit or the edge of the band, in its SI unit; 0 where it
/// does not, or where it was not taken. The limit itself, in whichever unit, is not beyond it.
double excess_over_band(const MeasureTest& test, const Situation& situation);

/// A test in words, with what was seen: "rear-width within 10 mm of its narrower end".
std::string describe(const Test& test, const Pack& pack);
/// A whole condition in words; "always" where it names no test.
std::string describe(const Condition& condition, const Pack& pack);

/// The tests of a condition that hold and make it hold, in words, sorted; denials as "not ...".
std::vector<std::string> premises_of(const Condition& condition, const Situation& situation);

}  // namespace kartwright
