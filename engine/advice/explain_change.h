// explain_change.h - a ranked move with its reasons, and a refused one with its single reason.

#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/advice/advice.h"
#include "engine/advice/load_reason.h"
#include "engine/inference/situation.h"

namespace kartwright {

/// What is told of a move to a place whatever was said of the handling: by what the adjustment
/// does, the facts and the loads alone.
struct Grounds {
  std::string from = {}, to = {};   ///< as a kart file writes them
  std::vector<Because> rules = {};  ///< of the effect
  std::optional<LoadReason> loads = {};
  std::vector<std::string_view> cautions = {};  ///< texts, in the pack
};

Grounds grounds_of(const Option& option, const Effect& effect, const Advice& advice,
                   const Situation& situation);

/// Explains the changes of one advice, whose readings and belief are settled. All that it is made
/// of must outlive it.
class ChangeExplainer {
 public:
  ChangeExplainer(const Advice& advice, const Situation& situation)
      : advice_(advice), situation_(situation) {}

  Change explain(const Candidate& candidate, const Effect& effect, const Grounds& grounds);

 private:
  /// What every reading has to do with the belief on an axis, most first.
  struct Shares {
    std::vector<std::pair<std::size_t, double>> sizes = {};
    std::vector<Because> told = {};
  };
  const Shares& shares_on(std::size_t axis);
  void add_shares(Change& change);
  void add_records(Change& change, const Effect& effect) const;

  const Advice& advice_;
  const Situation& situation_;
  std::map<std::size_t, Shares> shares_ = {};  ///< by axis, made when one is asked for
};

/// Why the change works, in a sentence: the rules tell it of the first direction, and the second
/// "undoes what rear wider does: ...". Empty where nothing is told.
std::string mechanism_of(const Change& change);

NotNow explain_refusal(const Refused& refused, const Situation& situation, System units,
                       double minutes_left);

}  // namespace kartwright
