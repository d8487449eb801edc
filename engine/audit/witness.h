// witness.h - a debrief file on which given rules all speak: the proof of what a check says of
// them, written so that anybody can run it again.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/audit/sample.h"
#include "engine/document/document.h"
#include "engine/knowledge/every_rule.h"

namespace kartwright {

struct Witness {
  std::string name;  ///< of the file, from the rules' ids; safe as a name in any folder
  std::string text;  ///< a debrief file
};

/// A sample as a debrief file, with its kart where the typical one does not do. `shows` goes into a
/// comment on top.
std::string debrief_text(const Sample& sample, const Pack& pack, const std::string& shows);

/// True where the debrief reads without errors and all of these rules fire on it.
bool all_fire(const Document& debrief, const std::vector<RuleRef>& rules, const Pack& pack);

/// The witness of a sample, tried before it is handed out: nothing where it does not show what it
/// should.
std::optional<Witness> witness_of(const Sample& sample, const std::vector<RuleRef>& rules,
                                  const Pack& pack, const std::string& shows);

}  // namespace kartwright
