// checks.h - the checks that need nothing but the rules themselves. Each looks at a pack that loads
// and gives what it finds, in the order of the rules.

#pragma once

#include "engine/audit/finding.h"

namespace kartwright {

/// Rules that can never speak (A001) and conditions that hold in every case (A002).
AuditFindings check_conditions(const Pack& pack);

/// Rules of one kind and target that say the same in the same cases (A003), or one only in fewer
/// (A004).
AuditFindings check_twins(const Pack& pack);

/// Values that rules test and nothing brings about (A005), and facts that nothing reads (A006).
AuditFindings check_facts(const Pack& pack);

/// Facts that depend on their own absence in some case (R003), every way round printed.
AuditFindings check_cycles(const Pack& pack);

/// Axes that no effect moves (A007), symptoms that no rule reads (A008).
AuditFindings check_reach(const Pack& pack);

/// Effects of one adjustment that pull an axis both ways at once (A009: a warning, a note where
/// both are contested), and readings that contradict each other at once (A010), each with its
/// witness.
AuditFindings check_opposites(const Pack& pack);

/// Spreads and correlations that cannot be (R002).
AuditFindings check_prior(const Pack& pack);

}  // namespace kartwright
