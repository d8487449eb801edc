// What it is worth to hear an answer before a move is chosen, on karts small enough to work out by
// hand.

#include "engine/decision/worth.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/decision/rank.h"
#include "tests/support/kart_pack.h"

namespace kartwright {
namespace {

/// The unit normal loss: E[max(0, Z - z)].
double unit_loss(double z) {
  const double density = std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::acos(-1.0));
  return density - z * 0.5 * std::erfc(z / std::sqrt(2.0));
}

Effect known_effect(Eigen::VectorXd per_step, double spread = 0.0) {
  static const EffectRule some;
  const Eigen::Index n = per_step.size();
  Effect out{.per_step = std::move(per_step),
             .covariance = spread * spread * Eigen::MatrixXd::Identity(n, n)};
  out.rules = {&some};
  return out;
}

Eigen::VectorXd a_vector(double x) { return Eigen::VectorXd::Constant(1, x); }

Belief one_axis(double mean, double variance) {
  return {a_vector(mean), Eigen::MatrixXd::Constant(1, 1, variance), {}};
}

/// A step up or down of one notch on the only axis, weight 1.
Gains a_notch_either_way(double mean) {
  return gains_of(a_vector(mean), a_vector(1.0), {{0, 1.0}, {0, -1.0}},
                  {known_effect(a_vector(1.0))});
}

// --- gains --------------------------------------------------------------------------------------

TEST(Gains, AreWhatAMoveTakesOutOfTheLoss) {
  const Eigen::Vector2d mean(1.5, -0.5), weights(1.0, 0.6);
  const std::vector<Effect> effects{known_effect(Eigen::Vector2d(-0.6, 0.3), 0.4),
                                    known_effect(Eigen::Vector2d(0.2, 0.1), 0.1)};
  const std::vector<SingleMove> moves{{0, 1.0}, {0, -0.5}, {1, 2.0}};
  const Gains gains = gains_of(mean, weights, moves, effects);
  const Eigen::Vector2d shift(-0.7, 0.9);
  for (Eigen::Index i = 0; i < 3; ++i) {
    const auto& [adjustment, steps] = moves[static_cast<std::size_t>(i)];
    const auto gain_at = [&, a = adjustment, u = steps](const Eigen::VectorXd& at) {
      const Stakes stakes{.mean = at, .weights = weights};
      return loss_of_nothing(stakes) - loss_of(stakes, effects[a], u);
    };
    EXPECT_NEAR(gains.now[i], gain_at(mean), 1e-12);
    EXPECT_NEAR(gains.now[i] + gains.tilt.row(i).dot(shift), gain_at(mean + shift), 1e-12)
        << "linear in the belief";
  }
}

TEST(Moves, AreThoseThatAreLegalAndWhoseEffectIsKnown) {
  Kart kart = typical_kart(kart_pack());
  kart.settings.at("rear-width").limit.at_most = 1.360;  // as it stands
  const std::vector<Way> ways = all_ways(kart_pack(), kart, 5.5);
  std::vector<Effect> effects(kart_pack().adjustments.size());
  for (std::size_t i = 0; i < effects.size(); ++i) {
    const std::string& id = kart_pack().adjustments[i].id;
    if (id == "rear-width" || id == "axle" || id == "toe") effects[i] = known_effect(a_vector(1.0));
  }
  std::string found;
  for (const SingleMove& move : legal_moves(ways, effects)) {
    found += kart_pack().adjustments[move.adjustment].id + (move.steps > 0.0 ? "+ " : "- ");
  }
  EXPECT_EQ(found, "axle+ axle- ") << "the widths take six minutes";
  found.clear();
  for (const SingleMove& move : legal_moves(all_ways(kart_pack(), kart, 15.0), effects)) {
    found += kart_pack().adjustments[move.adjustment].id + (move.steps > 0.0 ? "+ " : "- ");
  }
  EXPECT_EQ(found, "axle+ axle- rear-width- toe+ toe- ");
}

// --- an answer ----------------------------------------------------------------------------------

TEST(Answer, OnAKartThatMayBeOffEitherWayIsWorthBothMoves) {
  // Nothing gains at 0: a notch too far costs 1. With P = 4 and sd = 0 the mean moves by 2 a
  // deviation and a gain by 4: E[max(0, 4 |z| - 1)] = 2 x 4 L(1/4).
  const Asked asked{.row = a_vector(1.0), .sd = 1e-9, .two_sided = true};
  EXPECT_NEAR(worth_of_answer(a_notch_either_way(0.0), one_axis(0.0, 4.0), asked),
              8.0 * unit_loss(0.25), 1e-8);
}

TEST(Answer, ThatIsLessSureIsWorthLess) {
  // s^2 = 4 + 5 = 9: the mean moves by 4/3 a deviation, a gain by 8/3.
  const Asked asked{.row = a_vector(1.0), .sd = std::sqrt(5.0), .two_sided = true};
  EXPECT_NEAR(worth_of_answer(a_notch_either_way(0.0), one_axis(0.0, 4.0), asked),
              16.0 / 3.0 * unit_loss(3.0 / 8.0), 1e-12);
}

TEST(Answer, CountsOnlyWhatItAddsToTheMoveThatLeadsAnyway) {
  // At -2 a step up leads with 3: it falls behind doing nothing only beyond 3/4 of a deviation.
  const Asked asked{.row = a_vector(1.0), .sd = 1e-9, .two_sided = true};
  const double worth = worth_of_answer(a_notch_either_way(-2.0), one_axis(-2.0, 4.0), asked);
  EXPECT_NEAR(worth, 4.0 * unit_loss(0.75) + 4.0 * unit_loss(1.25), 1e-8);
}

TEST(Answer, ThatCanOnlyBeADenialTellsNothingOfHowFar) {
  // Half of the answers are one denial: there the mean is -2 x 0.797885 and a step up gains
  // 4 x 0.797885 - 1, once for all; in the other half all is told apart.
  const Asked asked{.row = a_vector(1.0), .sd = 1e-9, .two_sided = false};
  const double half_mean = std::sqrt(2.0 / std::acos(-1.0));
  EXPECT_NEAR(worth_of_answer(a_notch_either_way(0.0), one_axis(0.0, 4.0), asked),
              0.5 * (4.0 * half_mean - 1.0) + 4.0 * unit_loss(0.25), 1e-8);
}

TEST(Answer, ThatCanOnlyBeADenialLeansOnWhatIsBelievedAlready) {
  // Believed to be 1 off, P = 4 and sd = 0: the mean after an answer z is 1 + 2 z, and every z up
  // to -1/2 is one denial. Summed over narrow strips of z.
  const Asked asked{.row = a_vector(1.0), .sd = 1e-9, .two_sided = false};
  const auto best_at = [](double mean) {
    return std::max({0.0, -2.0 * mean - 1.0, 2.0 * mean - 1.0});
  };
  double seen = 0.0, denied = 0.0, mean_denied = 0.0;
  constexpr double kStrip = 1e-4;
  for (double z = -8.0 + kStrip / 2.0; z < 8.0; z += kStrip) {
    const double share = std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::acos(-1.0)) * kStrip;
    if (z <= -0.5) {
      denied += share;
      mean_denied += share * (1.0 + 2.0 * z);
    } else {
      seen += share * best_at(1.0 + 2.0 * z);
    }
  }
  seen += denied * best_at(mean_denied / denied);
  EXPECT_NEAR(worth_of_answer(a_notch_either_way(1.0), one_axis(1.0, 4.0), asked),
              seen - best_at(1.0), 1e-6);
}

TEST(Answer, IsWorthTheSameHoweverTheRowIsTurnedWhereItHasTwoSides) {
  const Belief belief = one_axis(-0.4, 2.0);
  const Asked there{.row = a_vector(1.0), .sd = 0.7, .two_sided = true};
  const Asked turned{.row = a_vector(-1.0), .sd = 0.7, .two_sided = true};
  EXPECT_NEAR(worth_of_answer(a_notch_either_way(-0.4), belief, there),
              worth_of_answer(a_notch_either_way(-0.4), belief, turned), 1e-12);
}

TEST(Answer, IsWorthNothingWhereItCannotChangeTheMove) {
  const Asked asked{.row = a_vector(1.0), .sd = 0.7, .two_sided = true};
  EXPECT_EQ(worth_of_answer(a_notch_either_way(3.0), one_axis(3.0, 0.0), asked), 0.0)
      << "nothing is open";
  EXPECT_EQ(
      worth_of_answer(gains_of(a_vector(3.0), a_vector(1.0), {}, {}), one_axis(3.0, 4.0), asked),
      0.0)
      << "nothing may be moved";
  // The answer speaks of another axis than the moves.
  const Belief belief{Eigen::Vector2d(1.0, 0.0), Eigen::Matrix2d::Identity(), {}};
  const Gains gains = gains_of(belief.mean, Eigen::Vector2d(1.0, 1.0), {{0, 1.0}, {0, -1.0}},
                               {known_effect(Eigen::Vector2d(1.0, 0.0))});
  const Asked elsewhere{.row = Eigen::Vector2d(0.0, 1.0), .sd = 0.7, .two_sided = true};
  EXPECT_EQ(worth_of_answer(gains, belief, elsewhere), 0.0);
}

// --- a fact -------------------------------------------------------------------------------------

TEST(Value, IsWorthWhatEachValuesOwnMoveAddsToOneMoveForAll) {
  Eigen::MatrixXd gains(2, 2);  // a move that is right under the one value, one for both
  gains << 4.0, -2.0,           //
      1.0, 1.0;
  EXPECT_NEAR(worth_of_value(gains, Eigen::Vector2d(0.5, 0.5)), 2.5 - 1.0, 1e-12);
  EXPECT_NEAR(worth_of_value(gains, Eigen::Vector2d(0.9, 0.1)), 3.7 - 3.4, 1e-12);
}

TEST(Value, IsComparedWithDoingNothingToo) {
  Eigen::MatrixXd gains(1, 2);
  gains << 3.0, -5.0;
  EXPECT_NEAR(worth_of_value(gains, Eigen::Vector2d(0.5, 0.5)), 1.5, 1e-12);
  gains << -3.0, -5.0;
  EXPECT_EQ(worth_of_value(gains, Eigen::Vector2d(0.5, 0.5)), 0.0);
}

TEST(Value, IsWorthNothingWhereOneMoveIsBestUnderAll) {
  Eigen::MatrixXd gains(2, 3);
  gains << 3.0, 1.0, 0.5,  //
      2.0, 0.9, -1.0;
  EXPECT_NEAR(worth_of_value(gains, Eigen::Vector3d(0.2, 0.5, 0.3)), 0.0, 1e-15);
  EXPECT_EQ(worth_of_value(Eigen::MatrixXd(0, 2), Eigen::Vector2d(0.5, 0.5)), 0.0);
}

}  // namespace
}  // namespace kartwright
