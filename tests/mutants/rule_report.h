// rule_report.h - what came of the mutants: shares by slip, who noticed, and who got away.

#pragma once

#include <string>
#include <vector>

#include "tests/mutants/rule_jury.h"

namespace kartwright {

struct JudgedMutant {
  const RuleMutant* mutant = nullptr;
  Juror noticed_by = Juror::nobody;
};

/// A mutant that nothing need notice, and why.
struct Justified {
  std::string mutant;  ///< as RuleMutant::text()
  std::string because;
};

/// Reads `justified:` of a file. Throws InputError.
std::vector<Justified> read_justified(const Document& document);

/// Numbers and shares by slip and by who noticed, then every mutant that nothing noticed.
std::string rule_report(const std::vector<JudgedMutant>& judged,
                        const std::vector<Justified>& justified);

/// What is not as it must be, a sentence each: a rule that was removed, forgotten or flipped
/// unnoticed and without a reason, and a reason for what was noticed or is no mutant.
std::vector<std::string> complaints_about(const std::vector<JudgedMutant>& judged,
                                          const std::vector<Justified>& justified);

}  // namespace kartwright
