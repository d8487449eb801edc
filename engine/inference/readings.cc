#include "engine/inference/readings.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "engine/knowledge/engine_facts.h"

namespace kartwright {
namespace {

Eigen::Index axis_at(std::size_t axis) { return static_cast<Eigen::Index>(axis); }

/// How many phases a family has among the axes.
double phases_of(const Pack& pack, const std::string& family) {
  return static_cast<double>(std::count_if(
      pack.axes.begin(), pack.axes.end(), [&](const Axis& axis) { return axis.family == family; }));
}

/// A row from terms. A term names an axis, or a family: at `phase`, or, with no phase, the mean of
/// them.
Eigen::VectorXd row_of(const std::vector<RowTerm>& terms, std::optional<Phase> phase,
                       const Pack& pack) {
  Eigen::VectorXd row = Eigen::VectorXd::Zero(axis_at(pack.axes.size()));
  for (const RowTerm& term : terms) {
    for (std::size_t i = 0; i < pack.axes.size(); ++i) {
      const Axis& axis = pack.axes[i];
      const bool named = axis.id == term.axis;
      const bool in_family = axis.family == term.axis;
      if (named || (in_family && phase && axis.phase == phase)) {
        row[axis_at(i)] += term.factor;
      } else if (in_family && !phase) {
        row[axis_at(i)] += term.factor / phases_of(pack, axis.family);
      }
    }
  }
  return row;
}

/// True where some term is a family with phases, so that the phase of a report matters.
bool depends_on_phase(const std::vector<RowTerm>& terms, const Pack& pack) {
  return std::any_of(terms.begin(), terms.end(), [&](const RowTerm& term) {
    return std::any_of(pack.axes.begin(), pack.axes.end(), [&](const Axis& axis) {
      return axis.family == term.axis && axis.phase.has_value();
    });
  });
}

double spread_of(const Report& report, const Hearing& hearing) {
  if (report.from_praise) return hearing.praise;
  return report.denied() ? hearing.denied : hearing.confidence_sd(report.confidence);
}

std::optional<Reading> read_report(const Report& report, const Situation& situation) {
  const Symptom* symptom = situation.pack.symptom(report.symptom);
  if (symptom == nullptr) return std::nullopt;
  std::optional<Eigen::VectorXd> row = symptom_row(*symptom, report.phase, situation.pack);
  if (!row) return std::nullopt;
  const Hearing& hearing = situation.pack.hearing;
  const SymptomReading& rule = *symptom->reading;
  const bool unsaid = report.phase == Phase::any && reads_by_phase(*symptom, situation.pack);
  if (unsaid && report.from_praise) row = row_of(rule.row, std::nullopt, situation.pack);

  Reading reading{.rule = rule.id, .source = &rule.source};
  reading.row = std::move(*row);
  reading.value = rule.value * report.severity;
  reading.sd = spread_of(report, hearing);
  reading.complaint = !report.denied();
  // Praise already speaks of the whole corner, with a spread of its own.
  if (unsaid && !report.from_praise) reading.sd *= hearing.unsaid_factor;
  if (reading.complaint && situation.facts.has(engine_facts::kLaps, "faster"))
    reading.sd *= hearing.faster_factor;
  reading.text = (report.denied() ? "no " : "") + symptom->label;
  if (report.phase != Phase::any) reading.text += " " + std::string(name_of(report.phase));
  return reading;
}

Reading read_rule(const ReadingRule& rule, const Situation& situation) {
  Reading reading{.rule = rule.id, .source = &rule.source};
  reading.row = row_of(rule.row, std::nullopt, situation.pack);
  reading.value = rule.value;
  reading.sd = rule.sd;
  reading.text = rule.because;
  if (!rule.per_measure.empty()) {
    MeasureTest test{.measure = rule.per_measure};
    const double above = excess_over_band(test, situation);
    test.side = MeasureTest::Side::below;
    reading.value *= (above - excess_over_band(test, situation)) / rule.per_amount;
  }
  return reading;
}

}  // namespace

bool reads_by_phase(const Symptom& symptom, const Pack& pack) {
  return symptom.reading && depends_on_phase(symptom.reading->row, pack);
}

std::optional<Eigen::VectorXd> symptom_row(const Symptom& symptom, Phase phase, const Pack& pack) {
  if (!symptom.reading) return std::nullopt;
  const bool phased = reads_by_phase(symptom, pack);
  if (phased && phase == Phase::straight) return std::nullopt;
  const bool unsaid = phased && phase == Phase::any;
  return row_of(symptom.reading->row, unsaid ? symptom.reading->unsaid : phase, pack);
}

std::vector<Reading> take_readings(const Situation& situation) {
  std::vector<Reading> readings;
  for (std::size_t i = 0; i < situation.reports.size(); ++i) {
    std::optional<Reading> reading = read_report(situation.reports[i], situation);
    if (!reading) continue;
    reading->report = static_cast<int>(i);
    readings.push_back(std::move(*reading));
  }
  for (const ReadingRule& rule : situation.pack.readings) {
    if (holds(rule.when, situation)) readings.push_back(read_rule(rule, situation));
  }
  const auto phase = [&](const Reading& r) {
    return r.report < 0 ? Phase::any : situation.reports[static_cast<std::size_t>(r.report)].phase;
  };
  std::stable_sort(readings.begin(), readings.end(), [&](const Reading& a, const Reading& b) {
    return std::tuple(std::string_view(a.rule), phase(a)) <
           std::tuple(std::string_view(b.rule), phase(b));
  });
  return readings;
}

}  // namespace kartwright
