// The worth of an answer against plain integration and against drawing karts, on random beliefs and
// moves; and what is asked after random debriefs.

#include <algorithm>
#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/decision/questions.h"
#include "engine/decision/rank.h"
#include "engine/inference/derive.h"
#include "tests/support/any.h"
#include "tests/support/naive.h"
#include "tests/support/pit.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

/// A belief, some moves, and a question.
struct Trial {
  Belief belief;
  Eigen::VectorXd weights;
  std::vector<Effect> effects;
  std::vector<SingleMove> moves;
  Asked asked;

  double loss() const { return loss_of_nothing({.mean = belief.mean, .weights = weights}); }
  double worth() const {
    return worth_of_answer(gains_of(belief.mean, weights, moves, effects), belief, asked);
  }
  double evsi() const { return worth() / loss(); }
};

Eigen::VectorXd any_vector(Random& random, Eigen::Index n, double scale) {
  std::normal_distribution<double> draw(0.0, scale);
  return Eigen::VectorXd::NullaryExpr(n, [&] { return draw(random); });
}

Trial any_trial(Random& random, Eigen::Index axes, int moves) {
  Trial out;
  Eigen::MatrixXd root(axes, axes);
  for (Eigen::Index i = 0; i < axes; ++i) root.col(i) = any_vector(random, axes, 0.8);
  out.belief.covariance = root * root.transpose() + 0.1 * Eigen::MatrixXd::Identity(axes, axes);
  out.belief.mean = any_vector(random, axes, 1.0);
  out.weights = any_vector(random, axes, 0.2).cwiseAbs() + Eigen::VectorXd::Constant(axes, 0.6);
  for (int i = 0; i < moves; ++i) {
    const Eigen::VectorXd spread = any_vector(random, axes, 0.3);
    out.effects.push_back(
        {.per_step = any_vector(random, axes, 0.6), .covariance = spread.cwiseAbs2().asDiagonal()});
    out.moves.push_back({static_cast<std::size_t>(i), any_between(random, -2.0, 2.0)});
  }
  out.asked = {.row = any_vector(random, axes, 1.0),
               .sd = any_between(random, 0.3, 2.1),
               .two_sided = one_in(random, 2)};
  // Where there is next to no error, its share means nothing.
  if (out.loss() < 0.2) out.belief.mean[0] += 1.0;
  return out;
}

naive::Vector plain_vector(const Eigen::VectorXd& v) { return {v.data(), v.data() + v.size()}; }
naive::Matrix plain_matrix(const Eigen::MatrixXd& m) {
  naive::Matrix out;
  for (Eigen::Index i = 0; i < m.rows(); ++i) out.push_back(plain_vector(m.row(i)));
  return out;
}

/// A trial in plain loops: what each move gains where the answer lies z deviations off what is
/// expected, from the loss itself.
class Plainly {
 public:
  explicit Plainly(const Trial& trial)
      : mean_(plain_vector(trial.belief.mean)), weights_(plain_vector(trial.weights)) {
    const naive::Matrix covariance = plain_matrix(trial.belief.covariance);
    const naive::Vector row = plain_vector(trial.asked.row);
    double variance = trial.asked.sd * trial.asked.sd;
    for (std::size_t i = 0; i < row.size(); ++i) {
      expected_ += row[i] * mean_[i];
      for (std::size_t j = 0; j < row.size(); ++j) variance += row[i] * covariance[i][j] * row[j];
    }
    deviation_ = std::sqrt(variance);
    // One deviation more than expected, folded in by the one-reading update.
    const naive::Reading answer{row, expected_ + deviation_, trial.asked.sd};
    moved_ = naive::one_at_a_time(mean_, covariance, {answer}).mean;
    for (const SingleMove& move : trial.moves) {
      const Effect& effect = trial.effects[move.adjustment];
      moves_.push_back(
          {plain_vector(effect.per_step), plain_matrix(effect.covariance), move.steps});
    }
  }

  double expected() const { return expected_; }    ///< the answer, in notches
  double deviation() const { return deviation_; }  ///< of it, in notches

  /// By move, doing nothing first.
  naive::Vector gains(double z) const {
    naive::Vector at = mean_;
    for (std::size_t i = 0; i < at.size(); ++i) at[i] += z * (moved_[i] - mean_[i]);
    naive::Vector out{0.0};
    const double none = naive::quadratic(at, weights_);
    for (const Moved& move : moves_) {
      out.push_back(none - naive::loss(at, weights_, move.per_step, move.covariance, move.steps));
    }
    return out;
  }

 private:
  struct Moved {
    naive::Vector per_step;
    naive::Matrix covariance;
    double steps;
  };
  naive::Vector mean_, weights_, moved_;
  std::vector<Moved> moves_;
  double expected_ = 0.0, deviation_ = 1.0;
};

std::size_t highest(const naive::Vector& gains) {
  return static_cast<std::size_t>(std::max_element(gains.begin(), gains.end()) - gains.begin());
}

double unit_density(double z) { return std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::acos(-1.0)); }

/// Integrals over z by Simpson's rule on 2,001 points out to nine deviations, of which the last
/// holds 1e-18. A cell at whose ends two moves lead is halved until the kink lies in a cell too
/// narrow to matter; a move that leads at both ends leads between them, since lines cross once.
class Simpson {
 public:
  explicit Simpson(const Plainly& plainly) : plainly_(plainly) {}

  /// Of the best move's gain.
  double best(double from, double to) const {
    double sum = 0.0;
    each_cell(from, to, [&](const Point& a, const Point& b) { sum += best_in(a, b, kHalvings); });
    return sum;
  }

  /// Of every move's gain.
  naive::Vector each(double from, double to) const {
    naive::Vector sum(plainly_.gains(0.0).size(), 0.0);
    each_cell(from, to, [&](const Point& a, const Point& b) {
      const Point mid = at(0.5 * (a.z + b.z));
      for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += rule(a, mid, b, i);
    });
    return sum;
  }

 private:
  static constexpr int kCells = 2000, kHalvings = 20;
  static constexpr double kEnd = 9.0;
  struct Point {
    double z;
    naive::Vector gains;
  };

  Point at(double z) const { return {z, plainly_.gains(z)}; }

  template <typename Visit>
  void each_cell(double from, double to, const Visit& visit) const {
    from = std::max(from, -kEnd);
    to = std::min(to, kEnd);
    if (from >= to) return;
    const int cells = std::max(1, static_cast<int>(kCells * (to - from) / (2.0 * kEnd)));
    Point left = at(from);
    for (int i = 1; i <= cells; ++i) {
      Point right = at(from + (to - from) * i / cells);
      visit(left, right);
      left = std::move(right);
    }
  }

  static double rule(const Point& a, const Point& mid, const Point& b, std::size_t move) {
    return (b.z - a.z) / 6.0 *
           (unit_density(a.z) * a.gains[move] + 4.0 * unit_density(mid.z) * mid.gains[move] +
            unit_density(b.z) * b.gains[move]);
  }

  double best_in(const Point& a, const Point& b, int halvings) const {
    const Point mid = at(0.5 * (a.z + b.z));
    const std::size_t lead = highest(mid.gains);
    const bool alone = highest(a.gains) == lead && highest(b.gains) == lead;
    if (alone || halvings == 0) return rule(a, mid, b, lead);
    return best_in(a, mid, halvings - 1) + best_in(mid, b, halvings - 1);
  }

  const Plainly& plainly_;
};

double worth_by_integration(const Trial& trial) {
  const Plainly plainly(trial);
  const Simpson simpson(plainly);
  const naive::Vector now = plainly.gains(0.0);
  const double without = now[highest(now)];
  if (trial.asked.two_sided) return simpson.best(-HUGE_VAL, HUGE_VAL) - without;
  const double nothing = -plainly.expected() / plainly.deviation();
  const naive::Vector denied = simpson.each(-HUGE_VAL, nothing);
  return denied[highest(denied)] + simpson.best(nothing, HUGE_VAL) - without;
}

TEST(AnswerProperty, IsWorthWhatPlainIntegrationOverTheLossSays) {
  Random random(21);
  int worth_something = 0;
  for (int i = 0; i < 50; ++i) {
    const Trial trial = any_trial(random, whole(random, 1, 8), whole(random, 1, 6));
    const double evsi = trial.evsi();
    ASSERT_NEAR(evsi, worth_by_integration(trial) / trial.loss(), 1e-6) << "case " << i;
    worth_something += evsi > 1e-3 ? 1 : 0;
  }
  EXPECT_GT(worth_something, 25);
}

// --- drawing karts ------------------------------------------------------------------------------

constexpr int kDraws = 200'000;

/// A kart of two axes and its driver: three unit normals.
using Draw = std::array<double, 3>;

const std::vector<Draw>& all_draws() {
  static const std::vector<Draw> draws = [] {
    Random random(22);
    std::normal_distribution<double> unit;
    std::vector<Draw> out(kDraws);
    for (Draw& draw : out) draw = {unit(random), unit(random), unit(random)};
    return out;
  }();
  return draws;
}

/// height + x first + y second.
struct Plane {
  double height, first, second;
  double at(double x, double y) const { return height + first * x + second * y; }
};

struct Estimate {
  double mean = 0.0, error = 0.0;
};

/// Draws what the kart is really like and what the driver would say of it, lets the crew choose by
/// the answer, and counts what that really gains over the choice without it.
class Drawing {
 public:
  explicit Drawing(const Trial& trial) : plainly_(trial), asked_(trial.asked) {
    const double a = std::sqrt(trial.belief.covariance(0, 0));
    const double b = trial.belief.covariance(0, 1) / a;
    const double c = std::sqrt(trial.belief.covariance(1, 1) - b * b);
    mean_ = {trial.belief.mean[0], trial.belief.mean[1]};
    root_ = {a, b, c};
    really_.push_back({0.0, 0.0, 0.0});
    for (const SingleMove& move : trial.moves) {
      const Effect& effect = trial.effects[move.adjustment];
      const double x = move.steps * effect.per_step[0], y = move.steps * effect.per_step[1];
      const double square =
          trial.weights[0] * (x * x + move.steps * move.steps * effect.covariance(0, 0)) +
          trial.weights[1] * (y * y + move.steps * move.steps * effect.covariance(1, 1));
      really_.push_back({-square, -2.0 * trial.weights[0] * x, -2.0 * trial.weights[1] * y});
    }
    // The gains that the crew expects are lines over the answer.
    flat_ = plainly_.gains(0.0);
    tilt_ = plainly_.gains(1.0);
    for (std::size_t i = 0; i < tilt_.size(); ++i) tilt_[i] -= flat_[i];
  }

  Estimate worth() const {
    const std::size_t without = highest(flat_);
    const std::size_t denied = choice(mean_denial());
    double sum = 0.0, squares = 0.0;
    for (const Draw& draw : all_draws()) {
      const auto [x, y] = kart(draw);
      const double said = answer(x, y, draw);
      const std::size_t chosen = asked_.two_sided || said > 0.0 ? choice(said) : denied;
      if (chosen == without) continue;
      const double more = really_[chosen].at(x, y) - really_[without].at(x, y);
      sum += more;
      squares += more * more;
    }
    const double mean = sum / kDraws;
    return {mean, std::sqrt((squares / kDraws - mean * mean) / kDraws)};
  }

 private:
  std::array<double, 2> kart(const Draw& draw) const {
    return {mean_[0] + root_[0] * draw[0], mean_[1] + root_[1] * draw[0] + root_[2] * draw[1]};
  }
  double answer(double x, double y, const Draw& draw) const {
    return asked_.row[0] * x + asked_.row[1] * y + asked_.sd * draw[2];
  }

  std::size_t choice(double said) const {
    const double z = (said - plainly_.expected()) / plainly_.deviation();
    std::size_t best = 0;
    double most = 0.0;
    for (std::size_t i = 1; i < flat_.size(); ++i) {
      const double gain = flat_[i] + z * tilt_[i];
      if (gain <= most) continue;
      best = i;
      most = gain;
    }
    return best;
  }

  double mean_denial() const {
    double sum = 0.0;
    int count = 0;
    for (const Draw& draw : all_draws()) {
      const auto [x, y] = kart(draw);
      const double said = answer(x, y, draw);
      if (said > 0.0) continue;
      sum += said;
      ++count;
    }
    return count == 0 ? 0.0 : sum / count;
  }

  Plainly plainly_;
  Asked asked_;
  std::array<double, 2> mean_ = {};
  std::array<double, 3> root_ = {};
  std::vector<Plane> really_;
  naive::Vector flat_, tilt_;
};

TEST(AnswerProperty, IsWorthWhatCrewsThatHearItReallyGain) {
  Random random(23);
  int worth_something = 0;
  for (int i = 0; i < 50; ++i) {
    const Trial trial = any_trial(random, 2, whole(random, 1, 4));
    const Estimate drawn = Drawing(trial).worth();
    // What is too rare to be drawn is too little to be seen.
    const double unseen = 1e-6 * trial.loss();
    ASSERT_NEAR(trial.worth(), drawn.mean, 4.0 * drawn.error + unseen)
        << "case " << i << ", error " << drawn.error;
    worth_something += trial.evsi() > 1e-3 ? 1 : 0;
  }
  EXPECT_GT(worth_something, 25);
}

// --- whatever the case --------------------------------------------------------------------------

TEST(AnswerProperty, IsNeverBelowNothingAndNeverMoreForTellingLess) {
  Random random(24);
  int positive = 0;
  for (int i = 0; i < throws_of_the_dice(4000); ++i) {
    Trial trial = any_trial(random, whole(random, 1, 8), whole(random, 0, 30));
    trial.asked.two_sided = false;
    const double denials_alike = trial.worth();
    trial.asked.two_sided = true;
    const double all_told = trial.worth();
    trial.asked.sd *= 1.5;
    const double less_sure = trial.worth();
    const double rounding = 1e-12 * (1.0 + all_told);
    ASSERT_GE(denials_alike, 0.0) << "case " << i;
    ASSERT_GE(less_sure, 0.0) << "case " << i;
    ASSERT_LE(denials_alike, all_told + rounding) << "case " << i;
    ASSERT_LE(less_sure, all_told + rounding) << "case " << i;
    ASSERT_TRUE(std::isfinite(all_told)) << "case " << i;
    positive += all_told > 0.0 ? 1 : 0;
  }
  EXPECT_GT(positive, throws_of_the_dice(2000));
}

TEST(AnswerProperty, IsWorthNothingWhereOneMoveLeadsWhateverIsSaid) {
  Random random(25);
  for (int i = 0; i < throws_of_the_dice(500); ++i) {
    Trial trial = any_trial(random, whole(random, 1, 8), 1);
    // Each other move does the same with less known of it.
    for (std::size_t other = 1; other < 5; ++other) {
      trial.moves.push_back({other, trial.moves[0].steps});
      trial.effects.push_back(trial.effects[0]);
      trial.effects.back().covariance.diagonal().array() += 0.1 * static_cast<double>(other);
    }
    const double all = trial.worth();
    trial.moves.resize(1);
    ASSERT_NEAR(all, trial.worth(), 1e-12 * (1.0 + all))
        << "case " << i << ": they add nothing to the first";
    // And that one leads for certain where the answer moves nothing.
    trial.belief.covariance.setZero();
    ASSERT_EQ(trial.worth(), 0.0) << "case " << i;
  }
}

TEST(ValueProperty, IsNeverBelowNothing) {
  Random random(26);
  for (int i = 0; i < throws_of_the_dice(4000); ++i) {
    const Eigen::Index moves = whole(random, 0, 20), values = whole(random, 1, 5);
    Eigen::MatrixXd gains(moves, values);
    for (Eigen::Index v = 0; v < values; ++v) gains.col(v) = any_vector(random, moves, 2.0);
    Eigen::VectorXd weights = any_vector(random, values, 1.0).cwiseAbs();
    weights /= weights.sum();
    const double worth = worth_of_value(gains, weights);
    ASSERT_GE(worth, 0.0) << "case " << i;
    ASSERT_TRUE(std::isfinite(worth)) << "case " << i;
  }
}

bool said_already(const Question& question, const Debrief& debrief, const Facts& facts) {
  if (question.fact != nullptr) return facts.stated(question.fact->id);
  const auto& reports = debrief.heard.reports;
  return std::any_of(reports.begin(), reports.end(), [&](const Report& report) {
    const bool about =
        report.symptom == question.id() || report.symptom == question.symptom->against;
    return about && (report.phase == question.phase || report.phase == Phase::any);
  });
}

void expect_in_order(const std::vector<Question>& asked) {
  for (std::size_t i = 0; i < asked.size(); ++i) {
    ASSERT_TRUE(std::isfinite(asked[i].worth)) << asked[i].id();
    ASSERT_GE(asked[i].worth, 0.0) << asked[i].id();
    const double before = i > 0 ? asked[i - 1].worth : HUGE_VAL;
    ASSERT_GE(before + 1e-8, asked[i].worth) << asked[i].id();
  }
}

TEST(QuestionsProperty, AreWorthSomethingOrNothingAndNeverAboutWhatWasSaid) {
  Random random(27);
  const Prior prior = make_prior(rules());
  const Advice weighed = Pit{}.answer();
  int worth_asking = 0;
  for (int i = 0; i < 100 && !HasFatalFailure(); ++i) {
    const Kart kart = any_kart(random, rules());
    const Debrief debrief = any_debrief(random, rules());
    const std::vector<Report>& reports = debrief.heard.reports;
    const Situation situation{
        .pack = rules(),
        .kart = kart,
        .reports = reports,
        .facts = settle_facts(rules(), kart, reports, given_facts(rules(), kart, debrief))};
    const Belief belief = update(prior, take_readings(situation));
    std::vector<Effect> effects;
    for (const Adjustment& each : rules().adjustments) {
      effects.push_back(effect_of(each, situation));
    }
    const std::vector<Way> ways = all_ways(rules(), kart, debrief.minutes);
    const std::vector<Question> asked = questions({.situation = situation,
                                                   .prior = prior,
                                                   .belief = belief,
                                                   .weights = weighed.weights,
                                                   .ways = ways,
                                                   .effects = effects});
    expect_in_order(asked);
    for (const Question& question : asked) {
      ASSERT_FALSE(said_already(question, debrief, situation.facts)) << question.id();
      worth_asking += question.worth >= 1.0 ? 1 : 0;
    }
  }
  EXPECT_GT(worth_asking, 100);
}

}  // namespace
}  // namespace kartwright
