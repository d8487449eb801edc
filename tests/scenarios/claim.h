// claim.h - one thing that the trade says of a kart, in a form that any rule pack can be held to.
//
// A claim is a case (as a debrief file has it) and what must come of it: which way a move goes,
// where the belief or the odds of a fault go, what a measured check finds. Ways and orders, no
// sizes: what a crew chief knows without having seen what the program prints. Files of claims are
// in tests/scenarios/claims/.

#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/advice/gauge_readings.h"
#include "tests/scenarios/expectation.h"

namespace kartwright {

/// Where something stands against what it is compared with: beyond a hundredth of a notch above or
/// below it, or neither.
enum class ClaimedSense { more, less, same };
std::string_view name_of(ClaimedSense sense);

/// A kart and what is said of it. Without a kart the typical one stands.
struct ClaimedCase {
  Debrief debrief = {};
  std::optional<Kart> kart = {};
};

/// Of axes, a family of the pack stands for each of its axes.
using AxisWays = std::vector<std::pair<std::string, ClaimedSense>>;

using FactValues = std::vector<std::pair<std::string, std::string>>;

/// Everything but `says` is optional; a claim that names nothing to hold is a mistake.
struct Claim {
  std::string says;  ///< in the trade's words
  Source source;
  ClaimedCase on = {};
  std::optional<ClaimedCase> than = {};  ///< what it is held against; none: a kart of
                                         ///< which nothing is known

  std::optional<NamedMove> move = {};   ///< one reference step
  AxisWays does = {};                   ///< what the move does
  std::string most = {};                ///< an axis that it moves as far as any
  std::vector<std::string> open = {};   ///< facts that would settle what it does
  std::optional<bool> disputed = {};    ///< the rule behind it says that it is
  std::vector<NamedMove> outdoes = {};  ///< steps that do less on that axis, either way

  AxisWays reads = {};      ///< where the belief goes
  std::string mostly = {};  ///< an axis on which it goes as far as on any
  AxisWays ahead = {};      ///< what the track brings by itself
  FactValues holds = {};    ///< facts, stated or concluded
  std::vector<std::string> likelier = {}, unlikelier = {};  ///< faults
  std::vector<std::string> doubtful = {};                   ///< under one in two
  std::vector<std::string> certain = {};                    ///< at nine in ten or more
  std::vector<std::string> cleared = {};  ///< to under a tenth of what their odds were
  std::vector<std::string> asks = {};     ///< facts that the crew is asked for
  std::optional<bool> stops = {};         ///< the advice is not to send the kart out

  std::string check = {};                ///< a gauge ...
  GivenWords given = {};                 ///< ... and what was measured
  std::optional<bool> in_order = {};     ///< it finds nothing wrong
  std::optional<bool> not_run = {};      ///< it says not to run the kart
  std::vector<std::string> judges = {};  ///< figures that it says something of
  FactValues states = {};                ///< facts it hands to the advice
};

/// Reads a file of claims against a pack, adding every mistake to `findings`. REQUIRES: the pack
/// outlives the claims.
std::vector<Claim> read_claims(const Document& document, const Pack& pack, Findings& findings);

/// All files of claims of the project, read as YAML once, by name.
std::vector<Document> claim_documents();

/// Every part of a claim that a pack does not keep, a sentence each. Throws InputError where the
/// pack itself cannot be used.
std::vector<std::string> not_kept(const Claim& claim, const Pack& pack);

}  // namespace kartwright
