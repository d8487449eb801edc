#include "engine/practice/outcome.h"

#include <algorithm>
#include <cmath>

#include "engine/decision/gaussian.h"
#include "engine/decision/headline.h"
#include "engine/practice/dice.h"

namespace kartwright {
namespace {

using Eigen::VectorXd;

constexpr std::uint64_t kTruth = 1;  ///< tells the dice of the truth from those of the drawing
constexpr int kMostNew = 2;          ///< new complaints that a driver makes
constexpr double kFullyTold = 0.5;

/// What is true of a task, whatever is answered.
struct Truth {
  VectorXd z;
  std::vector<VectorXd> effects;  ///< by adjustment
  std::vector<bool> faults;       ///< by fault
};

/// The fault of a broken kart that a case was written about: it is there, and no dice are asked.
bool is_certain(std::size_t fault, const Marking& marking) {
  const DrillTask& task = marking.task();
  const DrillLevel* const level = marking.pack().drills.level(task.level);
  const DrillChoice& best = marking.best();
  return !task.id.empty() && level != nullptr && level->broken &&
         best.kind == DrillChoice::Kind::check && best.fault == fault;
}

Truth truth_of(const Marking& marking) {
  const Advice& advice = marking.advice();
  DrillDice dice{marking.task().seed, kTruth};
  Truth truth;
  truth.z = Gaussian(advice.belief.mean, advice.belief.covariance).draw(dice.engine());
  if (marking.task().truth) truth.z = *marking.task().truth;
  for (const Effect& effect : advice.effects) {
    VectorXd drawn = VectorXd::Zero(truth.z.size());
    if (effect.known()) drawn = Gaussian(effect.per_step, effect.covariance).draw(dice.engine());
    truth.effects.push_back(std::move(drawn));
  }
  for (std::size_t i = 0; i < marking.pack().faults.size(); ++i) {
    const bool drawn = dice.share() < marking.probability_of_fault(i);
    truth.faults.push_back(drawn || is_certain(i, marking));
  }
  return truth;
}

/// What a symptom at a phase reads, in notches of severity; nothing where it reads on no axis.
std::optional<double> severity_at(const Symptom& symptom, Phase phase, const VectorXd& z,
                                  const Pack& pack) {
  const auto row = symptom_row(symptom, phase, pack);
  if (!row || !symptom.reading) return std::nullopt;
  return row->dot(z) / symptom.reading->value;
}

int whole_severity(double severity) {
  constexpr double kMost = 3.0;
  return static_cast<int>(std::lround(std::clamp(severity, 0.0, kMost)));
}

std::vector<Felt> complaints_after(const Marking& marking, const VectorXd& before,
                                   const VectorXd& after) {
  std::vector<Felt> out;
  for (const Report& report : marking.task().debrief.heard.reports) {
    const Symptom* const symptom = marking.pack().symptom(report.symptom);
    if (report.denied() || symptom == nullptr) continue;
    const auto was = severity_at(*symptom, report.phase, before, marking.pack());
    const auto is = severity_at(*symptom, report.phase, after, marking.pack());
    const double moved = was && is ? *is - *was : 0.0;
    out.push_back({.symptom = report.symptom,
                   .phase = report.phase,
                   .before = report.severity,
                   .after = whole_severity(report.severity + moved)});
  }
  return out;
}

bool complained_of(const std::vector<Felt>& felt, const std::string& symptom) {
  return std::any_of(felt.begin(), felt.end(), [&](const Felt& f) { return f.symptom == symptom; });
}

/// What was under half a notch before and reads a notch now, worst first, each symptom once.
std::vector<Felt> new_complaints(const Marking& marking, const VectorXd& before,
                                 const VectorXd& after, const std::vector<Felt>& felt) {
  std::vector<std::pair<double, Felt>> found;
  for (const Symptom& symptom : marking.pack().symptoms) {
    if (complained_of(felt, symptom.id)) continue;
    for (const Phase phase : symptom.phases) {
      const auto was = severity_at(symptom, phase, before, marking.pack());
      const auto is = severity_at(symptom, phase, after, marking.pack());
      if (!was || !is || *was >= kFullyTold || *is < 1.0) continue;
      found.push_back({*is, {symptom.id, phase, 0, whole_severity(*is)}});
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<Felt> out;
  for (auto& [severity, each] : found) {
    if (out.size() < kMostNew && !complained_of(out, each.symptom)) out.push_back(std::move(each));
  }
  return out;
}

/// The kart after the change; another answer leaves it as it is.
VectorXd after_change(const DrillChoice& choice, const Marking& marking, const Truth& truth) {
  if (choice.kind != DrillChoice::Kind::change) return truth.z;
  return truth.z + marking.option_of(choice).steps * truth.effects[choice.way / 2];
}

}  // namespace

double DrillOutcome::relief() const {
  return error_before < kSmallLoss ? 0.0 : 1.0 - error_after / error_before;
}

DrillOutcome outcome_of(const DrillChoice& choice, const Marking& marking) {
  const Truth truth = truth_of(marking);
  const VectorXd after = after_change(choice, marking, truth);
  const VectorXd& weights = marking.advice().weights;
  DrillOutcome out{.felt = complaints_after(marking, truth.z, after),
                   .error_before = weights.dot(truth.z.cwiseAbs2()),
                   .error_after = weights.dot(after.cwiseAbs2())};
  for (Felt& each : new_complaints(marking, truth.z, after, out.felt))
    out.felt.push_back(std::move(each));
  const bool check = choice.kind == DrillChoice::Kind::check;
  if (check) out.found = truth.faults[choice.fault];
  for (const std::size_t fault : marking.stopping()) {
    if (!truth.faults[fault] || (check && fault == choice.fault)) continue;
    const double loss = marking.pack().faults[fault].loss;
    out.error_before += loss * loss;
    out.error_after += loss * loss;
    out.out_with.push_back(fault);
  }
  return out;
}

}  // namespace kartwright
