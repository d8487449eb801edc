// What runs say of effects: against the joint Gaussian written out, and what order must not change.

#include "engine/records/learning.h"

#include <algorithm>
#include <random>

#include <gtest/gtest.h>

#include "tests/support/matrices.h"

namespace kartwright {
namespace {

constexpr std::size_t kAdjustments = 3;
constexpr std::size_t kAxes = 2;
constexpr Eigen::Index kAll = kAdjustments * kAxes;

struct KartDay {
  std::vector<DayStep> steps;
  std::vector<DaySayings> sayings;
};

double within(std::mt19937& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

KartDay any_day(std::mt19937& random) {
  KartDay day;
  const int steps = std::uniform_int_distribution<int>(1, 5)(random);
  for (int t = 0; t < steps; ++t) {
    DayStep step{Eigen::VectorXd::Zero(kAdjustments), Eigen::VectorXd::Zero(kAxes),
                 Eigen::VectorXd::Zero(kAxes)};
    step.moves[std::uniform_int_distribution<int>(0, kAdjustments - 1)(random)] =
        within(random, -2.0, 2.0);
    for (Eigen::Index a = 0; a < step.drift.size(); ++a) {
      step.drift[a] = within(random, -0.3, 0.3);
      step.drift_sd[a] = within(random, 0.05, 0.3);
    }
    day.steps.push_back(step);
  }
  for (int s = 0; s < 2; ++s) {
    DaySayings sayings{Eigen::VectorXd(kAxes), {}};
    for (double& each : sayings.row) each = within(random, -1.0, 1.0);
    for (int t = 0; t <= steps; ++t) {
      if (within(random, 0.0, 1.0) < 0.2) {
        sayings.runs.emplace_back();
      } else {
        sayings.runs.push_back(Saying{within(random, 0.0, 3.0), within(random, 0.4, 0.9)});
      }
    }
    day.sayings.push_back(sayings);
  }
  return day;
}

/// The same belief, run for run: unknowns are the effects, every run's state and every step's
/// drift, and nothing is taken out in closed form.
EffectBelief written_out(const std::vector<KartDay>& days, const Eigen::VectorXd& mean,
                         const Eigen::VectorXd& sd) {
  constexpr double kUnknown = 1e4;  // sd of a day's first run: nothing is known of it
  Eigen::Index states = 0;
  for (const KartDay& day : days)
    states += static_cast<Eigen::Index>(day.sayings.size() + day.steps.size() * kAxes);
  const Eigen::Index all = kAll + states;
  Eigen::MatrixXd precision = Eigen::MatrixXd::Zero(all, all);
  Eigen::VectorXd pull = Eigen::VectorXd::Zero(all);
  const auto observe = [&](const Eigen::VectorXd& row, double value, double variance) {
    precision += row * row.transpose() / variance;
    pull += row * value / variance;
  };
  for (Eigen::Index i = 0; i < kAll; ++i)
    observe(Eigen::VectorXd::Unit(all, i), mean[i], sd[i] * sd[i]);
  Eigen::Index at = kAll;
  for (const KartDay& day : days) {
    const Eigen::Index drifts = at;
    for (const DayStep& step : day.steps) {
      for (Eigen::Index a = 0; a < step.drift.size(); ++a, ++at)
        observe(Eigen::VectorXd::Unit(all, at), step.drift[a], step.drift_sd[a] * step.drift_sd[a]);
    }
    for (const DaySayings& sayings : day.sayings) {
      // One unbroken stretch of runs starts anew, since nothing is said across a gap.
      Eigen::VectorXd state = Eigen::VectorXd::Unit(all, at);
      observe(state, 0.0, kUnknown * kUnknown);
      ++at;
      bool broken = false;
      for (std::size_t t = 0; t < sayings.runs.size(); ++t) {
        if (t > 0) {
          const DayStep& step = day.steps[t - 1];
          for (Eigen::Index j = 0; j < step.moves.size(); ++j)
            state.segment(j * static_cast<Eigen::Index>(kAxes), kAxes) +=
                step.moves[j] * sayings.row;
          state.segment(drifts + static_cast<Eigen::Index>((t - 1) * kAxes), kAxes) += sayings.row;
        }
        if (!sayings.runs[t]) broken = true;
        if (broken || !sayings.runs[t]) continue;
        const Saying& said = *sayings.runs[t];
        observe(state, said.value, said.sd * said.sd + 1.0 / 12.0);
      }
    }
  }
  const Eigen::MatrixXd covariance = plain_inverse(precision);
  return {(covariance * pull).head(kAll), covariance.topLeftCorner(kAll, kAll)};
}

/// Without what comes behind the first gap of a symptom.
KartDay until_the_gap(KartDay day) {
  for (DaySayings& sayings : day.sayings) {
    bool broken = false;
    for (auto& run : sayings.runs) {
      broken = broken || !run;
      if (broken) run.reset();
    }
  }
  return day;
}

TEST(EffectLearning, IsTheJointGaussianOfAllThatIsUnknown) {
  std::mt19937 random(11);
  const Eigen::VectorXd mean = Eigen::VectorXd::LinSpaced(kAll, -0.5, 0.5);
  const Eigen::VectorXd sd = Eigen::VectorXd::LinSpaced(kAll, 0.2, 0.6);
  for (int i = 0; i < 300; ++i) {
    std::vector<KartDay> days;
    EffectLearning learning(kAdjustments, kAxes);
    for (int d = 0; d < 3; ++d) {
      days.push_back(until_the_gap(any_day(random)));
      learning.add_day(days.back().steps, days.back().sayings);
    }
    const EffectBelief found = learning.belief(mean, sd);
    const EffectBelief expected = written_out(days, mean, sd);
    EXPECT_LT((found.mean - expected.mean).cwiseAbs().maxCoeff(), 1e-6);
    EXPECT_LT((found.covariance - expected.covariance).cwiseAbs().maxCoeff(), 1e-6);
  }
}

TEST(EffectLearning, TheOrderOfDaysChangesNothing) {
  std::mt19937 random(12);
  std::vector<KartDay> days;
  for (int d = 0; d < 12; ++d) days.push_back(any_day(random));
  const Eigen::VectorXd mean = Eigen::VectorXd::Constant(kAll, 0.1);
  const Eigen::VectorXd sd = Eigen::VectorXd::Constant(kAll, 0.4);
  const auto learnt = [&] {
    EffectLearning learning(kAdjustments, kAxes);
    for (const KartDay& day : days) learning.add_day(day.steps, day.sayings);
    return learning.belief(mean, sd);
  };
  const EffectBelief first = learnt();
  for (int i = 0; i < 20; ++i) {
    std::shuffle(days.begin(), days.end(), random);
    const EffectBelief other = learnt();
    EXPECT_LT((first.mean - other.mean).cwiseAbs().maxCoeff(), 1e-12);
    EXPECT_LT((first.covariance - other.covariance).cwiseAbs().maxCoeff(), 1e-12);
  }
}

TEST(EffectLearning, WithoutARunTheRulesStand) {
  const EffectLearning learning(kAdjustments, kAxes);
  const Eigen::VectorXd mean = Eigen::VectorXd::LinSpaced(kAll, -0.5, 0.5);
  const Eigen::VectorXd sd = Eigen::VectorXd::Constant(kAll, 0.3);
  const EffectBelief found = learning.belief(mean, sd);
  EXPECT_LT((found.mean - mean).cwiseAbs().maxCoeff(), 1e-12);
  EXPECT_NEAR(found.covariance(2, 2), 0.09, 1e-12);
  EXPECT_EQ(learning.runs_of(0), 0);
}

TEST(EffectLearning, ARunWithoutAMoveSaysNothingOfEffects) {
  EffectLearning learning(kAdjustments, kAxes);
  const DayStep still{Eigen::VectorXd::Zero(kAdjustments), Eigen::VectorXd::Zero(kAxes),
                      Eigen::VectorXd::Constant(kAxes, 0.1)};
  const DaySayings sayings{Eigen::VectorXd::Ones(kAxes), {Saying{2, 0.5}, Saying{0, 0.5}}};
  learning.add_day({still}, {sayings});
  const Eigen::VectorXd mean = Eigen::VectorXd::Zero(kAll);
  EXPECT_EQ(learning.belief(mean, Eigen::VectorXd::Ones(kAll)).mean, mean);
}

}  // namespace
}  // namespace kartwright
