#include "engine/records/compare.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/algebra/distributions.h"
#include "engine/algebra/regression.h"

namespace kartwright {

namespace {

constexpr double kTwoSided = 0.975;
constexpr double kPower = 0.80;
constexpr double kWild = 3.5;
constexpr double kOrderConfounds = 3.0;  // a plain before-and-after inflates the variance by four
constexpr int kEnoughOfEach = 10;
constexpr int kMostToDrive = 10'000;
constexpr std::array<std::string_view, 3> kVerdicts{"keep", "revert", "not-settled"};

/// The settings that were driven, ascending; the first of them is what others are held against.
std::vector<std::size_t> settings_of(const std::vector<TimedLap>& laps) {
  std::vector<std::size_t> all;
  for (const TimedLap& lap : laps) all.push_back(lap.setting);
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

double middle_of(const std::vector<TimedLap>& laps) {
  double middle = 0.0;
  for (const TimedLap& lap : laps) middle += lap.number / static_cast<double>(laps.size());
  return middle;
}

/// Columns: the constant, the lap number from its middle, one for each setting but the first.
Eigen::MatrixXd design_of(const std::vector<TimedLap>& laps,
                          const std::vector<std::size_t>& settings) {
  const auto n = static_cast<Eigen::Index>(laps.size());
  Eigen::MatrixXd x = Eigen::MatrixXd::Zero(n, static_cast<Eigen::Index>(settings.size()) + 1);
  const double middle = middle_of(laps);
  for (Eigen::Index i = 0; i < n; ++i) {
    const TimedLap& lap = laps[static_cast<std::size_t>(i)];
    x(i, 0) = 1.0;
    x(i, 1) = lap.number - middle;
    const auto at = std::lower_bound(settings.begin(), settings.end(), lap.setting);
    if (at != settings.begin()) x(i, 1 + (at - settings.begin())) = 1.0;
  }
  return x;
}

/// How much of one column the others explain, as the inflation of its variance.
double inflation_of(const Eigen::MatrixXd& x, Eigen::Index column) {
  Eigen::MatrixXd others(x.rows(), x.cols() - 1);
  others << x.leftCols(column), x.rightCols(x.cols() - column - 1);
  const auto fit = least_squares(others, x.col(column));
  return fit ? 1.0 / std::max(1.0 - fit->r_squared, 1e-12) : 1e12;
}

struct Fitted {
  ClockFit fit;
  Eigen::VectorXd residuals;
};

std::optional<Fitted> fit_of(const std::vector<TimedLap>& laps,
                             const std::vector<std::size_t>& settings) {
  const Eigen::MatrixXd x = design_of(laps, settings);
  Eigen::VectorXd y(x.rows());
  for (Eigen::Index i = 0; i < y.size(); ++i) y[i] = laps[static_cast<std::size_t>(i)].seconds;
  const auto found = least_squares(x, y);
  if (!found) return {};
  Fitted out{.fit = {}, .residuals = found->residuals};
  ClockFit& fit = out.fit;
  fit.start = found->coefficients[0];
  fit.middle = middle_of(laps);
  fit.drift = found->coefficients[1];
  fit.drift_error = found->standard_errors[1];
  fit.residual_sd = found->residual_sd;
  fit.degrees_of_freedom = found->degrees_of_freedom;
  const double wide = student_quantile(kTwoSided, found->degrees_of_freedom);
  for (std::size_t i = 1; i < settings.size(); ++i) {
    const auto column = static_cast<Eigen::Index>(i) + 1;
    const double effect = found->coefficients[column];
    const double error = found->standard_errors[column];
    fit.effects.push_back({settings[i], effect, error, effect - wide * error, effect + wide * error,
                           inflation_of(x, column)});
  }
  return out;
}

double median_of(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  const double above = *middle;
  return (above + *std::max_element(values.begin(), middle)) / 2.0;
}

/// Which of the residuals lie beyond 3.5 robust standard deviations of their median, those only
/// that come near the farthest: one far off lap pulls all of a short group the other way.
std::vector<std::size_t> wild_among(const Eigen::VectorXd& residuals) {
  constexpr double kNormal = 1.4826;  // median absolute deviation of a normal one to its sd
  constexpr double kNearFarthest = 0.7;
  const std::vector<double> all(residuals.begin(), residuals.end());
  const double middle = median_of(all);
  std::vector<double> off;
  for (const double each : all) off.push_back(std::abs(each - middle));
  const double scale = kNormal * median_of(off);
  if (scale == 0.0) return {};
  const double farthest = *std::max_element(off.begin(), off.end());
  const double beyond = std::max(kWild * scale, kNearFarthest * farthest);
  std::vector<std::size_t> wild;
  for (std::size_t i = 0; i < off.size(); ++i) {
    if (off[i] > beyond) wild.push_back(i);
  }
  return wild;
}

struct Tamed {
  std::vector<std::size_t> wild;
  std::optional<ClockFit> fit;
};

/// Leaves wild laps out until none is left: one far off lap hides others.
Tamed tame(const std::vector<TimedLap>& laps, const std::vector<std::size_t>& settings,
           const Eigen::VectorXd& residuals) {
  constexpr int kMostRounds = 40;
  Tamed out;
  std::vector<TimedLap> kept = laps;
  std::vector<std::size_t> index(laps.size());
  for (std::size_t i = 0; i < index.size(); ++i) index[i] = i;
  Eigen::VectorXd now = residuals;
  for (int round = 0; round < kMostRounds; ++round) {
    const std::vector<std::size_t> wild = wild_among(now);
    if (wild.empty()) break;
    for (const std::size_t at : wild) {
      out.wild.push_back(index[at]);
      index[at] = laps.size();
    }
    std::erase(index, laps.size());
    kept.clear();
    for (const std::size_t at : index) kept.push_back(laps[at]);
    const auto fitted = fit_of(kept, settings);
    out.fit.reset();
    if (!fitted) break;
    out.fit = fitted->fit;
    now = fitted->residuals;
  }
  std::sort(out.wild.begin(), out.wild.end());
  return out;
}

ClockVerdict side_of(const SettingEffect& effect) {
  if (effect.high < 0.0) return ClockVerdict::keep;
  return effect.low > 0.0 ? ClockVerdict::revert : ClockVerdict::not_settled;
}

/// The standard error falls as the root of the laps, while t comes down with them: so what can be
/// settled only falls, and the least number of laps is found by halving.
int laps_to_settle(const ClockFit& fit, const SettingEffect& effect, std::size_t driven,
                   double worth) {
  const auto n = static_cast<double>(driven);
  const double figures = n - fit.degrees_of_freedom;
  const auto settled_with = [&](int more) {
    const double free = n + more - figures;
    const double error = effect.error * std::sqrt(n / (n + more));
    return (student_quantile(kTwoSided, free) + student_quantile(kPower, free)) * error <= worth;
  };
  int least = 0;
  int most = kMostToDrive;
  while (least < most) {
    const int middle = (least + most) / 2;
    settled_with(middle) ? most = middle : least = middle + 1;
  }
  return most;
}

/// True where drift and change cannot be told apart by the order they were driven in.
bool confounded(const SettingEffect& effect, const std::vector<TimedLap>& laps) {
  if (effect.inflation < kOrderConfounds) return false;
  const auto of = [&](std::size_t setting) {
    return std::count_if(laps.begin(), laps.end(),
                         [&](const TimedLap& lap) { return lap.setting == setting; });
  };
  const std::size_t first =
      std::min_element(laps.begin(), laps.end(), [](const TimedLap& a, const TimedLap& b) {
        return a.setting < b.setting;
      })->setting;
  return std::min(of(first), of(effect.setting)) < kEnoughOfEach;
}

ClockJudgement judged(const Comparison& all, std::size_t at, const std::vector<TimedLap>& laps,
                      double worth) {
  const SettingEffect& effect = all.fit.effects[at];
  ClockJudgement out{.setting = effect.setting, .verdict = side_of(effect)};
  if (out.verdict == ClockVerdict::not_settled) out.reason = Unsettled::spread;
  const bool tamed_away = !all.wild.empty() && !all.fit_tame;
  if (tamed_away || (all.fit_tame && side_of(all.fit_tame->effects[at]) != out.verdict))
    out.reason = Unsettled::wild_laps;
  if (confounded(effect, laps)) out.reason = Unsettled::order;
  if (out.reason != Unsettled::none) out.verdict = ClockVerdict::not_settled;
  out.laps_needed = laps_to_settle(all.fit, effect, laps.size(), worth);
  return out;
}

}  // namespace

std::string_view name_of(ClockVerdict verdict) {
  return kVerdicts.at(static_cast<std::size_t>(verdict));
}

std::optional<ClockVerdict> clock_verdict_named(std::string_view name) {
  const auto* const found = std::find(kVerdicts.begin(), kVerdicts.end(), name);
  if (found == kVerdicts.end()) return {};
  return static_cast<ClockVerdict>(found - kVerdicts.begin());
}

std::optional<Comparison> compare(const std::vector<TimedLap>& laps, double worth) {
  const std::vector<std::size_t> settings = settings_of(laps);
  if (settings.size() < 2) return {};
  auto fitted = fit_of(laps, settings);
  if (!fitted) return {};
  Comparison out{.fit = std::move(fitted->fit), .wild = {}, .fit_tame = {}, .judged = {}};
  Tamed tamed = tame(laps, settings, fitted->residuals);
  out.wild = std::move(tamed.wild);
  out.fit_tame = std::move(tamed.fit);
  for (std::size_t i = 0; i < out.fit.effects.size(); ++i)
    out.judged.push_back(judged(out, i, laps, worth));
  return out;
}

}  // namespace kartwright
