// task.h - one task of a drill: a kart, a track and what the driver said of it.
//
// A task comes from a case with a name, from a debrief file, or is drawn (draw_task.h). It holds no
// answer: what is right is worked out from it (marking.h), and how the kart answers as well
// (outcome.h).

#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <optional>
#include <string>

#include "engine/debrief/debrief.h"
#include "engine/debrief/sentence.h"
#include "engine/kart/kart.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

struct DrillTask {
  std::string id = {};     ///< of a case with a name, or the path of a file; empty: drawn
  std::string level = {};  ///< id; empty: a file's
  std::string title = {};  ///< empty: drawn
  std::string because =
      {};  ///< why the best answer is right, in words; empty: from the rules alone
  std::uint64_t seed = 1;
  Kart kart = {};
  Debrief debrief = {};
  std::string said = {};
  /// What the kart truly does, notches by axis; none: it is drawn from what is believed.
  std::optional<Eigen::VectorXd> truth = {};
};

/// A case with a name, on the typical kart with what the case moves and limits. Throws InputError
/// where the case asks for what no kart can be. The pack must outlive the task.
DrillTask named_task(const DrillCase& drill, const Pack& pack, Ear& ear, std::uint64_t seed);

/// A debrief file with its kart; `title` and `because` may stand there. Throws InputError.
DrillTask task_from_file(const std::string& path, const Pack& pack, std::uint64_t seed);

/// Puts a setting where a case has it, and its class limit. What cannot be is told in `findings`.
void put_settings(const DrillCase& drill, Kart& kart, Findings& findings);

/// The kart that a drill starts from.
Kart practice_kart(const Pack& pack);

}  // namespace kartwright
