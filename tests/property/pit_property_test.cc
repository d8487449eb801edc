// Random karts with ranges, steps and limits of their own, some standing between two steps, through
// the whole engine: every reason given is true, every sum is one that the crew can do again.

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <string>

#include <gtest/gtest.h>

#include "tests/support/any.h"
#include "tests/support/pit.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

const int kPits = throws_of_the_dice(1'000);
constexpr double kSlack = 1e-9;

/// Runs a check over the same random pits each time.
template <typename Check>
void in_every_pit(Check check) {
  Random random(1'979);
  for (int i = 0; i < kPits; ++i) {
    const Kart kart = any_kart(random, rules());
    const Debrief debrief = any_debrief(random, rules());
    SCOPED_TRACE(testing::Message() << "pit " << i);
    check(kart, debrief, advise(rules(), kart, debrief, System::metric));
    if (testing::Test::HasFailure()) return;
  }
}

// --- what is offered, and what is not -----------------------------------------------------------

TEST(AnyPit, IsOfferedPlacesOfItsOwnGridAndNoFurtherThanOneMoveGoes) {
  std::size_t offered = 0;
  in_every_pit([&](const Kart& kart, const Debrief&, const Advice& advice) {
    for (const Change& change : advice.changes) {
      const Option& option = change.candidate.option;
      const Setting& setting = *kart.setting(change.adjustment().id);
      const std::vector<double>& places = setting.travel.places;
      EXPECT_EQ(std::count(places.begin(), places.end(), option.to), 1);
      EXPECT_LE(std::abs(option.to - setting.now), change.adjustment().most_at_once + kSlack);
      EXPECT_EQ(option.steps > 0.0, option.direction == 0);
      const double step = change.adjustment().reference_step;
      EXPECT_NEAR(option.steps, (option.to - setting.now) / step, kSlack);
      if (setting.limit.at_most) {
        EXPECT_LE(option.to, *setting.limit.at_most + kSlack);
      }
      if (setting.limit.at_least) {
        EXPECT_GE(option.to, *setting.limit.at_least - kSlack);
      }
    }
    offered += advice.changes.size();
  });
  EXPECT_GT(offered, 2U * kPits) << "too little was offered to say anything";
}

/// What the reason says must be so.
void expect_true_reason(const NotNow& refused, const Kart& kart, double minutes_left) {
  const Setting* setting = kart.setting(refused.adjustment);
  SCOPED_TRACE(std::string(refused.adjustment) + " " + std::string(refused.direction));
  EXPECT_NE(refused.reason, Refusal::none);
  EXPECT_FALSE(refused.text.empty());
  EXPECT_EQ(setting == nullptr, refused.reason == Refusal::not_on_this_kart);
  if (setting == nullptr) return;
  const bool limited =
      !setting->limit.allowed.empty() || setting->limit.at_least || setting->limit.at_most;
  EXPECT_LE(refused.reason == Refusal::class_limit, limited);
  EXPECT_LE(refused.reason == Refusal::no_part, setting->adjustment->parts);
  EXPECT_LE(refused.reason == Refusal::no_time, setting->minutes > minutes_left);
}

TEST(AnyPit, IsRefusedNothingWithoutAReasonThatIsTrue) {
  std::map<Refusal, int> reasons;
  in_every_pit([&](const Kart& kart, const Debrief& debrief, const Advice& advice) {
    for (const NotNow& each : advice.not_now) {
      expect_true_reason(each, kart, debrief.minutes);
      ++reasons[each.reason];
    }
  });
  for (const Refusal reason : {Refusal::end_stop, Refusal::class_limit, Refusal::no_part,
                               Refusal::no_time, Refusal::makes_worse, Refusal::not_on_this_kart}) {
    EXPECT_GT(reasons[reason], 50) << name_of(reason);
  }
}

// --- sums ----------------------------------------------------------------------------------------

TEST(AnyPit, ScoresByPartsThatSum) {
  in_every_pit([](const Kart&, const Debrief& debrief, const Advice& advice) {
    const double rate = 0.5 * std::clamp(15.0 / debrief.minutes, 1.0, 4.0);
    EXPECT_NEAR(advice.effort_rate, rate, kSlack);
    for (const Change& change : advice.changes) {
      const Candidate& candidate = change.candidate;
      const Parts& parts = candidate.parts;
      EXPECT_NEAR(parts.effect + parts.room + parts.effort + parts.last_notch, parts.score(),
                  kSlack);
      EXPECT_NEAR(parts.effect, 100.0 * candidate.relief, kSlack);
      EXPECT_NEAR(parts.room, -100.0 * candidate.room_cost, kSlack);
      EXPECT_NEAR(parts.effort, -rate * candidate.option.minutes, kSlack);
      EXPECT_EQ(parts.last_notch, candidate.option.last_notch ? -3.0 : 0.0);
      EXPECT_GT(candidate.relief, 0.0);
      EXPECT_LE(candidate.relief, 1.0);
    }
  });
}

TEST(AnyPit, IsToldSharesThatSumToWhatIsBelieved) {
  in_every_pit([](const Kart&, const Debrief&, const Advice& advice) {
    const Eigen::VectorXd shift = advice.belief.mean - advice.prior.mean;
    double loss = 0.0;
    for (Eigen::Index a = 0; a < shift.size(); ++a) {
      loss += advice.weights[a] * advice.belief.mean[a] * advice.belief.mean[a];
    }
    EXPECT_NEAR(advice.loss_none, loss, kSlack);
    for (const Change& change : advice.changes) {
      const auto axis = static_cast<Eigen::Index>(change.moves.front().axis);
      double told = 0.0;
      for (const auto& [reading, share] : change.shares) told += share;
      EXPECT_NEAR(told, shift[axis], kSlack) << change.adjustment().id;
    }
  });
}

TEST(AnyPit, HasFaultOddsThatAreTheSumOfTheirReasons) {
  std::size_t shown = 0;
  in_every_pit([&](const Kart&, const Debrief&, const Advice& advice) {
    for (const FaultOdds& odds : advice.checks) {
      double sum = 0.0;
      for (const Weight& weight : odds.because) sum += weight.decibans;
      EXPECT_NEAR(sum, odds.decibans, kSlack) << odds.fault->id;
      EXPECT_NEAR(odds.probability, 1.0 / (1.0 + std::exp(-odds.decibans * std::log(10.0) / 10.0)),
                  kSlack);
      EXPECT_GE(odds.probability, odds.evidence ? 0.05 : 0.15);
    }
    shown += advice.checks.size();
  });
  EXPECT_GT(shown, static_cast<std::size_t>(kPits));
}

TEST(AnyPit, LooksForFaultsStopsFirstThenByWorthAMinute) {
  in_every_pit([](const Kart&, const Debrief&, const Advice& advice) {
    const auto stops = [](const FaultOdds& odds) {
      return odds.fault->stop && odds.probability >= 0.5;
    };
    for (std::size_t i = 1; i < advice.checks.size(); ++i) {
      const FaultOdds& before = advice.checks[i - 1];
      const FaultOdds& after = advice.checks[i];
      EXPECT_GE(stops(before), stops(after));
      if (stops(before) != stops(after)) continue;
      EXPECT_GE(before.probability * before.fault->loss / before.fault->minutes,
                after.probability * after.fault->loss / after.fault->minutes - 1e-15);
    }
    const bool stop = !advice.checks.empty() && stops(advice.checks.front());
    EXPECT_EQ(advice.verdict.headline == Headline::stop_and_fix, stop);
  });
}

TEST(AnyPit, HearsOnlyFiniteNumbers) {
  in_every_pit([](const Kart&, const Debrief&, const Advice& advice) {
    EXPECT_TRUE(advice.belief.mean.allFinite());
    EXPECT_TRUE(advice.belief.covariance.allFinite());
    EXPECT_TRUE(advice.belief.shares.allFinite());
    EXPECT_TRUE(std::isfinite(advice.coherence.chi2));
    EXPECT_GE(advice.belief.covariance.diagonal().minCoeff(), 0.0);
    for (const Effect& effect : advice.effects) {
      EXPECT_TRUE(effect.per_step.allFinite() && effect.covariance.allFinite());
    }
    for (const Way& way : advice.ways) {
      for (const Option& option : way.options) {
        EXPECT_TRUE(std::isfinite(option.steps) && std::isfinite(option.room_left));
      }
    }
    for (const Change& change : advice.changes) {
      EXPECT_TRUE(std::isfinite(change.candidate.parts.score()));
      EXPECT_TRUE(std::isfinite(change.candidate.relief));
    }
    for (const FaultOdds& odds : advice.checks) EXPECT_TRUE(std::isfinite(odds.worth_per_minute()));
  });
}

}  // namespace
}  // namespace kartwright
