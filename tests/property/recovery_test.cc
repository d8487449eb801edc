// Whole seasons driven with the truth known: what is learned of them holds it as often as it says.

#include <cmath>

#include <gtest/gtest.h>

#include "engine/advice/learned.h"
#include "engine/knowledge/built_in.h"
#include "engine/records/history.h"
#include "tests/support/season.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

/// How often an interval held the truth.
struct Count {
  int held = 0, of = 0;
  double share() const { return static_cast<double>(held) / of; }
};

constexpr double k90 = 1.6448536269514722;

struct Recovered {
  Count all;       ///< every cell that was moved
  Count narrowed;  ///< those that the log has narrowed by a fifth and more
};

Recovered recover(int seasons, SeasonPlan plan) {
  const Pack pack = built_in_pack();
  Recovered out;
  for (int season = 0; season < seasons; ++season) {
    plan.seed = static_cast<std::uint64_t>(1000 + season);
    Season driven(pack, typical_kart(pack), plan);
    const std::vector<Run> runs = driven.drive(tries_everything(pack, plan.seed + 500'000));
    const Learned learned =
        learned_from(learn(runs, pack, driven.kart()), pack, driven.kart(), plan.track);
    for (const LearnedAdjustment& each : learned.adjustments) {
      const auto j = static_cast<std::size_t>(each.adjustment - pack.adjustments.data());
      for (Eigen::Index i = 0; i < each.sd.size(); ++i) {
        if (each.rule_sd[i] < 1e-6) continue;
        const double truth = each.rule[i] + driven.truth()[j][i];
        const bool held = std::abs(truth - each.learned[i]) <= k90 * each.sd[i];
        for (Count* const count : {&out.all, &out.narrowed}) {
          if (count == &out.narrowed && each.sd[i] > 0.8 * each.rule_sd[i]) continue;
          ++count->of;
          if (held) ++count->held;
        }
      }
    }
  }
  return out;
}

TEST(Recovery, NinetyPercentIntervalsHoldTheTruthOverManySeasons) {
  const int seasons = throws_of_the_dice(200);
  const Recovered found = recover(seasons, {.days = 12, .runs_a_day = 9});
  // Four in a hundred either way for two hundred seasons, and more for fewer.
  const double luck = 0.04 * std::sqrt(200.0 / seasons);
  RecordProperty("all", std::to_string(found.all.share()));
  RecordProperty("narrowed", std::to_string(found.narrowed.share()));
  EXPECT_NEAR(found.all.share(), 0.9, luck);
  EXPECT_NEAR(found.narrowed.share(), 0.9, luck);
  EXPECT_GE(found.narrowed.of, 5 * seasons);
}

}  // namespace
}  // namespace kartwright
