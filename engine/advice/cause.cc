#include "engine/advice/cause.h"

#include <algorithm>
#include <cmath>

#include "engine/inference/readings.h"

namespace kartwright {
namespace {

bool waits(const EffectRule& rule) { return rule.when.op != Condition::Op::always; }

/// True where some rule with a condition moves an axis the other way than `mean`.
bool opposed(const Adjustment& adjustment, std::size_t axis, double mean) {
  for (const EffectRule& rule : adjustment.effects) {
    if (!waits(rule)) continue;
    for (const Cell& cell : rule.cells) {
      if (cell.axis == axis && cell.mean * mean < 0.0) return true;
    }
  }
  return false;
}

CellChange change_of(const Cell& cell, const Adjustment& adjustment) {
  const std::optional<double> from = usual_effect(adjustment, cell.axis);
  const double usual = from.value_or(0.0);
  const bool turns =
      usual * cell.mean < 0.0 || (usual == 0.0 && opposed(adjustment, cell.axis, cell.mean));
  return {.axis = cell.axis, .from = from, .to = cell.mean, .turns = turns};
}

/// Notches of severity at one phase; 0 where the symptom does not read there.
double severity_moved(const Symptom& symptom, Phase phase, const Adjustment& adjustment,
                      const Pack& pack) {
  const auto row = symptom_row(symptom, phase, pack);
  if (!row) return 0.0;
  double sum = 0.0;
  for (std::size_t axis = 0; axis < pack.axes.size(); ++axis) {
    const double effect = usual_effect(adjustment, axis).value_or(0.0);
    sum += (*row)[static_cast<Eigen::Index>(axis)] * effect;
  }
  return sum / symptom.reading->value;
}

std::vector<Phase> phases_read(const Symptom& symptom, const Pack& pack) {
  if (!reads_by_phase(symptom, pack)) return {Phase::any};
  if (symptom.phases.empty()) return {Phase::entry, Phase::mid, Phase::exit};
  return symptom.phases;
}

void largest_first(std::vector<SymptomMove>& moves) {
  constexpr double kSame = 1e-9;
  std::stable_sort(moves.begin(), moves.end(), [](const SymptomMove& a, const SymptomMove& b) {
    return std::abs(a.notches) > std::abs(b.notches) + kSame;
  });
}

}  // namespace

std::optional<double> usual_effect(const Adjustment& adjustment, std::size_t axis) {
  double sum = 0.0;
  int rules = 0;
  for (const EffectRule& rule : adjustment.effects) {
    if (waits(rule)) continue;
    for (const Cell& cell : rule.cells) {
      if (cell.axis != axis) continue;
      sum += cell.mean;
      ++rules;
    }
  }
  return rules == 0 ? std::nullopt : std::optional(sum / rules);
}

bool EffectChange::turns() const {
  return std::any_of(cells.begin(), cells.end(), [](const CellChange& cell) { return cell.turns; });
}

std::vector<EffectChange> effect_changes(const Adjustment& adjustment) {
  std::vector<EffectChange> out;
  for (const EffectRule& rule : adjustment.effects) {
    if (!waits(rule)) continue;
    EffectChange change{.rule = &rule};
    for (const Cell& cell : rule.cells) {
      const CellChange one = change_of(cell, adjustment);
      if (one.from != one.to) change.cells.push_back(one);
    }
    out.push_back(std::move(change));
  }
  return out;
}

std::optional<SymptomMove> symptom_move(const Symptom& symptom, const Adjustment& adjustment,
                                        const Pack& pack) {
  if (!symptom.reading) return std::nullopt;
  SymptomMove most{.symptom = &symptom, .adjustment = &adjustment};
  for (const Phase phase : phases_read(symptom, pack)) {
    const double notches = severity_moved(symptom, phase, adjustment, pack);
    if (std::abs(notches) <= std::abs(most.notches)) continue;
    most.phase = phase;
    most.notches = notches;
  }
  if (std::abs(most.notches) < kWorthNaming) return std::nullopt;
  most.contested =
      std::any_of(adjustment.effects.begin(), adjustment.effects.end(),
                  [](const EffectRule& rule) { return !waits(rule) && rule.contested; });
  return most;
}

std::vector<SymptomMove> symptoms_moved(const Adjustment& adjustment, const Pack& pack) {
  std::vector<SymptomMove> out;
  for (const Symptom& symptom : pack.symptoms) {
    if (const auto move = symptom_move(symptom, adjustment, pack)) out.push_back(*move);
  }
  largest_first(out);
  return out;
}

std::vector<SymptomMove> movers_of(const Symptom& symptom, const Pack& pack) {
  std::vector<SymptomMove> out;
  for (const Adjustment& adjustment : pack.adjustments) {
    if (const auto move = symptom_move(symptom, adjustment, pack)) out.push_back(*move);
  }
  largest_first(out);
  return out;
}

}  // namespace kartwright
