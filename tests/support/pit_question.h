// pit_question.h - a published statement as a question to the program: which kart would a crew
// bring, what would its driver say, and which of two directions is meant.

#pragma once

#include "tests/support/pit.h"
#include "tests/support/statements.h"

namespace kartwright {

/// Why a statement cannot be put to the program.
enum class Unasked {
  none,
  no_adjustment,  ///< the program knows no such adjustment
  no_symptom,     ///< neither the program nor a driver has a word for the aim
  outside,        ///< what the README says is not ranked
  no_direction,   ///< the statement names a middle, not a way to go
};
std::string_view name_of(Unasked why);

/// Ids are the pack's. Where the statement cannot be asked, the published names stand there.
struct PitQuestion {
  Unasked unasked = Unasked::none;
  std::string track = "unknown";                      ///< a dry track of no stated kind is unknown
  std::vector<std::string> reports = {}, facts = {};  ///< as Pit takes them
  std::string adjustment, direction;                  ///< what the statement does

  /// What is asked, apart from the direction: two lines that ask the same are one question.
  std::string context() const;
};

/// `severity` is that of the complaint.
PitQuestion question_of(const PublishedStatement& statement, int severity);

/// The kart that all questions are asked of: the typical one with lead on it, nothing at an end but
/// what has two places only, every part in the box.
Kart mid_travel_kart();

/// What the program says to a question.
struct PitReply {
  std::string offered = {};    ///< the one direction that is ranked; empty: neither is
  bool contested = false;      ///< the rule that carries most of the effect is marked so
  bool label_printed = false;  ///< the ranked change says so in the JSON answer
};

/// Asks for either direction, each with the adjustment standing where it can go that way, with an
/// hour left. Throws std::logic_error where a direction was refused for another reason than that it
/// makes the kart worse, or where both are ranked: the loss is a parabola in the move, so that it
/// falls to one side only. REQUIRES: question.unasked is none or no_symptom; without a symptom
/// only `contested` is looked at.
PitReply ask(const PitQuestion& question);

}  // namespace kartwright
