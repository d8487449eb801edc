#include "engine/records/calibration.h"

#include <algorithm>
#include <cmath>

#include "engine/algebra/distributions.h"
#include "engine/algebra/solving.h"
#include "engine/records/clock_of_runs.h"

namespace kartwright {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// How many standard deviations a share of a normal distribution lies within.
double within_share(double share) { return normal_quantile(0.5 + share / 2.0); }

/// Share below x of the error of a difference of two numbers that were rounded to whole ones.
double rounded_below(double x) {
  const double to_end = 1.0 - std::min(std::abs(x), 1.0);
  const double beyond = to_end * to_end / 2.0;
  return x < 0.0 ? beyond : 1.0 - beyond;
}

void count_intervals(const Foretelling::Difference& each, Calibration& out) {
  constexpr double kRounding = 2.0 / 12.0;  // its variance, which the spread holds
  const double sd = std::sqrt(std::max(0.0, each.sd * each.sd - kRounding));
  for (Held& held : out.intervals) {
    const double half = within_share(held.promised) * sd;
    ++held.of;
    held.held += rounded_below(each.foretold + half - each.came) -
                 rounded_below(each.foretold - half - each.came);
  }
}

/// The strongest complaint before each step, and whether it was eased as foretold.
void count_complaint(const DayOfRuns& day, std::size_t step, Calibration& out) {
  double worst = 0.0;
  double by_rules = 0.0;
  double change = 0.0;
  for (const DaySayings& saying : day.sayings) {
    const auto& before = saying.runs[step];
    const auto& after = saying.runs[step + 1];
    if (!before || !after || std::abs(before->value) <= worst) continue;
    worst = std::abs(before->value);
    const double sign = before->value > 0.0 ? 1.0 : -1.0;
    by_rules = sign * saying.row.dot(day.by_rules[step]);
    change = sign * (after->value - before->value);
  }
  if (worst == 0.0 || by_rules >= 0.0) return;
  ++(change < 0.0 ? out.eased : change > 0.0 ? out.worse : out.same);
}

double squares_of(const Run& run) {
  double sum = 0.0;
  for (const Report& report : run.reports) sum += report.severity * report.severity;
  return sum;
}

void count_clock(const DayOfRuns& day, std::size_t step, Calibration& out) {
  const std::vector<const Run*> until(day.runs.begin(),
                                      day.runs.begin() + static_cast<std::ptrdiff_t>(step) + 2);
  const ClockVerdict verdict = verdict_on_last(until);
  if (verdict == ClockVerdict::keep) ++out.faster;
  if (verdict == ClockVerdict::revert) ++out.slower;
  if (verdict == ClockVerdict::not_settled) ++out.not_settled;
}

/// What advice promised of the changes before a run, and what the debriefs found.
void count_advice(const DayOfRuns& day, std::size_t step, Calibration& out) {
  const Run& before = *day.runs[step];
  const Run& after = *day.runs[step + 1];
  const auto advised = std::find_if(after.changes.begin(), after.changes.end(), [](const auto& c) {
    return c.origin == Origin::advice && c.relief;
  });
  if (advised == after.changes.end()) return;
  ++out.advised;
  out.promised_share += *advised->relief;
  count_clock(day, step, out);
  const auto spoke = [](const Run& run) { return run.complete || !run.reports.empty(); };
  if (!spoke(before) || !spoke(after)) return;
  out.squares_before += squares_of(before);
  out.squares_after += squares_of(after);
}

}  // namespace

Foretelling::Foretelling(const std::vector<Effect>& effects)
    : axes_(effects.empty() ? 0 : effects.front().per_step.size()) {
  const Index all = axes_ * static_cast<Index>(effects.size());
  mean_ = VectorXd::Zero(all);
  covariance_ = MatrixXd::Zero(all, all);
  for (std::size_t j = 0; j < effects.size(); ++j) {
    const Index from = static_cast<Index>(j) * axes_;
    covariance_.block(from, from, axes_, axes_) = effects[j].covariance;
  }
}

Foretelling::Expected Foretelling::expected(const DayEquations& equations) const {
  const Index n = equations.seen.size();
  Expected out{VectorXd::Zero(n), equations.error, MatrixXd::Zero(mean_.size(), n)};
  // Only the effects that were moved are in the equations.
  const auto design = [&](std::size_t b) {
    return equations.design.middleCols(static_cast<Index>(b) * axes_, axes_);
  };
  for (std::size_t b = 0; b < equations.moved.size(); ++b) {
    const Index from = equations.moved[b] * axes_;
    out.crossed += covariance_.middleCols(from, axes_) * design(b).transpose();
    out.mean += design(b) * mean_.segment(from, axes_);
  }
  for (std::size_t b = 0; b < equations.moved.size(); ++b)
    out.spread += design(b) * out.crossed.middleRows(equations.moved[b] * axes_, axes_);
  out.spread = (out.spread + out.spread.transpose()).eval() / 2.0;
  return out;
}

std::vector<Foretelling::Difference> Foretelling::take(const DayOfRuns& day) {
  std::vector<Difference> out;
  const DayEquations whole = equations_of(day.steps, day.whole);
  if (whole.seen.size() == 0) return out;
  const Expected told = expected(whole);
  for (Index i = 0; i < whole.seen.size(); ++i) {
    out.push_back({whole.steps[static_cast<std::size_t>(i)], told.mean[i],
                   std::sqrt(told.spread(i, i)), whole.seen[i]});
  }
  const DayEquations equations = equations_of(day.steps, day.sayings);
  if (equations.seen.size() == 0) return out;
  const Expected all = expected(equations);
  const Definite factor(all.spread);
  mean_ += all.crossed * factor.solve(VectorXd(equations.seen - all.mean));
  covariance_ -= all.crossed * factor.solve(MatrixXd(all.crossed.transpose()));
  return out;
}

Calibration calibrate(const std::vector<Run>& runs, const Pack& pack, const Kart& kart,
                      const std::vector<Effect>& effects) {
  Calibration out;
  if (pack.learning.drift <= 0.0) return out;
  Foretelling foretelling(effects);
  const DayReader reader(pack, rules_for(pack, kart));
  for (const std::vector<const Run*>& of_day : cut_into_days(runs)) {
    const DayOfRuns day = reader.day(of_day);
    for (const auto& each : foretelling.take(day)) {
      if (day.used[each.step].changes > 0) count_intervals(each, out);
    }
    for (std::size_t step = 0; step < day.steps.size(); ++step) {
      if (day.used[step].changes == 0) continue;
      count_complaint(day, step, out);
      count_advice(day, step, out);
    }
  }
  if (out.advised > 0) out.promised_share /= out.advised;
  return out;
}

}  // namespace kartwright
