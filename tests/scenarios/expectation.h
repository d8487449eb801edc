// expectation.h - what a scenario file says a good answer must hold, read strictly.
//
// The format is described in scenarios/README.md. A key or a name that is not known is an error, so
// that a misspelt expectation cannot pass by never being looked at.

#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/debrief/debrief.h"
#include "engine/document/document.h"
#include "engine/kart/kart.h"

namespace kartwright {

/// An adjustment and one of its two directions, both ids of the pack.
struct NamedMove {
  std::string adjustment, direction;
  bool operator==(const NamedMove&) const = default;
};

struct RefusedMove {
  NamedMove move;
  std::string reason;  ///< as name_of(Refusal)
};

/// Where the belief on an axis must lie, against half a notch either side of the optimum.
enum class Level { low, fair, high, not_low, not_high };
std::string_view name_of(Level level);
bool lies(double mean, Level level);

/// Everything is optional: what a scenario does not name is not judged.
struct Expectation {
  std::optional<std::string> headline = {};
  std::vector<NamedMove> first = {};  ///< the leading change is one of these
  std::vector<NamedMove> not_first = {};
  std::vector<NamedMove> ranked = {};  ///< offered, at whatever rank
  std::vector<NamedMove> not_ranked = {};
  std::vector<RefusedMove> refused = {};
  std::optional<std::string> first_check = {};
  std::vector<std::string> checks = {}, no_checks = {};  ///< fault ids
  std::map<std::string, Level> axes = {};                ///< by axis id
  std::optional<std::vector<Report>> heard = {};         ///< all of it; what praise denies aside
  std::optional<int> not_understood = {};                ///< how many stretches of words
  std::map<std::string, std::string> facts = {};         ///< that hold, stated or derived
  std::optional<bool> look_over = {};
};

struct Scenario {
  std::string path, title, because;
  Debrief debrief;
  Kart kart;
  Expectation expect;
};

/// Reads a debrief with its kart and its expectation; every mistake goes to `findings`. A scenario
/// without `title`, `because` or `expect`, or whose `expect` is empty, is a mistake. REQUIRES: the
/// pack outlives the scenario. Throws InputError where a file cannot be read at all.
Scenario read_scenario(const Document& document, const Pack& pack, Findings& findings);

}  // namespace kartwright
