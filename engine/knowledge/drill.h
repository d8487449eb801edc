// drill.h - what a trainee practises on, as the rule files give it: levels with what a case drawn
// for them must be, cases with a name, the words a drawn driver uses, and the ends of a kart.

#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/knowledge/rule.h"

namespace kartwright {

/// Whether the complaints of a drawn case make each other likelier, or speak against each other.
enum class ReportsFit { any, agree, conflict };
std::string_view name_of(ReportsFit fit);

/// One level, and what a case drawn for it must be.
struct DrillLevel {
  std::string id = {};
  std::string label = {};
  std::string teaches = {};  ///< in plain words
  int place = 1;             ///< in the order of learning, from 1
  int least = 1, most = 1;   ///< complaints about the handling that the driver makes
  ReportsFit reports = ReportsFit::any;
  std::vector<std::string> tracks = {};  ///< one of them
  int moved = 0;                         ///< settings that stand off the typical kart
  bool broken = false;        ///< a fault that must not be run is at least as likely as not
  bool used_up = false;       ///< the travel of what would lead is used up
  std::string laps = {};      ///< what the clock says; empty: nothing
  std::string headline = {};  ///< what the right answer is, by the name of the headline
  std::vector<std::string> offers = {};  ///< adjustments on the trainee's list
  Source source = {};
  bool operator==(const DrillLevel&) const = default;
};

/// A setting of a case's kart that is not the typical one: a value, SI, or a position.
struct DrillSetting {
  std::string adjustment = {};
  std::optional<double> value = {};
  std::string position = {};
  bool operator==(const DrillSetting&) const = default;
};

/// What the class allows on a case's kart. SI.
struct DrillLimit {
  std::string adjustment = {};
  std::optional<double> at_least = {}, at_most = {};
  std::vector<std::string> allowed = {};  ///< named positions; empty: all
  bool operator==(const DrillLimit&) const = default;
};

/// A case with a name, on the pack's typical kart.
struct DrillCase {
  std::string id = {};
  std::string level = {};
  std::string title = {};
  std::string because = {};  ///< why the best answer is right, in the trade's words
  std::string track = {};
  std::string said = {};
  std::string laps = {};  ///< what the clock says; empty: nothing
  std::vector<std::pair<std::string, std::string>> facts = {};
  std::vector<DrillSetting> settings = {};
  std::vector<DrillLimit> limits = {};
  double minutes = 15.0, hours = 3.0;
  Source source = {};
  bool operator==(const DrillCase&) const = default;
};

/// How a drawn driver says something. `{where}` and `{how}` stand in a symptom's words for where in
/// the corner and how much.
struct DrillWords {
  std::string id = {};  ///< "symptom hop", "phase mid", "severity 3"
  std::vector<std::string> says = {};
  Source source = {};
  bool operator==(const DrillWords&) const = default;
};

/// An end of the kart that can be at fault.
struct DrillEnd {
  std::string id = {};  ///< front or rear
  std::string label = {};
  std::vector<std::string> axes = {};  ///< ids or families
  std::string because = {};
  Source source = {};
  bool operator==(const DrillEnd&) const = default;
};

struct Drills {
  std::vector<DrillLevel> levels = {};
  std::vector<DrillCase> cases = {};
  std::vector<DrillWords> words = {};
  std::vector<DrillEnd> ends = {};

  const DrillLevel* level(std::string_view id) const;
  const DrillCase* named(std::string_view id) const;
  const DrillWords* said_of(std::string_view id) const;
  bool operator==(const Drills&) const = default;
};

}  // namespace kartwright
