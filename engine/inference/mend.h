// mend.h - the nearest changes of one entry that meet everything asked of it at once.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/inference/near_miss.h"

namespace kartwright {

using Lacks = std::optional<std::vector<Lack>>;

/// What a requirement is about: "fact hit", "setting rear-width", "report hop". Requirements of one
/// subject are met together.
std::string subject_of(const Requirement& requirement, const Pack& pack);

/// What must change so that all requirements of one subject are met: nothing to change is an empty
/// list, no change that does it is no list. REQUIRES: at least one requirement, all of one subject,
/// which the pack has.
Lacks mend(const Requirements& asked, const Situation& situation);

// Its parts, by what is asked about. REQUIRES: some requirement is not met.
Lacks mend_measure(const Requirements& asked, const Situation& situation);
Lacks mend_reports(const Requirements& asked, const Situation& situation);

/// REQUIRES: there is one.
const Requirement& first_unmet(const Requirements& asked);
/// The symptom that a ReportTest or a ReadTest asks about.
std::string symptom_of(const Requirement& asked);

}  // namespace kartwright
