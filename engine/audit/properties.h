// properties.h - does a rule pack keep what it claims of all its advice?
//
// Trials, not proofs: every claim is held against many cases, the same ones each time.

#pragma once

#include <vector>

#include "engine/audit/property_trials.h"
#include "engine/document/diagnostic.h"

namespace kartwright {

/// An error for each property of the pack that does not hold, at its place in the rules, with the
/// first case that breaks it. Takes under a second on the built-in rules. Throws InputError where
/// the pack itself cannot be used, as advise does.
std::vector<Diagnostic> check_properties(const Pack& pack, const TrialSize& size = {});

}  // namespace kartwright
