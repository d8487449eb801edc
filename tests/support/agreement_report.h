// agreement_report.h - what holding the program against the published statements gave, to be read.

#pragma once

#include <string>
#include <vector>

#include "tests/support/agreement.h"

namespace kartwright {

/// Counts, then every disagreement with its records, its source and the statement's own note, then
/// what the program is silent on, what is contested, and what is left out, each with its reason.
/// Counts and words only, so that it is the same on every machine.
std::string agreement_report(const std::vector<PublishedStatement>& statements,
                             const std::vector<AgreementUnit>& units);

}  // namespace kartwright
