// In which order the changes of one stop are made.

#include "engine/decision/stop_order.h"

#include <numeric>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace kartwright {
namespace {

using testing::ElementsAre;

/// Every job takes so much off a loss of 10.
struct TakesOff {
  std::vector<double> off;
  double operator()(const std::vector<std::size_t>& done) const {
    double loss = 10.0;
    for (const std::size_t job : done) loss -= off[job];
    return loss;
  }
};

std::vector<std::size_t> jobs_of(const std::vector<StopStep>& steps) {
  std::vector<std::size_t> out;
  for (const StopStep& step : steps) out.push_back(step.job);
  return out;
}

TEST(StopOrder, DoesFirstWhatBringsMostAMinute) {
  const auto steps = stop_order({{.minutes = 10.0}, {.minutes = 2.0}}, TakesOff{{5.0, 2.0}});
  ASSERT_THAT(jobs_of(steps), ElementsAre(1, 0));
  EXPECT_EQ(steps[0].until, 2.0);
  EXPECT_EQ(steps[0].loss, 8.0);
  EXPECT_EQ(steps[1].until, 12.0);
  EXPECT_EQ(steps[1].loss, 3.0);
}

TEST(StopOrder, GoesByTheNumberOfTheJobWhereNothingTellsThemApart) {
  const auto steps = stop_order({{.minutes = 5.0}, {.minutes = 5.0}}, TakesOff{{2.0, 2.0}});
  EXPECT_THAT(jobs_of(steps), ElementsAre(0, 1));
}

// Hubs and rear width share two minutes on the stand; the pressures in between would bring more.
TEST(StopOrder, LeavesTheKartOnItsStandUntilAllIsDoneThere) {
  const std::vector<StopJob> jobs{{.minutes = 6.0, .stand = 0, .stand_minutes = 2.0},
                                  {.minutes = 10.0, .stand = 0, .stand_minutes = 2.0},
                                  {.minutes = 8.0}};
  const auto steps = stop_order(jobs, TakesOff{{5.0, 0.5, 2.0}});
  ASSERT_THAT(jobs_of(steps), ElementsAre(0, 1, 2));
  EXPECT_EQ(steps[1].minutes, 8.0);
  EXPECT_EQ(steps.back().until, 22.0);
}

// Two stands: what is done apart from its fellow would be first by what it brings a minute.
TEST(StopOrder, KeepsTheJobsOfEitherStandTogether) {
  const std::vector<StopJob> jobs{{.minutes = 4.0, .stand = 0, .stand_minutes = 1.0},
                                  {.minutes = 4.0, .stand = 1, .stand_minutes = 3.0},
                                  {.minutes = 4.0, .stand = 0, .stand_minutes = 2.0},
                                  {.minutes = 4.0, .stand = 1, .stand_minutes = 3.0}};
  const auto steps = stop_order(jobs, TakesOff{{3.0, 2.0, 0.1, 0.1}});
  ASSERT_THAT(jobs_of(steps), ElementsAre(0, 2, 1, 3));
  EXPECT_EQ(steps[1].minutes, 3.0) << "of its stand's two minutes one is spent already";
  EXPECT_EQ(steps[3].minutes, 1.0) << "all three of its stand's are";
  EXPECT_EQ(steps[3].until, 12.0);
}

TEST(StopOrder, OfNoJobsIsNoSteps) {
  EXPECT_THAT(stop_order({}, TakesOff{{}}), testing::IsEmpty());
}

}  // namespace
}  // namespace kartwright
