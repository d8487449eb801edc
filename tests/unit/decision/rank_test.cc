// What each move leaves of the handling error, part by part, and in which order they come.

#include "engine/decision/rank.h"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Eigen::VectorXd vec(double a, double b) { return Eigen::Vector2d(a, b); }

/// Two axes with weights 1 and 0.5, and an hour to spare.
Stakes stakes(double a, double b, double minutes = 60.0) {
  return {.mean = vec(a, b), .weights = vec(1.0, 0.5), .minutes_left = minutes};
}

const EffectRule& some_rule() {
  static const EffectRule rule;
  return rule;
}

/// An effect per step with independent spreads.
Effect effect(double a, double b, double sd_a = 0.0, double sd_b = 0.0) {
  Effect out{.per_step = vec(a, b), .covariance = Eigen::MatrixXd::Zero(2, 2)};
  out.covariance(0, 0) = sd_a * sd_a;
  out.covariance(1, 1) = sd_b * sd_b;
  out.rules = {&some_rule()};
  return out;
}

/// Rankings of the small kart: rear-width 1360 of 1300-1400 mm in steps of 5, three at once; toe,
/// axle, front-bar and three pressures, one step at once. What is given no effect has none known.
class Pits {
 public:
  explicit Pits(Stakes at_stake) : stakes_(std::move(at_stake)) {
    for (Adjustment& each : pack_.adjustments) {
      if (each.id == "rear-width") each.most_at_once = 3 * each.step;
    }
    effects_.resize(pack_.adjustments.size());
    for (Effect& each : effects_) each = {vec(0, 0), Eigen::MatrixXd::Zero(2, 2)};
  }

  Pits& with(std::string_view adjustment, Effect effect) {
    const auto& all = pack_.adjustments;
    const auto at = std::find_if(all.begin(), all.end(),
                                 [&](const Adjustment& each) { return each.id == adjustment; });
    effects_.at(static_cast<std::size_t>(at - all.begin())) = std::move(effect);
    return *this;
  }

  Setting& setting(const char* id) { return kart_.settings.at(id); }
  Kart& kart() { return kart_; }

  const Ranking& rank() {
    ways_ = all_ways(pack_, kart_, stakes_.minutes_left);
    ranking_ = kartwright::rank(stakes_, ways_, effects_);
    return ranking_;
  }

  /// "rear-width wider"-like names of the candidates, best first.
  std::vector<std::string> order() {
    std::vector<std::string> out;
    for (const Candidate& each : rank().candidates) {
      const Adjustment& adjustment = *each.option.setting->adjustment;
      out.push_back(adjustment.id + " " + adjustment.directions.at(each.option.direction));
    }
    return out;
  }

  const Refused& refused(std::string_view adjustment, std::size_t direction) {
    for (const Refused& each : rank().refused) {
      if (each.way->adjustment->id == adjustment && each.way->direction == direction) return each;
    }
    throw std::out_of_range("not refused");
  }

 private:
  Stakes stakes_;
  Pack pack_ = kart_pack();
  Kart kart_ = typical_kart(pack_);
  std::vector<Effect> effects_;
  std::vector<Way> ways_;
  Ranking ranking_;
};

// --- the loss -----------------------------------------------------------------------------------

TEST(Loss, OfLeavingItAloneIsTheWeighedSquare) {
  EXPECT_NEAR(loss_of_nothing(stakes(2.0, -1.0)), 4.0 + 0.5, 1e-12);
}

TEST(Loss, OfAMoveIsWhatItLeavesAndWhatIsNotKnownOfIt) {
  // Two steps of (-0.5, +0.25) leave (1, -0.5): 1 + 0.125; spreads 0.1 and 0.2 add 4 (0.01 + 0.02).
  EXPECT_NEAR(loss_of(stakes(2.0, -1.0), effect(-0.5, 0.25, 0.1, 0.2), 2.0), 1.125 + 0.12, 1e-12);
  EXPECT_NEAR(loss_of(stakes(2.0, -1.0), effect(-0.5, 0.25), -2.0), 9.0 + 0.5 * 2.25, 1e-12);
}

TEST(Relief, IsTheShareTakenOut) {
  EXPECT_NEAR(relief_of(stakes(2.0, 0.0), 1.0), 0.75, 1e-12);
  EXPECT_NEAR(relief_of(stakes(2.0, 0.0), 6.0), -0.5, 1e-12);
  EXPECT_EQ(relief_of(stakes(0.0, 0.0), 3.0), 0.0) << "there is nothing to take out";
}

TEST(Relief, PrefersWhatIsKnownToWhatIsGuessed) {
  Pits pits(stakes(2.0, 0.0));
  pits.with("axle", effect(-1.0, 0.0, 0.6)).with("front-bar", effect(-1.0, 0.0, 0.1));
  EXPECT_THAT(pits.order(), ElementsAre("front-bar more", "axle more"));
}

// --- the clock ----------------------------------------------------------------------------------

TEST(EffortRate, IsHalfAPointAMinuteAndMoreInAShortBreak) {
  EXPECT_EQ(effort_rate(60.0), 0.5);
  EXPECT_EQ(effort_rate(15.0), 0.5);
  EXPECT_EQ(effort_rate(10.0), 0.75);
  EXPECT_EQ(effort_rate(5.0), 1.5);
  EXPECT_EQ(effort_rate(3.0), 2.0) << "four times is the most";
  EXPECT_EQ(effort_rate(0.0), 2.0);
}

// --- the parts of a score -----------------------------------------------------------------------

TEST(Score, IsTheSumOfItsParts) {
  Pits pits(stakes(2.0, 0.0, 10.0));
  pits.with("axle", effect(-1.0, 0.0, 0.5));
  const Candidate candidate = pits.rank().candidates.at(0);
  EXPECT_NEAR(candidate.relief, 1.0 - 1.25 / 4.0, 1e-12);
  EXPECT_NEAR(candidate.parts.effect, 68.75, 1e-12);
  EXPECT_NEAR(candidate.parts.effort, -0.75 * 5.0, 1e-12);
  EXPECT_EQ(candidate.parts.room, -100.0 * candidate.room_cost);
  EXPECT_EQ(candidate.parts.last_notch, 0.0) << "an end of three positions";
  EXPECT_EQ(candidate.parts.score(), candidate.parts.effect + candidate.parts.room +
                                         candidate.parts.effort + candidate.parts.last_notch);
}

TEST(Score, LosesThreePointsOnTheLastNotch) {
  Pits pits(stakes(2.0, 0.0));
  pits.with("rear-width", effect(-1.0, 0.0));
  EXPECT_EQ(pits.rank().candidates.at(0).parts.last_notch, 0.0);
  pits.setting("rear-width").limit.at_most = 1.365;
  EXPECT_EQ(pits.rank().candidates.at(0).parts.last_notch, -3.0) << "the class ends there";
}

TEST(BestSetting, IsTheHighestScoreAndNotTheFarthest) {
  Pits pits(stakes(2.0, 0.0));
  pits.with("rear-width", effect(-1.0, 0.0));
  const Candidate wider = pits.rank().candidates.at(0);
  EXPECT_EQ(wider.option.steps, 2.0) << "one leaves some, three go past it";
  EXPECT_NEAR(wider.relief, 1.0, 1e-12);
  EXPECT_FALSE(wider.then) << "there is no more to gain";
}

TEST(BestSetting, StopsShortOfALastNotchThatBringsLessThanItCosts) {
  Pits pits(stakes(2.0, 0.0));
  pits.setting("rear-width").now = 1.390;
  pits.with("rear-width", effect(-1.8, 0.0));  // one step leaves 0.04, two leave 2.56
  EXPECT_EQ(pits.rank().candidates.at(0).option.steps, 1.0);
  pits.with("rear-width", effect(-0.9, 0.0));  // one step leaves 1.21, two leave 0.04
  EXPECT_EQ(pits.rank().candidates.at(0).option.steps, 2.0) << "worth its three points";
  pits.with("rear-width", effect(-1.32, 0.0));  // one step leaves 0.1156, two leave 0.1024
  EXPECT_EQ(pits.rank().candidates.at(0).option.steps, 1.0) << "1.3 points are not worth three";
}

TEST(Then, IsWhereItWouldGoOnToWithNoLimitOnOneMove) {
  Pits pits(stakes(5.0, 0.0));
  pits.with("rear-width", effect(-1.0, 0.0));
  const Candidate first = pits.rank().candidates.at(0);
  EXPECT_EQ(first.option.steps, 3.0) << "as far as one move goes";
  ASSERT_TRUE(first.then.has_value());
  EXPECT_NEAR(*first.then, 1.385, 1e-12) << "five steps would take it all out";
  pits.setting("rear-width").limit.at_most = 1.380;
  EXPECT_NEAR(pits.rank().candidates.at(0).then.value_or(0.0), 1.380, 1e-12) << "inside the class";
}

// --- order --------------------------------------------------------------------------------------

TEST(Order, IsByScore) {
  Pits pits(stakes(2.0, 0.0));
  pits.with("axle", effect(-0.5, 0.0))
      .with("front-bar", effect(-1.0, 0.0))
      .with("toe", effect(0.8, 0.0));
  EXPECT_THAT(pits.order(), ElementsAre("front-bar more", "toe less", "axle more"));
}

TEST(Order, OfATieIsById) {
  Pits pits(stakes(2.0, 0.0));
  pits.with("axle", effect(-1.0, 0.0)).with("front-bar", effect(-1.0, 0.0));
  EXPECT_THAT(pits.order(), ElementsAre("axle more", "front-bar more"));
}

TEST(Order, OfATiePutsTheQuickerMoveFirst) {
  // 75 points less half of 8 minutes, and 100 x 47/64 less half of 4 7/8 minutes: 71 each, exactly.
  Pits pits(stakes(2.0, 0.0));
  pits.with("axle", effect(-1.0, 0.0)).with("front-bar", effect(-1.0, 0.0, 0.25));
  pits.setting("axle").minutes = 8.0;
  pits.setting("front-bar").minutes = 4.875;
  EXPECT_THAT(pits.order(), ElementsAre("front-bar more", "axle more"));
  const std::vector<Candidate> tied = pits.rank().candidates;
  ASSERT_EQ(tied[0].parts.score(), tied[1].parts.score());
}

TEST(OnlyComfort, IsAMoveThatRelievesTheComplaintAndNothingElse) {
  Stakes at_stake = stakes(2.0, 1.0);
  at_stake.without_complaints = vec(0.0, 1.0);
  Pits pits(at_stake);
  pits.with("axle", effect(-1.0, 0.0)).with("front-bar", effect(0.0, -0.5));
  EXPECT_THAT(pits.order(), ElementsAre("front-bar more", "axle more"))
      << "what the rest of the evidence asks for leads, whatever the scores";
  const std::vector<Candidate> candidates = pits.rank().candidates;
  EXPECT_FALSE(candidates[0].only_comfort);
  EXPECT_TRUE(candidates[1].only_comfort);
  EXPECT_GT(candidates[1].parts.score(), candidates[0].parts.score());
}

TEST(AgainstTheComplaint, IsAMoveThatMakesItWorseOnAFastKart) {
  Stakes at_stake = stakes(0.5, 1.0);
  at_stake.without_complaints = vec(1.0, 1.0);
  at_stake.with_complaints = vec(-2.0, 1.0);
  Pits pits(at_stake);
  pits.with("axle", effect(-0.5, 0.0)).with("front-bar", effect(0.0, -0.2));
  EXPECT_THAT(pits.order(), ElementsAre("front-bar more", "axle more"));
  const Candidate axle = pits.rank().candidates.at(1);
  EXPECT_GT(axle.parts.score(), pits.rank().candidates.at(0).parts.score());
  EXPECT_TRUE(axle.against_complaint && axle.held_back());
  EXPECT_FALSE(axle.only_comfort);
}

TEST(OnlyComfort, IsNothingWhereTheClockSaysNothing) {
  Pits pits(stakes(2.0, 1.0));
  pits.with("axle", effect(-1.0, 0.0));
  EXPECT_FALSE(pits.rank().candidates.at(0).only_comfort);
}

// --- what is not offered ------------------------------------------------------------------------

TEST(MakesWorse, NamesTheAxisThatSuffersMost) {
  Pits pits(stakes(2.0, 0.5));
  pits.with("axle", effect(0.5, 1.5));
  const Refused& worse = pits.refused("axle", 0);
  EXPECT_EQ(worse.refusal, Refusal::makes_worse);
  // axis 0: 2.5^2 - 2^2 = 2.25; axis 1: (2^2 - 0.5^2) / 2 = 1.875
  EXPECT_EQ(worse.worsens, 0U);
  EXPECT_FALSE(worse.uncertain);
}

TEST(MakesWorse, TellsWhatMightHelpFromWhatDoesHarm) {
  Pits pits(stakes(0.5, 0.0));
  pits.with("axle", effect(-0.5, 0.0, 0.9));
  EXPECT_TRUE(pits.refused("axle", 0).uncertain) << "it would help if only it were known";
  EXPECT_FALSE(pits.refused("axle", 1).uncertain);
}

TEST(MakesWorse, IsEverythingWhereTheKartIsAtItsOptimum) {
  Pits pits(stakes(0.0, 0.0));
  pits.with("axle", effect(-1.0, 0.0));
  EXPECT_THAT(pits.rank().candidates, IsEmpty());
  EXPECT_EQ(pits.refused("axle", 0).refusal, Refusal::makes_worse);
}

TEST(Refused, CarryTheReasonOfTheNearestPlace) {
  Pits pits(stakes(2.0, 0.0, 4.0));
  for (const char* id : {"axle", "front-bar", "rear-width", "toe"}) {
    pits.with(id, effect(-1.0, 0.0));
  }
  pits.setting("axle").in_the_box = {"medium"};
  pits.setting("rear-width").limit.at_most = 1.360;
  pits.setting("toe").minutes = 2.0;
  pits.setting("toe").now = pits.setting("toe").travel.places.back();
  pits.kart().settings.erase("rear-pressures");
  EXPECT_EQ(pits.refused("axle", 0).refusal, Refusal::no_part);
  EXPECT_EQ(pits.refused("front-bar", 0).refusal, Refusal::no_time);
  EXPECT_EQ(pits.refused("rear-width", 0).refusal, Refusal::class_limit);
  EXPECT_EQ(pits.refused("toe", 0).refusal, Refusal::end_stop);
  EXPECT_EQ(pits.refused("rear-pressures", 0).refusal, Refusal::not_on_this_kart);
  EXPECT_EQ(pits.refused("pressures", 0).refusal, Refusal::effect_unknown);
}

TEST(EveryWay, IsRankedOrRefusedOnce) {
  Pits pits(stakes(2.0, -1.0, 4.0));
  pits.with("toe", effect(-0.5, 0.3, 0.1))
      .with("axle", effect(0.4, 0.2))
      .with("pressures", effect(-0.2, -0.2, 0.3, 0.3));
  const Ranking& ranking = pits.rank();
  std::vector<std::string> seen;
  for (const Candidate& each : ranking.candidates) {
    seen.push_back(each.option.setting->adjustment->id + std::to_string(each.option.direction));
  }
  for (const Refused& each : ranking.refused) {
    seen.push_back(each.way->adjustment->id + std::to_string(each.way->direction));
  }
  std::sort(seen.begin(), seen.end());
  EXPECT_EQ(std::adjacent_find(seen.begin(), seen.end()), seen.end());
  EXPECT_EQ(seen.size(), 2 * kart_pack().adjustments.size());
}

}  // namespace
}  // namespace kartwright
