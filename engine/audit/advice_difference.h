// advice_difference.h - which answers change from one rule pack to another, and how.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/audit/scenario_folder.h"
#include "engine/decision/headline.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

/// The change that leads, as the crew reads it.
struct LeadingChange {
  std::string adjustment, direction;
  std::string phrase;    ///< "rear wider"
  std::string from, to;  ///< as a kart file writes them
};

/// A move whose rank differs. Ranks count from 1; 0 is a move that is not offered.
struct RankShift {
  std::string adjustment, direction;
  std::size_t before = 0, after = 0;
};

/// A move that both packs offer, with scores more than kScoreShift apart. In points.
struct ScoreShift {
  std::string adjustment, direction;
  double before = 0.0, after = 0.0;
};
inline constexpr double kScoreShift = 0.05;

/// A scenario with another answer.
struct ScenarioDifference {
  std::string scenario;  ///< path
  std::string title;     ///< may be empty
  Headline headline_before = Headline::change, headline_after = Headline::change;
  std::optional<LeadingChange> first_before = {}, first_after = {};
  bool first_differs = false;  ///< another move, or to another place
  std::vector<RankShift> ranks = {};
  std::vector<ScoreShift> scores = {};
  std::vector<std::string> checks_came = {}, checks_went = {};  ///< fault ids, by id

  bool headline_differs() const { return headline_before != headline_after; }
};

/// A scenario that one pack or both cannot answer, with what is wrong under each.
struct UnreadScenario {
  std::string scenario;
  std::vector<Diagnostic> before, after;
};

struct ScenariosApart {
  std::size_t asked = 0;  ///< scenarios that both packs answered
  std::vector<ScenarioDifference> differing;
  std::vector<UnreadScenario> unread;
};

/// Asks both packs about every scenario, each with a kart of its own. Pure.
ScenariosApart scenarios_apart(const Pack& before, const Pack& after,
                               const std::vector<ScenarioFile>& scenarios);

}  // namespace kartwright
