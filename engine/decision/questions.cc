#include "engine/decision/questions.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "engine/decision/rank.h"

namespace kartwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// The symptoms that another one asks about as well.
bool asked_with_another(const Symptom& symptom, const Pack& pack) {
  return std::any_of(pack.symptoms.begin(), pack.symptoms.end(),
                     [&](const Symptom& other) { return other.against == symptom.id; });
}

/// Where to ask about a symptom that reads.
std::vector<Phase> phases_to_ask(const Symptom& symptom, const Pack& pack) {
  if (!reads_by_phase(symptom, pack)) return {Phase::any};
  if (symptom.phases.empty()) return {Phase::entry, Phase::mid, Phase::exit};
  return symptom.phases;
}

/// True where a question has its answer already.
bool answered(const Symptom& symptom, Phase phase, const std::vector<Report>& reports) {
  return std::any_of(reports.begin(), reports.end(), [&](const Report& report) {
    const bool about = report.symptom == symptom.id || report.symptom == symptom.against;
    return about && (phase == Phase::any || report.phase == Phase::any || report.phase == phase);
  });
}

/// How sure an answer would be.
double answer_sd(const Situation& situation) {
  const Hearing& hearing = situation.pack.hearing;
  return hearing.fair * (situation.facts.has("laps", "faster") ? hearing.faster_factor : 1.0);
}

std::vector<Question> symptom_questions(const Situation& situation) {
  const Pack& pack = situation.pack;
  std::vector<Question> out;
  for (const Symptom& symptom : pack.symptoms) {
    const bool asked = symptom.reading && !symptom.question.empty();
    if (!asked || asked_with_another(symptom, pack)) continue;
    for (const Phase phase : phases_to_ask(symptom, pack)) {
      const auto row = symptom_row(symptom, phase, pack);
      if (!row || row->isZero() || answered(symptom, phase, situation.reports)) continue;
      const double sign = symptom.reading->value < 0.0 ? -1.0 : 1.0;
      out.push_back({.symptom = &symptom,
                     .phase = phase,
                     .asked = {.row = sign * *row,
                               .sd = answer_sd(situation),
                               .two_sided = !symptom.against.empty()}});
    }
  }
  return out;
}

bool looks_at(const Condition& condition, std::string_view fact) {
  const auto* test = std::get_if<FactTest>(&condition.test);
  if (condition.op == Condition::Op::test && test != nullptr && test->fact == fact) return true;
  return std::any_of(condition.parts.begin(), condition.parts.end(),
                     [&](const Condition& part) { return looks_at(part, fact); });
}

bool read_by(const std::vector<ReadingRule>& readings, std::string_view fact) {
  return std::any_of(readings.begin(), readings.end(),
                     [&](const ReadingRule& rule) { return looks_at(rule.when, fact); });
}

/// What the worth of every fact is worked out from.
struct Moves {
  const BeforeChoosing& at;
  std::vector<SingleMove> moves;
  Gains gains = {};
  Situation supposing;  ///< to suppose values in
};

/// The gains of all moves under what is supposed. `waits`: the adjustments that look at it.
VectorXd gains_supposing(Moves& m, const VectorXd& mean, const std::vector<bool>& waits) {
  VectorXd now = m.gains.now + m.gains.tilt * (mean - m.at.belief.mean);
  Effect effect;
  for (std::size_t i = 0; i < m.moves.size(); ++i) {
    const auto [which, steps] = m.moves[i];
    if (!waits[which]) continue;
    const bool next = i == 0 || m.moves[i - 1].adjustment != which;
    if (next) effect = effect_supposing(m.at.situation.pack.adjustments[which], m.supposing);
    now[static_cast<Index>(i)] = gain_of(mean, m.at.weights, effect, steps).now;
  }
  return now;
}

std::vector<bool> waiting_for(std::string_view fact, const std::vector<Effect>& effects) {
  std::vector<bool> out;
  for (const Effect& effect : effects) {
    const std::vector<std::string>& open = effect.open_facts;
    out.push_back(std::find(open.begin(), open.end(), fact) != open.end());
  }
  return out;
}

double worth_of_fact(Moves& m, const FactDef& fact) {
  const bool reads = read_by(m.at.situation.pack.readings, fact.id);
  const std::vector<bool> waits = waiting_for(fact.id, m.at.effects);
  const bool matters = reads || std::find(waits.begin(), waits.end(), true) != waits.end();
  if (!matters || fact.priors.empty()) return 0.0;
  const std::vector<double> weights = value_weights(fact, m.supposing);
  MatrixXd gains = MatrixXd::Zero(m.gains.now.size(), static_cast<Index>(weights.size()));
  for (std::size_t v = 0; v < weights.size(); ++v) {
    if (weights[v] <= 0.0) continue;
    m.supposing.supposed[fact.id] = fact.values[v];
    const VectorXd mean =
        reads ? update(m.at.prior, take_readings(m.supposing)).mean : m.at.belief.mean;
    gains.col(static_cast<Index>(v)) = gains_supposing(m, mean, waits);
  }
  m.supposing.supposed.erase(fact.id);
  return worth_of_value(gains, Eigen::Map<const VectorXd>(weights.data(), gains.cols()));
}

/// The most worth first. What differs by rounding alone is a tie.
void sort_by_worth(std::vector<Question>& questions) {
  const auto key = [](const Question& question) {
    constexpr double kFine = 1e9;
    return std::tuple(-std::round(question.worth * kFine), question.id(), question.phase);
  };
  std::sort(questions.begin(), questions.end(),
            [&](const Question& a, const Question& b) { return key(a) < key(b); });
}

}  // namespace

std::vector<Question> questions(const BeforeChoosing& at) {
  constexpr double kNoError = 1e-12;
  constexpr double kPoints = 100.0;
  Moves m{.at = at, .moves = legal_moves(at.ways, at.effects), .supposing = at.situation};
  m.gains = gains_of(at.belief.mean, at.weights, m.moves, at.effects);
  const double loss = loss_of_nothing({.mean = at.belief.mean, .weights = at.weights});
  const double points = loss < kNoError ? 0.0 : kPoints / loss;
  std::vector<Question> out = symptom_questions(at.situation);
  for (Question& question : out) {
    question.worth = points * worth_of_answer(m.gains, at.belief, question.asked);
  }
  for (const FactDef& fact : at.situation.pack.facts) {
    if (fact.question.empty() || !fact.entered || at.situation.facts.stated(fact.id)) continue;
    out.push_back({.fact = &fact, .worth = points * worth_of_fact(m, fact)});
  }
  sort_by_worth(out);
  return out;
}

}  // namespace kartwright
