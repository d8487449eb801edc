// Foretelling: the filter gives what the sum of all days gives, and what is counted is counted.

#include "engine/records/calibration.h"

#include <gtest/gtest.h>

#include "engine/advice/learned.h"
#include "engine/knowledge/built_in.h"
#include "tests/support/season.h"

namespace kartwright {
namespace {

struct Driven {
  Pack pack = built_in_pack();
  Kart kart;
  std::vector<kartwright::Run> runs;

  explicit Driven(std::uint64_t seed) : kart(typical_kart(pack)) {
    Season season(pack, kart, {.days = 4, .runs_a_day = 6, .seed = seed});
    runs = season.drive(tries_everything(pack, seed + 1));
  }
};

TEST(Foretelling, DayByDayComesToTheSameAsAllAtOnce) {
  const Driven driven(3);
  const auto effects = effects_by_rules(driven.pack, driven.kart, "green");
  Foretelling filter(effects);
  EffectLearning sum(driven.pack.adjustments.size(), driven.pack.axes.size());
  const DayReader reader(driven.pack, rules_for(driven.pack, driven.kart));
  for (const auto& runs : cut_into_days(driven.runs)) {
    const DayOfRuns day = reader.day(runs);
    filter.take(day);
    sum.add_day(day.steps, day.sayings);
  }
  const Eigen::Index axes = effects.front().per_step.size();
  std::vector<Eigen::Index> all;
  Eigen::MatrixXd prior =
      Eigen::MatrixXd::Zero(filter.covariance().rows(), filter.covariance().cols());
  for (Eigen::Index i = 0; i < prior.rows(); ++i) all.push_back(i);
  for (std::size_t j = 0; j < effects.size(); ++j) {
    const auto from = static_cast<Eigen::Index>(j) * axes;
    prior.block(from, from, axes, axes) = effects[j].covariance;
  }
  const EffectBelief belief = sum.belief(all, prior);
  EXPECT_LT((filter.mean() - belief.mean).cwiseAbs().maxCoeff(), 1e-9);
  EXPECT_LT((filter.covariance() - belief.covariance).cwiseAbs().maxCoeff(), 1e-9);
}

TEST(Foretelling, WhatComesIsHeldAsOftenAsItIsPromisedOverManySeasons) {
  std::array<Held, 3> all{Held{0.50}, Held{0.80}, Held{0.95}};
  for (std::uint64_t seed = 100; seed < 130; ++seed) {
    const Driven driven(seed);
    const Calibration one = calibrate(driven.runs, driven.pack, driven.kart,
                                      effects_by_rules(driven.pack, driven.kart, "green"));
    for (std::size_t i = 0; i < all.size(); ++i) {
      all.at(i).held += one.intervals.at(i).held;
      all.at(i).of += one.intervals.at(i).of;
    }
  }
  for (const Held& each : all) {
    ASSERT_GT(each.of, 2000);
    EXPECT_NEAR(each.held / each.of, each.promised, 0.04) << each.promised;
  }
}

TEST(Calibration, CountsAdviceThatWasFollowedAndWhatTheDebriefsSaid) {
  const Pack pack = built_in_pack();
  const Kart kart = typical_kart(pack);
  const auto run = [](int number, int severity) {
    kartwright::Run out{.kart = "27", .at = later("2026-11-14T10:00:00", 1200 * number)};
    out.track = "green";
    out.complete = true;
    out.reports = {{.symptom = "hop", .phase = Phase::mid, .severity = severity}};
    return out;
  };
  std::vector<kartwright::Run> runs{run(1, 3), run(2, 1), run(3, 2)};
  runs[1].changes = {
      {.adjustment = "rear-width", .steps = 1.0, .origin = Origin::advice, .relief = 0.4}};
  runs[2].changes = {{.adjustment = "rear-width", .steps = 0.5}};
  const Calibration all = calibrate(runs, pack, kart, effects_by_rules(pack, kart, "green"));
  EXPECT_EQ(all.advised, 1);
  EXPECT_DOUBLE_EQ(all.promised_share, 0.4);
  EXPECT_DOUBLE_EQ(all.squares_before, 9.0);
  EXPECT_DOUBLE_EQ(all.squares_after, 1.0);
  EXPECT_EQ(all.eased, 1);
  EXPECT_EQ(all.worse, 1);
  EXPECT_EQ(all.not_settled, 1);  // no laps were given
  EXPECT_EQ(all.intervals[0].of, 2);
}

TEST(Calibration, HoldsTheStrongestComplaintBeforeAMoveAgainstWhatBecameOfIt) {
  const Pack pack = built_in_pack();
  const Kart kart = typical_kart(pack);
  const auto run = [](int number, int hop, int slide) {
    kartwright::Run out{.kart = "27", .at = later("2026-11-14T10:00:00", 1200 * number)};
    out.track = "green";
    out.complete = true;
    out.reports = {{.symptom = "hop", .phase = Phase::mid, .severity = hop},
                   {.symptom = "hop", .phase = Phase::exit, .severity = slide}};
    return out;
  };
  // In the middle the hop was at its worst and is eased; at the exit it was small and is worse.
  std::vector<kartwright::Run> runs{run(1, 3, 1), run(2, 1, 2)};
  runs[1].changes = {{.adjustment = "rear-width", .steps = 1.0}};
  const Calibration all = calibrate(runs, pack, kart, effects_by_rules(pack, kart, "green"));
  EXPECT_EQ(all.eased, 1);
  EXPECT_EQ(all.worse, 0);
}

}  // namespace
}  // namespace kartwright
