// debrief.h - what the driver and the crew said, as values: reports of symptoms, stated facts,
// leftovers.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/knowledge/phase.h"

namespace kartwright {

/// One symptom at one phase. Severity 1 slight, 2 clear, 3 severe; 0: asked, and it is not there.
struct Report {
  std::string symptom;  ///< id of the rule pack
  Phase phase = Phase::any;
  int severity = 2;
  Confidence confidence = Confidence::fair;
  std::optional<Side> side = {};
  std::optional<When> when = {};
  std::vector<std::string> corners = {};  ///< by number or name, as said; they weigh nothing
  std::string words = {};                 ///< the clause it came from, as said
  bool from_praise = false;               ///< denied because the driver praised the kart
  bool denied() const { return severity == 0; }
};

/// A plain fact: `turn-in` is `brake`.
struct StatedFact {
  std::string fact;
  std::string value;
  std::string words = {};
};

/// Words that came to nothing, with the phrases of the vocabulary nearest to them.
struct NotUnderstood {
  std::string words;
  std::vector<std::string> nearest = {};
};

/// Everything read out of words.
struct Heard {
  std::vector<Report> reports;
  std::vector<StatedFact> facts;
  std::vector<NotUnderstood> not_understood;
  std::vector<std::string> praise;  ///< the words of praise, as said
};

/// A debrief ready for the engine. Times in minutes and hours, as a pit clock has them.
struct Debrief {
  Heard heard;
  std::string track = "unknown";
  double minutes = 15.0;  ///< left before the kart goes out
  double hours = 3.0;     ///< left in the day
};

}  // namespace kartwright
