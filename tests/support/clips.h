// clips.h - asks CLIPS what follows from ground rules. It is a forward chainer of its own kind (a
// Rete network) and shares nothing with ours.
//
// CLIPS denies what is not there yet and does not take back what it concluded from that, so rules
// are given a salience by layer. The layers are worked out here, in a way of their own.

#pragma once

#include <string>
#include <vector>

#include "engine/inference/chain.h"

namespace kartwright {

/// A rule set, and the facts to start from, one list a case.
struct ClipsRules {
  Program program;
  std::vector<std::vector<Atom>> cases;
};

/// Where the program is, or empty where it is not installed.
std::string clips_program();

/// The layer of each clause, found by raising layers until no clause objects. REQUIRES: the rules
/// have layers.
std::vector<int> layers_by_raising(const Program& program);

/// Runs a batch file, which must end in (exit 0). Gives what it printed. Throws std::runtime_error
/// with all that was said where it does not end so, or takes more than `seconds`.
std::string run_clips(const std::string& batch_path, int seconds);

/// By rule set, then by case: the atoms that hold in the end, ascending. All in one process, which
/// is cleared between two sets and reset between two cases. Throws as run_clips.
std::vector<std::vector<std::vector<Atom>>> asked_of_clips(const std::vector<ClipsRules>& sets);

}  // namespace kartwright
