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

// --- one axis by hand ----------------------------------------------------------------------------

Eigen::VectorXd on_one_axis(double value) { return Eigen::VectorXd::Constant(1, value); }
Eigen::MatrixXd doubt_on_it(double value) { return Eigen::MatrixXd::Constant(1, 1, value); }

/// One adjustment with a place at every reference step, which takes a notch off the axis.
struct OneLever {
  double mean = 1.0;
  std::vector<double> up = {1.0}, down = {};  ///< steps to the places of either way, nearest first
  double doubt = 0.25;
  std::vector<Stage> stages = {{.track = "later", .shift = on_one_axis(1.0), .weight = 0.5}};
  EffectRule rule = {};

  Room room(const std::vector<Effect>& effects, const Setting& setting) const {
    std::vector<Way> ways{{.setting = &setting, .direction = 0, .options = {}},
                          {.setting = &setting, .direction = 1, .options = {}}};
    for (const double steps : up) ways[0].options.push_back({.setting = &setting, .steps = steps});
    for (const double steps : down)
      ways[1].options.push_back({.setting = &setting, .direction = 1, .steps = steps});
    return {on_one_axis(mean), on_one_axis(1.0), stages, ways, effects};
  }
  template <class Asked>
  auto ask(const Asked& asked) const {
    const std::vector<Effect> effects{
        {.per_step = on_one_axis(-1.0), .covariance = doubt_on_it(doubt), .rules = {&rule}}};
    Adjustment adjustment;
    adjustment.reference_step = 1.0;
    Setting setting;
    setting.adjustment = &adjustment;
    setting.travel.step = 1.0;
    return asked(room(effects, setting));
  }
  double cost(double steps) const {
    return ask([&](const Room& room) { return room.cost(0, steps); });
  }
  std::optional<double> wanted() const {
    return ask([](const Room& room) { return room.wanted(0); });
  }
};

// With two notches to come, u steps leave (2 - u)^2 + 0.25 u^2: 1.25 at one, 1 at two.
TEST(RoomByHand, IsWhatTheMissingStepWouldHaveSaved) {
  EXPECT_NEAR(OneLever{}.cost(0.0), 0.5 * (1.25 - 1.0), 1e-12);
  EXPECT_NEAR((OneLever{.up = {1.0, 2.0}}.cost(0.0)), 0.0, 1e-12);
}

// Of 1.2 notches to come one step leaves 0.2, the nearest there is: two would leave 0.8.
TEST(RoomByHand, TakesThePlaceBelowWhereThatIsNearer) {
  OneLever lever{.up = {}, .doubt = 0.0};
  lever.stages[0].shift = on_one_axis(0.2);
  EXPECT_NEAR(lever.cost(0.0), 0.5 * (1.44 - 0.04), 1e-12);
}

TEST(RoomByHand, IsAShareOfTheHandlingErrorButNeverOfLessThanTheLeast) {
  OneLever lever;
  lever.mean = 0.5;
  lever.stages[0].shift = on_one_axis(1.5);
  EXPECT_NEAR(lever.cost(0.0), 0.5 * (1.25 - 1.0) / 0.45, 1e-12);
  lever.mean = 2.0;
  lever.stages[0].shift = on_one_axis(0.0);
  EXPECT_NEAR(lever.cost(0.0), 0.5 * (1.25 - 1.0) / 4.0, 1e-12);
}

// Of a kart moved a step back, three notches off, a reversal is free: all as if it had not been.
TEST(RoomByHand, LetsAMoveBeTakenBack) {
  OneLever lever;
  lever.down = {-1.0};
  EXPECT_NEAR(lever.cost(-1.0), lever.cost(0.0), 1e-12);
  EXPECT_NEAR(lever.cost(1.0), lever.cost(0.0), 1e-12);
}

// Twenty notches to come: twelve steps would leave eight of them, none leaves all.
TEST(RoomByHand, HasTwelveStepsOfTravelAtMost) {
  OneLever lever{.up = {}, .down = {}, .doubt = 0.0};
  lever.stages[0].shift = on_one_axis(19.0);
  EXPECT_NEAR(lever.cost(0.0), 0.5 * (400.0 - 64.0), 1e-9);
  lever.stages[0].shift = on_one_axis(-21.0);
  EXPECT_NEAR(lever.cost(0.0), 0.5 * (400.0 - 64.0), 1e-9) << "either way";
}

TEST(RoomByHand, WantsThePlaceThatServesTheStagesToComeBest) {
  OneLever lever{.up = {1.0, 2.0, 3.0}, .down = {-1.0}};
  EXPECT_EQ(lever.wanted(), 2.0);
  lever.stages.push_back({.track = "last", .shift = on_one_axis(-3.0), .weight = 0.25});
  EXPECT_EQ(lever.wanted(), 1.0) << "the best of 0.5 * 2 - 0.25 * 2 over 0.75 * 1.25";
  lever.stages[1].weight = 1.0;
  EXPECT_EQ(lever.wanted(), -1.0);
  lever.stages.clear();
  EXPECT_EQ(lever.wanted(), std::nullopt);
  EXPECT_EQ(lever.cost(1.0), 0.0);
}

}  // namespace
}  // namespace kartwright
