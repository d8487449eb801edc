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

TEST(JudgedPlaces, OfARankedMoveAreWorthWhatTheRankingSays) {
  const Pack pack = built_in_pack();
  Random random(24);
  int compared = 0;
  for (int i = 0; i < 5; ++i) {
    const Kart kart = any_kart(random, pack);
    const Advice advice = advise(pack, kart, any_debrief(random, pack), System::metric);
    const Stakes stakes{.mean = advice.belief.mean,
                        .weights = advice.weights,
                        .minutes_left = advice.debrief.minutes,
                        .forecast = advice.forecast};
    const Ranking ranking = rank(stakes, advice.ways, advice.effects);
    for (std::size_t way = 0; way < advice.ways.size(); ++way) {
      const auto places = judge_places(stakes, advice.ways, advice.effects, way);
      ASSERT_EQ(places.size(), advice.ways[way].options.size());
      for (const Candidate& place : places) {
        for (const Candidate& ranked : ranking.candidates) {
          if (ranked.option.setting != place.option.setting || ranked.option.to != place.option.to)
            continue;
          EXPECT_NEAR(place.relief, ranked.relief, 1e-12) << advice.ways[way].adjustment->id;
          EXPECT_NEAR(place.room_cost, ranked.room_cost, 1e-12);
          ++compared;
        }
      }
    }
  }
  EXPECT_GT(compared, 10);
}

}  // namespace
}  // namespace kartwright
