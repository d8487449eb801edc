// sentence.h - reads a driver's own words into reports. Linear in the words; nothing is dropped in
// silence.
//
// The vocabulary is the rule pack's. Words are cut into clauses, known phrases are found longest
// first, and within a clause symptoms take up the phases, amounts, doubts and denials that stand
// with them. Whatever carries meaning and found no place is returned as not understood.

#pragma once

#include <string_view>

#include "engine/debrief/debrief.h"
#include "engine/debrief/spelling.h"
#include "engine/debrief/vocabulary.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

/// Hears debrief after debrief with one vocabulary; building that costs more than a sentence does.
class Ear {
 public:
  /// The pack must outlive it.
  explicit Ear(const Pack& pack);

  /// Never throws. `said` may be any bytes; those that are no UTF-8 are quoted as U+FFFD.
  Heard hear(std::string_view said);

 private:
  const Pack& pack_;
  Vocabulary vocabulary_;
  Spelling spelling_;
};

/// One debrief, heard with an ear of its own.
Heard hear(std::string_view said, const Pack& pack);

}  // namespace kartwright
