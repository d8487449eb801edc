// Where every adjustment could go, and whether it may.

#include "engine/decision/options.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::DoubleNear;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Pointwise;

constexpr std::size_t kPlus = 0, kMinus = 1;
constexpr double kOneDegree = std::numbers::pi / 180.0;

/// The way of one adjustment in one direction. Options point into the kart.
Way way(const Kart& kart, std::string_view adjustment, std::size_t direction,
        double minutes = 60.0) {
  for (const Way& each : all_ways(rules(), kart, minutes)) {
    if (each.adjustment->id == adjustment && each.direction == direction) return each;
  }
  ADD_FAILURE() << "no way for " << adjustment;
  return {};
}

std::vector<double> places(const Way& way) {
  std::vector<double> out;
  for (const Option& option : way.options) out.push_back(option.to);
  return out;
}

std::vector<double> steps(const Way& way) {
  std::vector<double> out;
  for (const Option& option : way.options) out.push_back(option.steps);
  return out;
}

/// "legal", "far", or why not.
std::vector<std::string> verdicts(const Way& way) {
  std::vector<std::string> out;
  for (const Option& option : way.options) {
    if (option.refusal != Refusal::none) {
      out.emplace_back(name_of(option.refusal));
    } else {
      out.emplace_back(option.at_once ? "legal" : "far");
    }
  }
  return out;
}

auto near(const std::vector<double>& values) { return Pointwise(DoubleNear(1e-12), values); }

// --- the grid -----------------------------------------------------------------------------------

TEST(Options, AreThePlacesOfTheGridBothWaysNearestFirst) {
  Kart kart = typical_kart(rules());
  EXPECT_THAT(places(way(kart, "rear-width", kPlus)),
              near({1.365, 1.370, 1.375, 1.380, 1.385, 1.390, 1.395, 1.400}));
  EXPECT_THAT(steps(way(kart, "rear-width", kPlus)),
              ElementsAre(0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0));
  kart.settings.at("rear-width").now = 1.315;
  EXPECT_THAT(places(way(kart, "rear-width", kMinus)), near({1.310, 1.305, 1.300}));
  EXPECT_THAT(steps(way(kart, "rear-width", kMinus)), ElementsAre(-0.5, -1.0, -1.5));
}

TEST(Options, FromBetweenTwoStepsGoToTheGrid) {
  Kart kart = typical_kart(rules());
  kart.settings.at("rear-width").now = 1.392;
  EXPECT_THAT(places(way(kart, "rear-width", kPlus)), near({1.395, 1.400}));
  EXPECT_THAT(steps(way(kart, "rear-width", kPlus)), near({0.3, 0.8}));
  EXPECT_THAT(steps(way(kart, "rear-width", kMinus)).front(), DoubleNear(-0.2, 1e-12));
}

TEST(Options, OfAListAreItsPositions) {
  const Kart kart = typical_kart(rules());
  const Way stiffer = way(kart, "axle", kPlus);
  EXPECT_THAT(steps(stiffer), ElementsAre(1.0));
  EXPECT_EQ(print_setting(*stiffer.setting, stiffer.options.front().to, System::metric), "hard");
  EXPECT_THAT(steps(way(kart, "axle", kMinus)), ElementsAre(-1.0));
}

TEST(Options, OfAListWithAPositionMissingCountTheMissingOne) {
  Kart kart = typical_kart(rules());
  Setting& seat = kart.settings.at("seat-back");
  seat.travel.names.erase(seat.travel.names.begin() + 3);
  seat.travel.places = {0, 1, 2, 3};
  seat.now = 1;
  EXPECT_THAT(steps(way(kart, "seat-back", kPlus)), ElementsAre(1.0, 3.0));
  EXPECT_THAT(verdicts(way(kart, "seat-back", kPlus)), ElementsAre("legal", "far"));
  EXPECT_EQ(way(kart, "seat-back", kPlus).options.front().room_left, 2.0);
  seat.now = 2;
  EXPECT_THAT(steps(way(kart, "seat-back", kPlus)), ElementsAre(2.0)) << "two notches away";
  EXPECT_THAT(verdicts(way(kart, "seat-back", kPlus)), ElementsAre("far"));
}

TEST(Options, AreNoneAtAnEnd) {
  Kart kart = typical_kart(rules());
  EXPECT_THAT(way(kart, "front-bar", kMinus).options, IsEmpty()) << "it is out";
  kart.settings.at("rear-width").now = 1.400;
  EXPECT_THAT(way(kart, "rear-width", kPlus).options, IsEmpty());
  EXPECT_NE(way(kart, "rear-width", kPlus).setting, nullptr);
}

TEST(OpenTravel, EndsWhereTheClassDoes) {
  Kart kart = typical_kart(rules());
  Setting& width = kart.settings.at("rear-width");
  width.limit.at_most = 1.380;
  const OpenTravel travel = open_travel(width);
  EXPECT_NEAR(travel.low, 1.300, 1e-12);
  EXPECT_NEAR(travel.high, 1.380, 1e-12);
  EXPECT_EQ(travel.below, Refusal::end_stop);
  EXPECT_EQ(travel.above, Refusal::class_limit);
}

TEST(OpenTravel, EndsWhereTheBoxOfPartsDoes) {
  Kart kart = typical_kart(rules());
  Setting& axle = kart.settings.at("axle");
  axle.in_the_box = {"medium"};
  const OpenTravel none = open_travel(axle);
  EXPECT_EQ(none.low, axle.now);
  EXPECT_EQ(none.high, axle.now);
  EXPECT_EQ(none.below, Refusal::no_part);
  EXPECT_EQ(none.above, Refusal::no_part);
  axle.in_the_box = {"medium", "hard"};
  EXPECT_EQ(open_travel(axle).high, axle.now + 1.0);
  EXPECT_EQ(open_travel(axle).above, Refusal::end_stop);
}

TEST(OpenTravel, OfAnAdjustmentAtItsEndGoesTheOtherWayOnly) {
  Kart kart = typical_kart(rules());
  const OpenTravel bar = open_travel(kart.settings.at("front-bar"));  // it is out
  EXPECT_EQ(bar.low, 0.0);
  EXPECT_EQ(bar.high, 1.0);
  EXPECT_EQ(bar.below, Refusal::end_stop);
}

TEST(Options, AreNoneForWhatTheKartHasNot) {
  Kart kart = typical_kart(rules());
  kart.settings.erase("rear-hubs");
  EXPECT_THAT(way(kart, "rear-hubs", kPlus).options, IsEmpty());
  EXPECT_EQ(way(kart, "rear-hubs", kPlus).setting, nullptr);
}

TEST(Ways, AreEveryAdjustmentInBothDirectionsById) {
  const Kart kart = typical_kart(rules());
  const std::vector<Way> ways = all_ways(rules(), kart, 15.0);
  ASSERT_EQ(ways.size(), 2 * rules().adjustments.size());
  for (std::size_t i = 0; i < ways.size(); ++i) {
    EXPECT_EQ(ways[i].adjustment, &rules().adjustments[i / 2]);
    EXPECT_EQ(ways[i].direction, i % 2);
    const double sign = ways[i].direction == kPlus ? 1.0 : -1.0;
    for (const Option& option : ways[i].options) EXPECT_GT(option.steps * sign, 0.0);
  }
}

// --- a falling number ---------------------------------------------------------------------------

TEST(Camber, MoreNegativeIsPlusAndCountsDown) {
  const Kart kart = typical_kart(rules());
  const Way more = way(kart, "camber", kPlus);
  EXPECT_THAT(places(more),
              near({-0.75 * kOneDegree, -1.0 * kOneDegree, -1.25 * kOneDegree, -1.5 * kOneDegree}));
  EXPECT_THAT(steps(more), ElementsAre(0.5, 1.0, 1.5, 2.0));
  const Way less = way(kart, "camber", kMinus);
  EXPECT_THAT(places(less), near({-0.25 * kOneDegree, 0.0, 0.25 * kOneDegree, 0.5 * kOneDegree}));
  EXPECT_THAT(steps(less), ElementsAre(-0.5, -1.0, -1.5, -2.0));
  EXPECT_NEAR(legal_end(*more.setting, kPlus), -1.5 * kOneDegree, 1e-12);
  EXPECT_NEAR(legal_end(*more.setting, kMinus), 0.5 * kOneDegree, 1e-12);
}

TEST(Camber, KeepsToAClassLimitOnTheRightSide) {
  Kart kart = typical_kart(rules());
  kart.settings.at("camber").limit.at_least = -1.0 * kOneDegree;
  EXPECT_THAT(verdicts(way(kart, "camber", kPlus)),
              ElementsAre("legal", "legal", "class-limit", "class-limit"));
  EXPECT_TRUE(way(kart, "camber", kPlus).options[1].last_notch);
  EXPECT_THAT(verdicts(way(kart, "camber", kMinus)), ElementsAre("legal", "legal", "far", "far"));
}

// --- what may not be ----------------------------------------------------------------------------

TEST(ClassLimit, IsItselfAllowedAndNothingBeyondIt) {
  Kart kart = typical_kart(rules());
  kart.settings.at("rear-width").limit.at_most = 1.370;
  EXPECT_THAT(verdicts(way(kart, "rear-width", kPlus)),
              ElementsAre("legal", "legal", "class-limit", "class-limit", "class-limit",
                          "class-limit", "class-limit", "class-limit"));
  EXPECT_NEAR(legal_end(kart.settings.at("rear-width"), kPlus), 1.370, 1e-12);
}

TEST(ClassLimit, OfAListIsByName) {
  Kart kart = typical_kart(rules());
  kart.settings.at("axle").limit.allowed = {"soft", "medium"};
  EXPECT_THAT(verdicts(way(kart, "axle", kPlus)), ElementsAre("class-limit"));
  EXPECT_THAT(verdicts(way(kart, "axle", kMinus)), ElementsAre("legal"));
}

TEST(Parts, ThatAreNotInTheBoxCannotBeFitted) {
  Kart kart = typical_kart(rules());
  kart.settings.at("axle").in_the_box = {"soft", "medium"};
  EXPECT_THAT(verdicts(way(kart, "axle", kPlus)), ElementsAre("no-part"));
  EXPECT_THAT(verdicts(way(kart, "axle", kMinus)), ElementsAre("legal"));
  EXPECT_THAT(verdicts(way(kart, "front-bar", kPlus)), ElementsAre("legal"))
      << "its positions are no parts";
}

TEST(Time, MustSufficeForTheMove) {
  Kart kart = typical_kart(rules());
  EXPECT_THAT(verdicts(way(kart, "rear-hubs", kPlus, 10.0)), ElementsAre("legal"));
  EXPECT_THAT(verdicts(way(kart, "rear-hubs", kPlus, 9.9)), ElementsAre("no-time"));
  kart.settings.at("rear-hubs").minutes = 4.0;  // a quick crew
  EXPECT_THAT(verdicts(way(kart, "rear-hubs", kPlus, 9.9)), ElementsAre("legal"));
  EXPECT_EQ(way(kart, "rear-hubs", kPlus).options.front().minutes, 4.0);
}

TEST(Refusals, AreToldInTheOrderClassPartTime) {
  Kart kart = typical_kart(rules());
  Setting& axle = kart.settings.at("axle");
  axle.in_the_box = {"medium"};
  EXPECT_THAT(verdicts(way(kart, "axle", kPlus, 1.0)), ElementsAre("no-part"));
  axle.limit.allowed = {"medium"};
  EXPECT_THAT(verdicts(way(kart, "axle", kPlus, 1.0)), ElementsAre("class-limit"));
}

TEST(MostAtOnce, IsAsFarAsOneMoveGoes) {
  const Kart kart = typical_kart(rules());
  EXPECT_THAT(verdicts(way(kart, "rear-width", kPlus)),
              ElementsAre("legal", "legal", "legal", "far", "far", "far", "far", "far"));
  EXPECT_THAT(verdicts(way(kart, "pressures", kPlus)), ElementsAre("legal", "legal", "far", "far"));
  EXPECT_THAT(verdicts(way(kart, "toe", kMinus)),
              ElementsAre("legal", "legal", "far", "far", "far"));
}

// --- ends and room ------------------------------------------------------------------------------

TEST(LastNotch, IsAnEndOfFiveOrMorePlaces) {
  Kart kart = typical_kart(rules());
  const auto last = [&](const char* adjustment) {
    return way(kart, adjustment, kPlus).options.back().last_notch;
  };
  EXPECT_TRUE(last("caster")) << "five places, 8 to 16 deg";
  EXPECT_TRUE(last("seat-back")) << "five positions";
  EXPECT_TRUE(last("rear-width"));
  EXPECT_FALSE(last("rear-hubs")) << "three";
  EXPECT_FALSE(last("front-bar")) << "two";
  kart.settings.at("caster").travel = {
      .places = {8 * kOneDegree, 10 * kOneDegree, 12 * kOneDegree, 14 * kOneDegree},
      .names = {},
      .step = 2 * kOneDegree};
  kart.settings.at("caster").now = 12 * kOneDegree;
  EXPECT_FALSE(last("caster")) << "four";
}

TEST(LastNotch, IsNoPlaceBeforeTheEnd) {
  const Kart kart = typical_kart(rules());
  const std::vector<Option> wider = way(kart, "rear-width", kPlus).options;
  for (std::size_t i = 0; i + 1 < wider.size(); ++i) EXPECT_FALSE(wider[i].last_notch);
}

TEST(RoomLeft, IsWhatIsStillOpenTheSameWayInsideTheClass) {
  Kart kart = typical_kart(rules());
  EXPECT_EQ(way(kart, "rear-width", kPlus).options[0].room_left, 3.5);
  EXPECT_EQ(way(kart, "rear-width", kPlus).options.back().room_left, 0.0);
  kart.settings.at("rear-width").limit.at_most = 1.380;
  EXPECT_EQ(way(kart, "rear-width", kPlus).options[0].room_left, 1.5);
  EXPECT_EQ(way(kart, "rear-width", kMinus).options[0].room_left, 5.5);
}

// --- inches -------------------------------------------------------------------------------------

/// One kart, its rear width and its range written in a unit.
Kart width_kart(std::string_view now, std::string_view from, std::string_view to,
                std::string_view step, std::string_view most) {
  const std::string text = fmt::format(
      "kart: a kart\n"
      "settings:\n  rear-width: {}\n"
      "ranges:\n  rear-width: {{from: {}, to: {}, step: {}}}\n"
      "class:\n  name: a class\n  limits:\n    rear-width: {{at-most: {}}}\n",
      now, from, to, step, most);
  ReadKart read = read_kart_text(text, rules());
  EXPECT_TRUE(read.found.empty()) << told(read.found);
  return read.kart;
}

TEST(ImperialKart, IsTheSameKart) {
  const Kart inches = width_kart("53 1/2 in", "51 in", "55 in", "1/4 in", "54 1/4 in");
  const Kart metric = width_kart("1358.9 mm", "1295.4 mm", "1397 mm", "6.35 mm", "1377.95 mm");
  for (const std::size_t direction : {kPlus, kMinus}) {
    const Way a = way(inches, "rear-width", direction);
    const Way b = way(metric, "rear-width", direction);
    ASSERT_EQ(a.options.size(), b.options.size());
    EXPECT_FALSE(a.options.empty());
    EXPECT_THAT(places(a), near(places(b)));
    EXPECT_EQ(steps(a), steps(b));
    EXPECT_EQ(verdicts(a), verdicts(b));
    for (std::size_t i = 0; i < a.options.size(); ++i) {
      EXPECT_EQ(a.options[i].last_notch, b.options[i].last_notch);
      EXPECT_EQ(a.options[i].room_left, b.options[i].room_left);
    }
  }
  EXPECT_THAT(verdicts(way(inches, "rear-width", kPlus)),
              ElementsAre("legal", "legal", "far", "class-limit", "class-limit", "class-limit"));
}

TEST(Refusals, HaveTheNamesOfTheContract) {
  EXPECT_EQ(name_of(Refusal::end_stop), "end-stop");
  EXPECT_EQ(name_of(Refusal::class_limit), "class-limit");
  EXPECT_EQ(name_of(Refusal::no_part), "no-part");
  EXPECT_EQ(name_of(Refusal::no_time), "no-time");
  EXPECT_EQ(name_of(Refusal::makes_worse), "makes-worse");
  EXPECT_EQ(name_of(Refusal::not_on_this_kart), "not-on-this-kart");
  EXPECT_EQ(name_of(Refusal::effect_unknown), "effect-unknown");
}

}  // namespace
}  // namespace kartwright
