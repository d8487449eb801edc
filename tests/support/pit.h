// pit.h - a pit to ask questions in: the rules that come with the program, a typical kart, and
// debriefs in a line.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/advice/advise.h"

namespace kartwright {

/// The built-in pack. The same object each time.
const Pack& rules();

/// What they hear in words, by one ear for all tests of a program.
Heard heard_by_rules(std::string_view said);

/// A case on its way to an answer. Reports as `push@entry=2`, facts as `laps=faster`, both checked.
struct Pit {
  std::string track = "unknown";
  std::vector<std::string> reports = {}, facts = {};
  double minutes = 15.0;
  Kart kart = typical_kart(rules());

  /// The answer; the pit must outlive it.
  Advice answer() const;
};

/// The belief on an axis, notches from the optimum.
double belief(const Advice& advice, std::string_view axis);

/// Notches that a reference step in direction 0 does to an axis, on the day of this answer.
double per_step(const Advice& advice, std::string_view adjustment, std::string_view axis);

/// A ranked change in one direction, or nullptr.
const Change* ranked(const Advice& advice, std::string_view adjustment, std::string_view direction);

/// "rear-width wider", or "nothing" where no change is offered.
std::string first_of(const Advice& advice);

/// Notches that a ranked change does to an axis.
double moved_by(const Advice& advice, const Change& change, std::string_view axis);

/// Why a direction is not offered, as `class-limit`; "offered" where it is.
std::string refusal_of(const Advice& advice, std::string_view adjustment,
                       std::string_view direction);

}  // namespace kartwright
