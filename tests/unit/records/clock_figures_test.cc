// The figures of the clock, held against least squares written out by the normal equations, and the
// wild laps against medians counted by hand.

#include <Eigen/Core>
#include <algorithm>
#include <cmath>

#include <boost/math/distributions/students_t.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/records/compare.h"
#include "tests/support/matrices.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

constexpr double kTight = 1e-8;

double t_quantile(double p, double free) {
  return boost::math::quantile(boost::math::students_t(free), p);
}

/// A constant, the lap number and a column for each of two other settings.
struct NormalEquations {
  Eigen::VectorXd found, errors;
  double residual_sd = 0.0;
  Eigen::MatrixXd inverse;
  Eigen::MatrixXd columns;

  NormalEquations(const std::vector<TimedLap>& laps, const std::vector<std::size_t>& others) {
    const auto n = static_cast<Eigen::Index>(laps.size());
    const auto p = static_cast<Eigen::Index>(2 + others.size());
    columns.resize(n, p);
    Eigen::VectorXd seconds(n);
    for (Eigen::Index i = 0; i < n; ++i) {
      const TimedLap& lap = laps[static_cast<std::size_t>(i)];
      columns(i, 0) = 1.0;
      columns(i, 1) = lap.number;
      for (std::size_t k = 0; k < others.size(); ++k)
        columns(i, 2 + static_cast<Eigen::Index>(k)) = lap.setting == others[k] ? 1.0 : 0.0;
      seconds[i] = lap.seconds;
    }
    inverse = plain_inverse(columns.transpose() * columns);
    found = inverse * (columns.transpose() * seconds);
    residual_sd = (seconds - columns * found).norm() / std::sqrt(static_cast<double>(n - p));
    errors = residual_sd * inverse.diagonal().cwiseSqrt();
  }

  /// How often larger the variance of a column's figure is than if it stood at right angles.
  double inflation(Eigen::Index column) const {
    const auto off = columns.col(column).array() - columns.col(column).mean();
    return inverse(column, column) * off.square().sum();
  }
};

/// Laps of settings 2, 7 and 4, not in the order of their numbers, with gaps in the lap numbers.
std::vector<TimedLap> three_settings() {
  std::vector<TimedLap> laps;
  int number = 3;
  for (const std::size_t setting : {7U, 2U, 4U, 2U, 7U, 4U, 2U}) {
    for (int i = 0; i < 4; ++i) {
      const double scatter = 0.01 * ((number * number) % 13 - 6);
      const double effect = setting == 7U ? -0.12 : setting == 4U ? 0.05 : 0.0;
      laps.push_back({number, 31.2 - 0.004 * number + effect + scatter, setting});
      number += i == 3 ? 3 : 1;
    }
  }
  return laps;
}

TEST(ClockFigures, AreThoseOfTheNormalEquations) {
  const std::vector<TimedLap> laps = three_settings();
  const NormalEquations by_hand(laps, {4, 7});
  const ClockFit fit = compare(laps, 0.1).value().fit;
  EXPECT_EQ(fit.degrees_of_freedom, 28 - 4);
  EXPECT_NEAR(fit.drift, by_hand.found[1], kTight);
  EXPECT_NEAR(fit.drift_error, by_hand.errors[1], kTight);
  EXPECT_NEAR(fit.residual_sd, by_hand.residual_sd, kTight);
  double middle = 0.0;
  for (const TimedLap& lap : laps) middle += lap.number;
  middle /= 28.0;
  EXPECT_NEAR(fit.middle, middle, kTight);
  EXPECT_NEAR(fit.start, by_hand.found[0] + by_hand.found[1] * middle, kTight);
  ASSERT_THAT(fit.effects, SizeIs(2));
  const double wide = t_quantile(0.975, 24.0);
  for (std::size_t i = 0; i < 2; ++i) {
    const SettingEffect& effect = fit.effects[i];
    const auto column = static_cast<Eigen::Index>(2 + i);
    EXPECT_EQ(effect.setting, i == 0 ? 4U : 7U) << "2 is the lowest, and the others stand to it";
    EXPECT_NEAR(effect.seconds, by_hand.found[column], kTight);
    EXPECT_NEAR(effect.error, by_hand.errors[column], kTight);
    EXPECT_NEAR(effect.low, effect.seconds - wide * effect.error, kTight);
    EXPECT_NEAR(effect.high, effect.seconds + wide * effect.error, kTight);
    EXPECT_NEAR(effect.inflation, by_hand.inflation(column), 1e-6);
  }
}

TEST(ClockFigures, TheLapsToDriveAreTheFewestThatSettleIt) {
  const std::vector<TimedLap> laps = three_settings();
  for (const double worth : {0.02, 0.035, 0.05, 0.1}) {
    const Comparison all = compare(laps, worth).value();
    for (std::size_t i = 0; i < 2; ++i) {
      int least = 0;
      for (;; ++least) {
        const double free = 24.0 + least;
        const double error = all.fit.effects[i].error * std::sqrt(28.0 / (28.0 + least));
        if ((t_quantile(0.975, free) + t_quantile(0.80, free)) * error <= worth) break;
      }
      EXPECT_EQ(all.judged[i].laps_needed, least) << worth;
      EXPECT_EQ(all.judged[i].setting, all.fit.effects[i].setting);
    }
  }
  EXPECT_GT(compare(laps, 0.02)->judged[0].laps_needed, 20);
  EXPECT_EQ(compare(laps, 1e-6)->judged[0].laps_needed, 10'000) << "nobody drives more";
}

TEST(ClockFigures, SayKeepRevertOrNeitherBySides) {
  const Comparison all = compare(three_settings(), 0.1).value();
  EXPECT_EQ(all.judged[1].verdict, ClockVerdict::keep);
  EXPECT_EQ(all.judged[1].reason, Unsettled::none);
  EXPECT_LT(all.fit.effects[1].high, 0.0);
  EXPECT_EQ(all.judged[0].verdict, ClockVerdict::revert);
  EXPECT_GT(all.fit.effects[0].low, 0.0);
  std::vector<TimedLap> apart = three_settings();
  for (TimedLap& lap : apart) {
    if (lap.setting == 4U) lap.seconds -= 0.05;
  }
  const Comparison none = compare(apart, 0.1).value();
  EXPECT_EQ(none.judged[0].verdict, ClockVerdict::not_settled);
  EXPECT_EQ(none.judged[0].reason, Unsettled::spread);
}

// --- wild laps ----------------------------------------------------------------------------------

/// Two settings in turn, every lap so far from 31 s.
std::vector<TimedLap> in_turn(const std::vector<double>& off) {
  std::vector<TimedLap> laps;
  for (std::size_t i = 0; i < off.size(); ++i)
    laps.push_back({static_cast<int>(i) + 1, 31.0 + off[i], i % 2});
  return laps;
}

TEST(WildLaps, AreLeftOutOfTheSecondFit) {
  std::vector<double> off;
  for (int i = 0; i < 20; ++i) off.push_back(0.01 * (i * 7 % 11 - 5));
  const std::vector<TimedLap> calm = in_turn(off);
  off[5] += 2.0;
  off[12] += 4.0;
  const Comparison found = compare(in_turn(off), 0.1).value();
  EXPECT_THAT(found.wild, ElementsAre(5, 12));
  ASSERT_TRUE(found.fit_tame);
  std::vector<TimedLap> kept = calm;
  kept.erase(kept.begin() + 12);
  kept.erase(kept.begin() + 5);
  const NormalEquations without(kept, {1});
  EXPECT_NEAR(found.fit_tame->effects[0].seconds, without.found[2], kTight);
  EXPECT_NEAR(found.fit_tame->residual_sd, without.residual_sd, kTight);
  EXPECT_EQ(found.fit_tame->degrees_of_freedom, 18 - 3);
  EXPECT_THAT(compare(calm, 0.1)->wild, IsEmpty());
  EXPECT_FALSE(compare(calm, 0.1)->fit_tame);
}

TEST(WildLaps, AreNoneWhereMostLapsLieOnTheLine) {
  std::vector<double> off(20, 0.0);
  EXPECT_THAT(compare(in_turn(off), 0.1)->wild, IsEmpty());
}

/// Which laps are wild, by medians and by leaving out, from the figures of a fit alone.
std::vector<std::size_t> wild_by_hand(std::vector<TimedLap> laps) {
  const auto median = [](std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t n = values.size();
    return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2.0;
  };
  std::vector<std::size_t> wild;
  std::vector<std::size_t> there;
  for (std::size_t i = 0; i < laps.size(); ++i) there.push_back(i);
  while (true) {
    const NormalEquations fit(laps, {1});
    std::vector<double> residuals;
    for (std::size_t i = 0; i < laps.size(); ++i)
      residuals.push_back(laps[i].seconds -
                          fit.columns.row(static_cast<Eigen::Index>(i)).dot(fit.found));
    const double middle = median(residuals);
    for (double& each : residuals) each = std::abs(each - middle);
    const double scale = 1.4826 * median(residuals);
    const double farthest = *std::max_element(residuals.begin(), residuals.end());
    bool any = false;
    for (std::size_t i = laps.size(); i-- > 0;) {
      if (residuals[i] <= 3.5 * scale || residuals[i] <= 0.7 * farthest) continue;
      any = true;
      wild.push_back(there[i]);
      laps.erase(laps.begin() + static_cast<std::ptrdiff_t>(i));
      there.erase(there.begin() + static_cast<std::ptrdiff_t>(i));
    }
    if (!any) break;
  }
  std::sort(wild.begin(), wild.end());
  return wild;
}

TEST(WildLaps, AreThoseFarFromTheMedianInEveryRound) {
  std::size_t found = 0;
  for (int day = 0; day < 60; ++day) {
    std::vector<double> off;
    const int laps = 14 + day % 7;
    for (int i = 0; i < laps; ++i) {
      const int draw = (i * 37 + day * 101 + i * i * day) % 97;
      off.push_back(0.002 * (draw - 48) * (draw % 9 == 0 ? 4.0 : 1.0));
    }
    const std::vector<TimedLap> driven = in_turn(off);
    const std::vector<std::size_t> by_hand = wild_by_hand(driven);
    EXPECT_EQ(compare(driven, 0.1)->wild, by_hand) << day;
    found += by_hand.size();
  }
  EXPECT_GT(found, 20U);
}

TEST(WildLaps, UnsettleOnlyWhatTurnsOnThem) {
  std::vector<double> off;
  for (int i = 0; i < 20; ++i) off.push_back(0.01 * (i * 7 % 11 - 5) - 0.3 * (i % 2));
  off[4] += 1.0;  // a slow lap of the first setting
  const Comparison clear = compare(in_turn(off), 0.1).value();
  EXPECT_THAT(clear.wild, ElementsAre(4));
  EXPECT_EQ(clear.judged[0].verdict, ClockVerdict::keep) << "with the lap and without it";
  EXPECT_EQ(clear.judged[0].reason, Unsettled::none);
  off[4] += 4.0;
  const Comparison torn = compare(in_turn(off), 0.1).value();
  EXPECT_THAT(torn.wild, ElementsAre(4));
  EXPECT_EQ(torn.judged[0].verdict, ClockVerdict::not_settled);
  EXPECT_EQ(torn.judged[0].reason, Unsettled::wild_laps) << "without it it is settled";
}

TEST(DrivenOrder, OfABeforeAndAfterConfoundsUntilTenLapsOfEach) {
  const auto reason = [](int before, int after) {
    std::vector<TimedLap> laps;
    for (int i = 0; i < before + after; ++i) {
      const double scatter = 0.01 * (i * 7 % 11 - 5);
      laps.push_back({i + 1, 31.0 + scatter - (i < before ? 0.0 : 1.0), i < before ? 0U : 1U});
    }
    return compare(laps, 0.1)->judged[0].reason;
  };
  EXPECT_EQ(reason(9, 12), Unsettled::order);
  EXPECT_EQ(reason(12, 9), Unsettled::order);
  EXPECT_EQ(reason(10, 10), Unsettled::none);
}

}  // namespace
}  // namespace kartwright
