// thoughts.h - what one segment says by itself: symptoms, phases, amounts, doubts, denials, facts,
// praise.
//
// A segment that names no symptom is a thought too: sentence.cc finds the symptom that it speaks
// of.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/debrief/clauses.h"
#include "engine/knowledge/phase.h"

namespace kartwright {

/// A symptom as named in a segment.
struct Named {
  const Phrase* phrase = nullptr;
  std::string symptom = {};  ///< the phrase's, or what the manner makes of it
  bool denied = false;
  bool shouted = false;              ///< in CAPITALS
  bool spells_phase = false;         ///< "loose off"; an implied phase gives way to a said one
  std::optional<int> severity = {};  ///< as said with it, 1-3
};

/// A phase as named in a segment; denied by "not in the middle".
struct Where {
  Phase phase = Phase::any;
  bool denied = false;
  std::optional<int> severity = {};  ///< of this phase alone
  bool added = false;                ///< besides the phase that the symptom already has
};

/// Words without a place, and the unknown ones among them, in lower case.
struct Leftover {
  Stretch at = {};
  std::string text = {};
  std::vector<std::string> unknown = {};
};

struct StatedPhrase {
  const Phrase* phrase = nullptr;
  Stretch at = {};
};

struct Thought {
  std::size_t clause = 0;
  Join join = Join::none;
  bool comma = false, told = false;
  bool excepting = false;            ///< of a clause that only takes back: "except in the middle"
  bool asked = false, loud = false;  ///< as its clause ends
  Stretch at = {};

  std::vector<Named> symptoms;
  std::vector<Where> phases;     ///< each once
  bool phases_lead = false;      ///< the phases stand before the first symptom
  std::vector<Stretch> corners;  ///< "turn four", "the hairpin", "3 and 7"
  std::optional<int> severity;   ///< of a thought without symptoms
  Remark<Side> side;
  Remark<When> when;
  std::optional<Confidence> confidence;

  std::vector<StatedPhrase> facts;  ///< facts and laps
  std::vector<Stretch> praise;
  std::vector<Stretch> refused_praise;  ///< "not great"
  std::vector<Leftover> leftovers;
  bool bare = false;       ///< symptoms and not a word more
  bool finite = false;     ///< bare, and a verb with its own subject: "hops"
  bool only_no = false;    ///< nothing but a negation
  bool only_gone = false;  ///< nothing but "that's gone"
  bool aside = false;      ///< of another day or another kart: it says so and no more

  /// Says something of a symptom that it does not name.
  bool modifies() const;
  /// Says nothing at all: filler and places.
  bool is_idle() const;
};

/// The thoughts of all segments that say anything, in the order said. Clauses are counted by those.
std::vector<Thought> thoughts_of(const std::vector<SpokenClause>& clauses);

}  // namespace kartwright
