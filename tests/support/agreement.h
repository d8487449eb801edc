// agreement.h - the program held against what is published: how often it speaks, how often it says
// the same, and where it does not.
//
// Pages are not counted, nor lines: one *question* counts once for each independent group that
// answers it, however many of its lines say so. A question is an adjustment on a track, after a
// complaint at a phase, with the facts that the group names.

#pragma once

#include <string>
#include <vector>

#include "tests/support/pit_question.h"

namespace kartwright {

enum class Verdicted { agrees, disagrees, silent };

/// One question and what one group says to it.
struct AgreementUnit {
  std::string group = {};
  /// By record; the statements outlive the unit.
  std::vector<const PublishedStatement*> lines = {};
  std::vector<std::string> directions = {};  ///< one a line
  PitQuestion question = {};                 ///< of the first line
  PitReply reply = {};

  /// Silent: neither direction is ranked, or it cannot be asked. Agrees: the ranked direction is
  /// that of every line.
  Verdicted verdict() const;
  /// "caster wet"
  std::string move() const;
};

/// Units of all remedies, by their first record. Those whose question is outside or has no
/// direction are among them. `severity` is that of the complaints.
std::vector<AgreementUnit> agreement_units(const std::vector<PublishedStatement>& statements,
                                           int severity);

/// A unit that counts: not outside, not without direction, and not contested by the rules.
bool counts(const AgreementUnit& unit);
/// A unit on an adjustment whose effect the rules mark contested in its context.
bool contested(const AgreementUnit& unit);

struct AgreementTally {
  int units = 0, spoken = 0, agreed = 0;
  double spoken_share() const { return units == 0 ? 0.0 : double(spoken) / units; }
  double agreed_share() const { return spoken == 0 ? 0.0 : double(agreed) / spoken; }
};

/// Of the units that count.
AgreementTally tally(const std::vector<AgreementUnit>& units);

/// The same where a group counts once for all it says of one adjustment, dry or wet: it is spoken
/// to where one of its units is, and agreed with where no unit disagrees.
AgreementTally coarse_tally(const std::vector<AgreementUnit>& units);

/// Adjustments, dry or wet, on which the units that count are spoken to and not most of them agree:
/// "caster wet".
std::vector<std::string> against_most(const std::vector<AgreementUnit>& units);

/// Adjustments of the pack for which remedies on one surface, `dry` or `wet`, give one direction
/// opposite effects on the grip of one end: "axle dry". Taken from the tables alone.
std::vector<std::string> split_in_print(const std::vector<PublishedStatement>& statements);

}  // namespace kartwright
