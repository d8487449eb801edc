// Moves made together: what a pair can do that no single move can, what it costs, and what may not
// go together.

#include "engine/decision/bundles.h"

#include <algorithm>
#include <chrono>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::DoubleNear;
using testing::ElementsAre;
using testing::IsEmpty;

// --- any set of items ---------------------------------------------------------------------------

/// Two axes of weight 1, and steps that each move one axis by 1 or both.
BundleCase two_axes(double a, double b) {
  const auto vec = [](double x, double y) { return Eigen::VectorXd(Eigen::Vector2d(x, y)); };
  return {.mean = vec(a, b),
          .weights = vec(1, 1),
          .steps = {{vec(1, 0)}, {vec(0, 1)}, {vec(1, 1)}, {vec(1, 0)}}};
}

/// Takes a step by an amount, its group numbered as its step.
BundleItem take(std::size_t step, double amount, double cost = 0.0) {
  return {.group = static_cast<int>(step), .step = step, .amount = amount, .cost = cost};
}

BundleItem on_stand(BundleItem item, double minutes, double shared) {
  item.minutes = minutes;
  item.stand = 7;
  item.stand_minutes = shared;
  return item;
}

TEST(BestSet, OfNothingIsNothing) {
  const BundleChoice none = best_set(two_axes(3, 4), 2);
  EXPECT_THAT(none.items, IsEmpty());
  EXPECT_EQ(none.value, 25.0);
}

TEST(BestSet, IsNothingWhereEveryMoveMakesItWorse) {
  BundleCase c = two_axes(0, 0);
  c.items = {take(0, 1), take(1, -1)};
  EXPECT_THAT(best_set(c, 3).items, IsEmpty());
}

TEST(BestSet, TakesTwoMovesThatDoTogetherWhatNeitherDoesAlone) {
  BundleCase c = two_axes(0, 2);
  // Alone, each leaves as much as it cures; together the side effect of one is the other's cure.
  c.items = {take(0, 2), take(2, -2)};
  EXPECT_THAT(best_set(c, 1).items, IsEmpty());
  const BundleChoice pair = best_set(c, 2);
  EXPECT_THAT(pair.items, ElementsAre(0, 1));
  EXPECT_EQ(pair.value, 0.0);
}

TEST(BestSet, TakesNoMoreThanItMay) {
  BundleCase c = two_axes(-1, -1);
  c.mean = Eigen::Vector2d(-2, -1);
  c.items = {take(0, 1), take(1, 1), take(3, 1)};
  EXPECT_THAT(best_set(c, 0).items, IsEmpty());
  EXPECT_THAT(best_set(c, 1).items, ElementsAre(0));
  EXPECT_THAT(best_set(c, 2).items, ElementsAre(0, 1));
  EXPECT_THAT(best_set(c, 3).items, ElementsAre(0, 1, 2));
}

TEST(BestSet, TakesOneItemOfAGroup) {
  BundleCase c = two_axes(-2, 0);
  c.items = {take(0, 1), take(0, 1)};
  EXPECT_THAT(best_set(c, 2).items, ElementsAre(0));
}

TEST(BestSet, TakesOneItemOfAnExclusion) {
  BundleCase c = two_axes(-1, -3);
  c.items = {take(0, 1), take(1, 3)};
  EXPECT_THAT(best_set(c, 2).items, ElementsAre(0, 1));
  for (BundleItem& item : c.items) item.exclusion = 4;
  EXPECT_THAT(best_set(c, 2).items, ElementsAre(1));
}

TEST(BestSet, PaysForWhatIsNotKnownOfEachStep) {
  BundleCase c = two_axes(-2, 0);
  c.items = {take(0, 2)};
  c.steps[0].spread = 0.5;
  EXPECT_EQ(best_set(c, 1).value, 4.0 * 0.5) << "twice the step is four times its variance";
  c.steps[0].spread = 1.5;
  EXPECT_THAT(best_set(c, 1).items, IsEmpty());
}

TEST(BestSet, OfTheSameWorthHasFewerMovesThenLowerOnes) {
  BundleCase c = two_axes(-1, -1);
  c.items = {take(0, 1), take(1, 1), take(3, 1), take(2, 1)};
  EXPECT_THAT(best_set(c, 3).items, ElementsAre(3)) << "one move does what two do";
  c.items = {take(3, 1), take(0, 1), take(1, 1)};
  EXPECT_THAT(best_set(c, 2).items, ElementsAre(0, 2));
}

TEST(SharedMinutes, CountTheStandOnce) {
  BundleCase c = two_axes(-1, -1);
  c.items = {on_stand(take(0, 1), 6, 2), on_stand(take(1, 1), 10, 2), on_stand(take(2, 1), 20, 2),
             take(3, 1)};
  c.items[3].minutes = 5;
  EXPECT_EQ(shared_minutes(c, {}), 0.0);
  EXPECT_EQ(shared_minutes(c, {0}), 6.0);
  EXPECT_EQ(shared_minutes(c, {0, 1}), 14.0);
  EXPECT_EQ(shared_minutes(c, {0, 1, 2}), 32.0) << "two for each beyond the first";
  EXPECT_EQ(shared_minutes(c, {0, 3}), 11.0) << "the last is not on the stand";
}

TEST(SharedMinutes, AreNeverLessThanTheLongestJob) {
  BundleCase c = two_axes(-1, -1);
  c.items = {on_stand(take(0, 1), 0.5, 0.5), on_stand(take(1, 1), 10, 2)};
  EXPECT_EQ(shared_minutes(c, {0, 1}), 10.0);
  EXPECT_EQ(shared_minutes(c, {1, 0}), 10.0);
}

TEST(BestSet, PrefersJobsThatShareAStand) {
  BundleCase c = two_axes(-1, -1);
  c.minute_cost = 0.05;
  c.items = {take(0, 1), on_stand(take(1, 1), 4, 2), on_stand(take(3, 1), 4, 2)};
  c.items[0].minutes = 3;
  EXPECT_THAT(best_set(c, 2).items, ElementsAre(1, 2)) << "six minutes against seven";
  c.items[2].stand = 8;
  EXPECT_THAT(best_set(c, 2).items, ElementsAre(0, 1));
}

TEST(BestSet, OfThreeOnAStandSavesTwiceAndNotForEveryPair) {
  BundleCase c = two_axes(-2, -1);
  c.minute_cost = 0.1;
  c.items = {on_stand(take(0, 1), 3, 3), on_stand(take(1, 1), 3, 3), on_stand(take(3, 1), 3, 3)};
  const BundleChoice all = best_set(c, 3);
  EXPECT_THAT(all.items, ElementsAre(0, 1, 2));
  EXPECT_NEAR(all.value, 0.3, 1e-12);
}

TEST(BestSet, FitsInTheMinutesWithTheStandShared) {
  BundleCase c = two_axes(-1, -2);
  c.items = {on_stand(take(0, 1), 6, 2), on_stand(take(1, 2), 10, 2)};
  c.most_minutes = 14.0;
  EXPECT_THAT(best_set(c, 2).items, ElementsAre(0, 1));
  c.most_minutes = 13.9;
  EXPECT_THAT(best_set(c, 2).items, ElementsAre(1));
  c.most_minutes = 9.0;
  EXPECT_THAT(best_set(c, 2).items, ElementsAre(0));
}

TEST(BestSet, MustRelieveTheOtherMeansAsAWhole) {
  BundleCase c = two_axes(-2, -2);
  c.items = {take(0, 2), take(1, 2)};
  c.must_relieve = {Eigen::Vector2d(0, -2)};
  EXPECT_THAT(best_set(c, 1).items, ElementsAre(1)) << "the first helps nothing there";
  EXPECT_THAT(best_set(c, 2).items, ElementsAre(1)) << "the first undoes what the second does";
  c.must_relieve = {Eigen::Vector2d(0, -3)};
  EXPECT_THAT(best_set(c, 2).items, ElementsAre(0, 1)) << "as a whole they help there too";
}

// --- moves of a kart ----------------------------------------------------------------------------

Eigen::VectorXd pair_of(double a, double b) { return Eigen::Vector2d(a, b); }

/// The small kart, with an effect for the adjustments that are given one.
class Garage {
 public:
  explicit Garage(Stakes at_stake) : stakes_(std::move(at_stake)) {
    for (std::size_t i = 0; i < pack_.adjustments.size(); ++i) {
      effects_.push_back({pair_of(0, 0), Eigen::MatrixXd::Zero(2, 2)});
    }
  }

  Garage& with(std::string_view id, double a, double b, double sd = 0.0) {
    static const EffectRule kRule;
    Effect& effect = effects_.at(number(id));
    effect.per_step = pair_of(a, b);
    effect.covariance(0, 0) = sd * sd;
    effect.rules = {&kRule};
    return *this;
  }

  Adjustment& adjustment(std::string_view id) { return pack_.adjustments.at(number(id)); }
  Setting& setting(const char* id) { return kart_.settings.at(id); }
  Stakes& stakes() { return stakes_; }

  Bundle best(std::size_t most) {
    ways_ = all_ways(pack_, kart_, stakes_.minutes_left);
    return best_bundle(stakes_, ways_, effects_, most);
  }

  /// "toe more 2" for each move: adjustment, direction, reference steps.
  std::vector<std::string> moves(std::size_t most) {
    std::vector<std::string> out;
    for (const Option& option : best(most).moves) {
      const Adjustment& moved = *option.setting->adjustment;
      out.push_back(moved.id + " " + moved.directions.at(option.direction));
    }
    return out;
  }

 private:
  std::size_t number(std::string_view id) const {
    const auto at = std::find_if(pack_.adjustments.begin(), pack_.adjustments.end(),
                                 [&](const Adjustment& each) { return each.id == id; });
    return static_cast<std::size_t>(at - pack_.adjustments.begin());
  }

  Stakes stakes_;
  Pack pack_ = kart_pack();
  Kart kart_ = typical_kart(pack_);
  std::vector<Effect> effects_;
  std::vector<Way> ways_;
};

Stakes at_stake(double a, double b, double minutes = 60.0) {
  return {.mean = pair_of(a, b), .weights = pair_of(1.0, 0.5), .minutes_left = minutes};
}

TEST(BestBundle, CuresTwoThingsWithTwoMoves) {
  Garage garage(at_stake(1.0, -2.0));
  garage.with("axle", -1.0, 0.0).with("toe", 0.0, 1.0).with("front-bar", 0.0, 0.5);
  EXPECT_THAT(garage.moves(1), ElementsAre("toe more"));
  EXPECT_THAT(garage.moves(2), ElementsAre("axle more", "toe more"));
  EXPECT_THAT(garage.moves(3), ElementsAre("axle more", "front-bar more", "toe more"));
}

TEST(BestBundle, CountsItsPointsAsASingleMoveDoes) {
  Garage garage(at_stake(2.0, 0.0, 10.0));
  garage.with("axle", -1.0, 0.0, 0.5);
  const Bundle single = garage.best(2);
  EXPECT_EQ(single.moves.size(), 1U);
  EXPECT_NEAR(single.relief, 1.0 - 1.25 / 4.0, 1e-12);
  EXPECT_EQ(single.minutes, 5.0);
  EXPECT_NEAR(single.points, 68.75 - 0.75 * 5.0, 1e-12);
}

TEST(BestBundle, IsEmptyWhereNothingPaysForItsMinutes) {
  Garage garage(at_stake(2.0, 0.0, 10.0));
  garage.with("axle", -0.01, 0.0);
  const Bundle none = garage.best(2);
  EXPECT_THAT(none.moves, IsEmpty());
  EXPECT_EQ(none.points, 0.0);
  Garage content(at_stake(0.0, 0.0));
  EXPECT_THAT(content.with("axle", -1.0, 0.0).moves(3), IsEmpty()) << "there is no error to cure";
}

TEST(BestBundle, LosesThreePointsForEachLastNotch) {
  Garage garage(at_stake(1.0, -1.0));
  garage.with("rear-width", -1.0, 0.0).with("toe", 0.0, 1.0);
  const double points = garage.best(2).points;
  garage.setting("rear-width").limit.at_most = 1.365;
  EXPECT_NEAR(garage.best(2).points, points - 3.0, 1e-12);
}

TEST(BestBundle, NeverMovesOnePhysicalSettingTwice) {
  Garage garage(at_stake(1.0, -1.0));
  garage.with("front-pressures", -1.0, 0.0).with("rear-pressures", 0.0, 1.0);
  EXPECT_THAT(garage.moves(3), ElementsAre("front-pressures more"));
  garage.with("pressures", -0.2, 0.2);
  EXPECT_THAT(garage.moves(3), ElementsAre("front-pressures more"));
}

TEST(BestBundle, LeavesOutWhatIsNotLegalOrNotKnown) {
  Garage garage(at_stake(1.0, -1.0));
  garage.with("axle", -1.0, 0.0).with("toe", 0.0, 1.0);
  garage.setting("axle").in_the_box = {"medium"};
  EXPECT_THAT(garage.moves(2), ElementsAre("toe more"));
  Garage other(at_stake(1.0, -1.0));
  other.with("toe", 0.0, 1.0);
  EXPECT_THAT(other.moves(2), ElementsAre("toe more")) << "nobody knows what the axle does";
}

TEST(BestBundle, SharesTheStandAndFitsInTheBreak) {
  Garage garage(at_stake(1.0, -1.0, 11.0));
  garage.with("axle", -1.0, 0.0).with("rear-width", 0.0, 1.0);
  garage.adjustment("axle").minutes = 5.0;
  EXPECT_EQ(garage.best(2).minutes, 11.0) << "five and six, each on its own";
  garage.stakes().minutes_left = 9.0;
  EXPECT_EQ(garage.best(2).moves.size(), 1U);
  for (const char* id : {"axle", "rear-width"}) {
    garage.adjustment(id).shares_stand_with = {id == std::string("axle") ? "rear-width" : "axle"};
    garage.adjustment(id).stand_minutes = 2.0;
  }
  const Bundle together = garage.best(2);
  EXPECT_EQ(together.moves.size(), 2U);
  EXPECT_EQ(together.minutes, 9.0);
  EXPECT_NEAR(together.points, 100.0 - 0.5 * 15.0 / 9.0 * 9.0, 1e-9);
}

TEST(BestBundle, OnAFasterKartMustDoMoreThanQuietTheComplaint) {
  Garage garage(at_stake(2.0, -1.0));
  garage.with("axle", -2.0, 0.0).with("toe", 0.0, 1.0);
  garage.stakes().without_complaints = pair_of(0.0, -1.0);
  EXPECT_THAT(garage.moves(1), ElementsAre("toe more")) << "the axle would only quiet it";
  EXPECT_THAT(garage.moves(2), ElementsAre("toe more"));
  garage.stakes().without_complaints = pair_of(1.5, -1.0);
  EXPECT_THAT(garage.moves(2), ElementsAre("axle more", "toe more"));
  garage.stakes().with_complaints = pair_of(-1.0, 0.0);
  EXPECT_THAT(garage.moves(2), IsEmpty()) << "both go against what the driver feels";
}

TEST(BestBundle, OfTheBuiltInRulesSharesTwoMinutesOnTheStand) {
  const Pit pit{.track = "rubbered-in", .reports = {"hop@mid=3", "bind@mid=2"}, .minutes = 60.0};
  const Advice advice = pit.answer();
  const Stakes stakes{.mean = advice.belief.mean, .weights = advice.weights, .minutes_left = 60.0};
  std::vector<Way> rear;
  std::vector<Effect> effects;
  for (std::size_t i = 0; i < advice.ways.size(); ++i) {
    const std::string& id = advice.ways[i].adjustment->id;
    if (id != "rear-width" && id != "rear-hubs") continue;
    rear.push_back(advice.ways[i]);
    if (i % 2 == 0) effects.push_back(advice.effects[i / 2]);
  }
  const Bundle pair = best_bundle(stakes, rear, effects, 2);
  ASSERT_EQ(pair.moves.size(), 2U);
  EXPECT_THAT(pair.minutes, DoubleNear(10.0 + 6.0 - 2.0, 1e-12));
}

// A kart has about a hundred legal moves; the limit is loose for a busy machine and slow builds.
TEST(BestSet, OfThreeAmongAHundredAndFiftyIsQuick) {
  BundleCase c{.mean = Eigen::VectorXd::LinSpaced(9, -2.0, 2.0),
               .weights = Eigen::VectorXd::Ones(9)};
  for (int group = 0; group < 25; ++group) {
    Eigen::VectorXd effect(9);
    for (int axis = 0; axis < 9; ++axis) effect[axis] = ((group * 7 + axis * 5) % 11 - 5) / 10.0;
    c.steps.push_back({effect, 0.05});
    for (int place = 1; place <= 6; ++place) {
      c.items.push_back(take(static_cast<std::size_t>(group), place - 3.5));
    }
  }
  const auto start = std::chrono::steady_clock::now();
  EXPECT_EQ(best_set(c, 3).items.size(), 3U);
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
  EXPECT_LT(taken.count(), 2.0);
}

}  // namespace
}  // namespace kartwright
