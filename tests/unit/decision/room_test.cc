// Travel spent today that the track will want tomorrow has its price.

#include "engine/decision/room.h"

#include <gtest/gtest.h>

#include "tests/support/pit.h"

namespace kartwright {
namespace {

/// The typical kart with its rear so far under the limit of the class, metres.
Kart kart_under_the_limit(double metres) {
  Kart kart = typical_kart(rules());
  Setting& width = kart.settings.at("rear-width");
  width.limit.at_most = width.now + metres;
  return kart;
}

Room room_of(const Advice& advice) {
  return {advice.belief.mean, advice.weights, advice.forecast, advice.ways, advice.effects};
}

double price(const Advice& advice, std::string_view adjustment, double steps) {
  const auto at = rules().adjustment(adjustment) - rules().adjustments.data();
  return room_of(advice).cost(static_cast<std::size_t>(at), steps);
}

/// Points behind the move to a wider rear by 5 mm with what the answer would charge for room, had
/// the day so many hours left.
double points_behind_wider(std::string_view adjustment, double steps, double hours) {
  const Pit pit{.track = "green", .reports = {"hop@mid=1"}, .kart = kart_under_the_limit(0.01)};
  Advice advice = pit.answer();
  advice.forecast = forecast(rules(), "green", hours);
  const Stakes stakes{.mean = advice.belief.mean, .weights = advice.weights};
  const auto points = [&](std::string_view id, double u) {
    const auto at = static_cast<std::size_t>(rules().adjustment(id) - rules().adjustments.data());
    return 100.0 * relief_of(stakes, loss_of(stakes, advice.effects[at], u)) -
           100.0 * price(advice, id, u);
  };
  return points("rear-width", 0.5) - points(adjustment, steps);
}

TEST(Room, IsPaidForByAWiderRearOnAGreenTrackTenMillimetresUnderTheLimit) {
  const Pit pit{.track = "green", .reports = {"hop@mid=1"}, .kart = kart_under_the_limit(0.01)};
  const Advice advice = pit.answer();
  EXPECT_GT(price(advice, "rear-width", 0.5), 0.2);
  EXPECT_EQ(advice.verdict.headline, Headline::leave_alone);
  ASSERT_TRUE(advice.next);
  EXPECT_EQ(advice.next->phrase, "rear wider");
}

TEST(Room, LetsASofterAxleGainOnAWiderRearThere) {
  EXPECT_LT(points_behind_wider("axle", -1.0, 3.0), points_behind_wider("axle", -1.0, 0.0) - 20.0);
}

TEST(Room, CostsNextToNothingWhereThereIsTravelToSpare) {
  const Pit pit{.track = "green", .reports = {"hop@mid=2"}};
  const Advice advice = pit.answer();
  EXPECT_LT(price(advice, "rear-width", 1.0), 0.05);
}

TEST(Room, CostsNothingAtTheEndOfTheDay) {
  const Pit pit{.track = "green", .reports = {"hop@mid=2"}, .kart = kart_under_the_limit(0.01)};
  Advice advice = pit.answer();
  ASSERT_GT(price(advice, "rear-width", 1.0), 0.0);
  advice.forecast = forecast(rules(), "green", 0.0);
  EXPECT_EQ(price(advice, "rear-width", 1.0), 0.0);
  EXPECT_EQ(price(advice, "axle", -1.0), 0.0);
}

TEST(Room, IsNeverNegative) {
  for (const TrackState& track : rules().tracks) {
    const Pit pit{
        .track = track.id, .reports = {"push@entry=2"}, .kart = kart_under_the_limit(0.01)};
    const Advice advice = pit.answer();
    const Room room = room_of(advice);
    for (const Way& way : advice.ways) {
      const auto at = static_cast<std::size_t>(way.adjustment - rules().adjustments.data());
      for (const Option& option : way.options)
        EXPECT_GE(room.cost(at, option.steps), 0.0) << way.adjustment->id << option.steps;
    }
  }
}

TEST(Room, ShowsWhereRubberWillWantTheRear) {
  const Pit pit{.track = "green", .reports = {"hop@mid=1"}};
  const Advice advice = pit.answer();
  const Change* wider = ranked(advice, "rear-width", "wider");
  ASSERT_NE(wider, nullptr);
  ASSERT_TRUE(wider->candidate.wanted);
  EXPECT_GT(*wider->candidate.wanted, wider->candidate.option.to);
}

TEST(Room, OfTheDayIsKeptForRubberByAKartThatStartsCold) {
  const Pit pit{.track = "cold", .reports = {"hop@mid=2"}, .kart = kart_under_the_limit(0.01)};
  const Advice with = pit.answer();
  const Change* wider = ranked(with, "rear-width", "wider");
  ASSERT_NE(wider, nullptr);
  EXPECT_LT(wider->candidate.parts.room, -10.0);
  const Pit roomy{.track = "cold", .reports = {"hop@mid=2"}};
  const Advice spare = roomy.answer();
  EXPECT_GT(ranked(spare, "rear-width", "wider")->candidate.parts.room, -5.0);
}

}  // namespace
}  // namespace kartwright
