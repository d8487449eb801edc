// What leads, found without ranking the rest.

#include <gtest/gtest.h>

#include "engine/advice/advise.h"
#include "engine/decision/rank.h"
#include "engine/knowledge/built_in.h"
#include "tests/support/any.h"

namespace kartwright {
namespace {

void expect_the_first(const Ranking& ranking, const Lead& lead) {
  EXPECT_EQ(lead.nothing, ranking.nothing);
  ASSERT_EQ(lead.candidate.has_value(), !ranking.candidates.empty());
  if (!lead.candidate) return;
  const Candidate& first = ranking.candidates.front();
  EXPECT_EQ(lead.candidate->option.setting, first.option.setting);
  EXPECT_EQ(lead.candidate->option.to, first.option.to);
  EXPECT_EQ(lead.candidate->parts.score(), first.parts.score());
  EXPECT_EQ(lead.candidate->held_back(), first.held_back());
}

TEST(Leading, IsTheFirstOfTheRanking) {
  const Pack pack = built_in_pack();
  Random random(23);
  for (int i = 0; i < 60; ++i) {
    const Kart kart = any_kart(random, pack);
    const Advice advice = advise(pack, kart, any_debrief(random, pack), System::metric);
    Stakes stakes{.mean = advice.belief.mean,
                  .weights = advice.weights,
                  .minutes_left = advice.debrief.minutes,
                  .forecast = advice.forecast};
    if (i % 3 == 0) stakes.without_complaints = 0.5 * stakes.mean;
    expect_the_first(rank(stakes, advice.ways, advice.effects),
                     leading(stakes, advice.ways, advice.effects));
  }
}

}  // namespace
}  // namespace kartwright
