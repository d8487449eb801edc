// cause.h - cause and effect, worked out from the effect rules alone: what a step of an adjustment
// does to each axis, where that changes or turns round, and which symptoms it eases and feeds.
//
// Everything is in notches for one reference step in direction 0 (+).

#pragma once

#include <optional>
#include <vector>

#include "engine/knowledge/pack.h"

namespace kartwright {

/// What a symptom must be moved by to be worth naming, in notches of its severity.
inline constexpr double kWorthNaming = 0.1;

/// The mean over the rules without a condition that name an axis; nothing where none does.
std::optional<double> usual_effect(const Adjustment& adjustment, std::size_t axis);

/// One axis that a rule with a condition moves otherwise than usual.
struct CellChange {
  std::size_t axis = 0;
  std::optional<double> from;  ///< usually; nothing: not moved
  double to = 0.0;
  /// The sign is the other one; or usually it is neither, and another condition gives the other.
  bool turns = false;
};

/// What a rule with a condition changes against the usual.
struct EffectChange {
  const EffectRule* rule = nullptr;  ///< of the adjustment, which outlives it
  std::vector<CellChange> cells = {};
  bool turns() const;  ///< true where any cell turns
};

/// One for each rule with a condition, in the order of the rules. Cells that it leaves as they
/// usually are do not appear.
std::vector<EffectChange> effect_changes(const Adjustment& adjustment);

/// What a step does to the severity of a symptom.
struct SymptomMove {
  const Symptom* symptom = nullptr;        ///< of the pack
  const Adjustment* adjustment = nullptr;  ///< of the pack
  Phase phase = Phase::any;                ///< where most; `any`: the same everywhere
  double notches = 0.0;                    ///< above zero: more of it
  bool contested = false;                  ///< a rule without a condition is contested
};

/// On an ordinary day, at the phase where it is most. Nothing where the symptom has no reading or
/// the move is not worth naming.
std::optional<SymptomMove> symptom_move(const Symptom& symptom, const Adjustment& adjustment,
                                        const Pack& pack);

/// The symptoms that an adjustment moves, largest first.
std::vector<SymptomMove> symptoms_moved(const Adjustment& adjustment, const Pack& pack);
/// The adjustments that move a symptom, largest first.
std::vector<SymptomMove> movers_of(const Symptom& symptom, const Pack& pack);

}  // namespace kartwright
