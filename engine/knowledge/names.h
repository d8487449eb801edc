// names.h - every id the rule files define, gathered before anything is read, so that a rule may
// name what stands in a later file and a misspelt id is answered at its own place.

#pragma once

#include <map>
#include <string>
#include <vector>

#include "engine/document/document.h"

namespace kartwright {

struct Names {
  std::vector<std::string> axes, families, symptoms, tracks, cautions, adjustments, measures,
      faults, word_classes, drill_levels;
  std::map<std::string, std::vector<std::string>> fact_values;  ///< by fact id
  std::map<std::string, std::vector<std::string>> directions;   ///< by adjustment id
  std::map<std::string, std::vector<std::string>> positions;  ///< by adjustment id; empty: a range
  std::map<std::string, std::string> kinds;                   ///< by adjustment or measure id

  std::vector<std::string> facts() const;
  std::vector<std::string> axes_and_families() const;
};

/// `room:<adjustment>:<direction>` is a fact of the engine's own, with values `none` and `some`.
std::string room_fact(const std::string& adjustment, const std::string& direction);
bool is_room_fact(std::string_view fact);

Names gather_names(const std::vector<const Document*>& documents);

}  // namespace kartwright
