// What was foretold of a day held against what came: shares of intervals, complaints eased, and
// advice that was followed.

#include <cmath>

#include <boost/math/distributions/normal.hpp>
#include <gtest/gtest.h>

#include "engine/advice/learned.h"
#include "engine/records/calibration.h"
#include "tests/support/logged_day.h"

namespace kartwright {
namespace {

class ForetoldDays : public LoggedDay {
 protected:
  static std::vector<Effect> effects() { return effects_by_rules(pack(), kart(), "green"); }

  LoggedRun& driven(std::vector<Report> reports, double steps = 0.0) {
    LoggedRun& run = LoggedDay::driven(std::move(reports));
    if (steps != 0.0) run.changes = {{.adjustment = "rear-width", .steps = steps}};
    return run;
  }
  Calibration found() const { return calibrate(runs_, pack(), kart(), effects()); }
};

/// The share of a triangle of two rounding errors, -1 to 1, between two ends; by its strips.
double share_of_rounding(double from, double to) {
  constexpr int kStrips = 200'000;
  double share = 0.0;
  for (int i = 0; i < kStrips; ++i) {
    const double x = -1.0 + (i + 0.5) * 2.0 / kStrips;
    if (x > from && x < to) share += (1.0 - std::abs(x)) * 2.0 / kStrips;
  }
  return share;
}

TEST_F(ForetoldDays, AnIntervalHoldsTheShareOfWhatRoundsToWhatWasSaid) {
  for (const int after : {0, 1, 2, 3}) {
    for (const double steps : {1.0, -1.0, 3.0}) {
      runs_.clear();
      driven({mid("hop", 2)});
      driven({mid("hop", after)}, steps);
      const DayOfRuns day =
          DayReader(pack(), rules_for(pack(), kart())).day(cut_into_days(runs_).at(0));
      const auto told = Foretelling(effects()).take(day);
      ASSERT_EQ(told.size(), 1U);
      const double a_grade = pack().symptom("hop")->reading->value;
      EXPECT_NEAR(told[0].came + day.by_rules[0].dot(day.whole[0].row), a_grade * (after - 2.0),
                  1e-12);
      const double sd = std::sqrt(told[0].sd * told[0].sd - 2.0 / 12.0);
      for (const Held& held : found().intervals) {
        const double half =
            sd * boost::math::quantile(boost::math::normal(), 0.5 + held.promised / 2.0);
        const double off = told[0].foretold - told[0].came;
        EXPECT_EQ(held.of, 1);
        EXPECT_NEAR(held.held, share_of_rounding(off - half, off + half), 2e-5)
            << after << " after " << steps << " steps, promised " << held.promised;
      }
    }
  }
}

TEST_F(ForetoldDays, WhatIsForetoldSecondKnowsWhatCameFirst) {
  driven({mid("hop", 3)});
  driven({mid("hop", 0)}, 1.0);
  driven({mid("hop", 2)}, -1.0);
  driven({mid("hop", 3)});
  driven({mid("hop", 1)}, 1.0);
  runs_[3].at = later(runs_[0].at, 86400);
  runs_[4].at = later(runs_[4].at, 86400);
  const auto days = cut_into_days(runs_);
  ASSERT_EQ(days.size(), 2U);
  const DayReader reader(pack(), rules_for(pack(), kart()));
  Foretelling knows(effects());
  EXPECT_EQ(knows.take(reader.day(days[0])).size(), 2U);
  Foretelling fresh(effects());
  const auto first = fresh.take(reader.day(days[1])).at(0);
  const auto second = knows.take(reader.day(days[1])).at(0);
  EXPECT_EQ(first.foretold, 0.0) << "of how far it is from the rules";
  EXPECT_LT(second.foretold, 0.0) << "the kart did more than the rules say";
  EXPECT_LT(second.sd, first.sd);
  EXPECT_EQ(second.came, first.came);
}

TEST_F(ForetoldDays, OnlyWhatStandsAroundAMoveIsCounted) {
  driven({mid("hop", 3)});
  driven({mid("hop", 2)});
  driven({mid("hop", 1)}, 1.0);
  EXPECT_EQ(found().intervals[0].of, 1);
  EXPECT_EQ(found().eased + found().same + found().worse, 1);
  runs_.back().changes.clear();
  EXPECT_EQ(found().intervals[0].of, 0);
  EXPECT_EQ(found().intervals[0].share(), 0.0);
  EXPECT_EQ(found().eased + found().same + found().worse, 0);
}

TEST_F(ForetoldDays, AComplaintIsEasedTheSameOrWorse) {
  const auto after = [&](int severity) {
    runs_.clear();
    driven({mid("hop", 2)});
    driven({mid("hop", severity)}, 1.0);
    const Calibration all = found();
    return std::array{all.eased, all.same, all.worse};
  };
  EXPECT_EQ(after(1), (std::array{1, 0, 0}));
  EXPECT_EQ(after(2), (std::array{0, 1, 0}));
  EXPECT_EQ(after(3), (std::array{0, 0, 1}));
  EXPECT_EQ(after(0), (std::array{1, 0, 0}));
}

TEST_F(ForetoldDays, AComplaintThatTheMoveShouldNotHaveEasedIsNotHeldAgainstIt) {
  driven({mid("hop", 2)});
  driven({mid("hop", 3)}, -1.0);  // narrower: the rules expect more hop
  const Calibration all = found();
  EXPECT_EQ(all.eased + all.same + all.worse, 0);
  runs_[0].reports = {mid("hop", 0)};  // no complaint before
  runs_[1].changes[0].steps = 1.0;
  EXPECT_EQ(found().worse, 0);
}

TEST_F(ForetoldDays, AComplaintOfTheOtherSignIsEasedTheOtherWay) {
  // Wider at the rear takes side grip off it: a push is eased by that, loose is not.
  const auto counted = [&](const std::string& before, const std::string& after, double steps) {
    runs_.clear();
    driven({mid(before, 2)});
    driven({mid(after, 1)}, steps);
    const Calibration all = found();
    return std::array{all.eased, all.same, all.worse};
  };
  EXPECT_EQ(counted("push", "push", 1.0), (std::array{1, 0, 0}));
  EXPECT_EQ(counted("push", "loose", 1.0), (std::array{1, 0, 0}));
  EXPECT_EQ(counted("loose", "loose", 1.0), (std::array{0, 0, 0}));
  EXPECT_EQ(counted("loose", "loose", -1.0), (std::array{1, 0, 0}));
  EXPECT_EQ(counted("loose", "push", -1.0), (std::array{1, 0, 0}));
}

TEST_F(ForetoldDays, AComplaintThatNobodySpokeOfAgainIsLeftForTheNext) {
  driven({mid("hop", 3), mid("push", 1)});
  LoggedRun& after = driven({mid("push", 2)}, 1.0);
  after.complete = false;
  EXPECT_EQ(found().worse, 1) << "of the push, since nobody knows of the hop";
  EXPECT_EQ(found().eased, 0);
}

/// Advice that was followed, with the laps of the clock.
class FollowedAdvice : public ForetoldDays {
 protected:
  /// Ten laps before, ten after by so many seconds off, ten as before.
  void driven_by_advice(double seconds) {
    runs_.clear();
    int number = 0;
    for (const double off : {0.0, seconds, 0.0, seconds}) {
      LoggedRun& run = driven({mid("hop", off == 0.0 ? 3 : 1)});
      run.settings = {{"rear-width", off == 0.0 ? "1360 mm" : "1370 mm"}};
      for (int lap = 1; lap <= 10; ++lap, ++number)
        run.laps.push_back({lap, 31.4 + off + 0.01 * (number * 7 % 11 - 5)});
    }
    runs_.back().changes = {
        {.adjustment = "rear-width", .steps = 1.0, .origin = Origin::advice, .relief = 0.4}};
  }
};

TEST_F(FollowedAdvice, IsHeldAgainstTheClock) {
  const auto clock = [&](double seconds) {
    driven_by_advice(seconds);
    const Calibration all = found();
    EXPECT_EQ(all.advised, 1);
    return std::array{all.faster, all.slower, all.not_settled};
  };
  EXPECT_EQ(clock(-0.3), (std::array{1, 0, 0}));
  EXPECT_EQ(clock(0.3), (std::array{0, 1, 0}));
  driven_by_advice(-0.3);
  runs_.back().settings = runs_[0].settings;
  EXPECT_EQ(found().not_settled, 1) << "nothing else was driven";
}

TEST_F(FollowedAdvice, LaterRunsPlayNoPartInWhatTheClockSaid) {
  driven_by_advice(-0.3);
  std::swap(runs_[1].changes, runs_[3].changes);
  for (RunLap& lap : runs_[3].laps) lap.seconds += 2.0;  // with an engine that had had enough
  const Calibration all = found();
  EXPECT_EQ(all.advised, 1);
  EXPECT_EQ(all.faster, 1);
  std::swap(runs_[1].changes, runs_[3].changes);
  EXPECT_EQ(found().faster, 0);
}

TEST_F(FollowedAdvice, IsOfAChangeByAdviceThatPromisedSomething) {
  driven_by_advice(-0.3);
  runs_.back().changes[0].relief = {};
  EXPECT_EQ(found().advised, 0);
  EXPECT_EQ(found().promised_share, 0.0);
  runs_.back().changes[0].relief = 0.4;
  runs_.back().changes[0].origin = Origin::own_idea;
  EXPECT_EQ(found().advised, 0);
  runs_[1].changes = {
      {.adjustment = "rear-width", .steps = 1.0, .origin = Origin::advice, .relief = 0.2}};
  runs_.back().changes[0].origin = Origin::advice;
  EXPECT_EQ(found().advised, 2);
  EXPECT_DOUBLE_EQ(found().promised_share, 0.3) << "the mean of both";
}

TEST_F(FollowedAdvice, IsHeldAgainstDebriefsWhereBothSpoke) {
  const auto squares = [&] { return std::pair(found().squares_before, found().squares_after); };
  driven_by_advice(-0.3);
  runs_[2].reports = {mid("hop", 3), mid("push", 2)};
  EXPECT_EQ(squares(), std::pair(13.0, 1.0));
  runs_[3].reports.clear();
  EXPECT_EQ(squares(), std::pair(13.0, 0.0)) << "asked for everything, and nothing to tell";
  runs_[3].complete = false;
  EXPECT_EQ(squares(), std::pair(0.0, 0.0));
  runs_[3].reports = {mid("hop", 2)};
  EXPECT_EQ(squares(), std::pair(13.0, 4.0));
  runs_[2].reports.clear();
  runs_[2].complete = false;
  EXPECT_EQ(squares(), std::pair(0.0, 0.0));
}

}  // namespace
}  // namespace kartwright
