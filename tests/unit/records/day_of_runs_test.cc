// A day of runs as the learning takes it: what is expected between two of them, and which of what
// was said counts.

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/decision/forecast.h"
#include "tests/support/logged_day.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

class DaysOfRuns : public LoggedDay {
 protected:
  static double notches(const std::string& symptom) {
    return pack().symptom(symptom)->reading->value;
  }

  DayOfRuns day(const std::vector<LoggedRun>& runs) const {
    return DayReader(pack(), rules_for(pack(), kart())).day(cut_into_days(runs).at(0));
  }
  /// Of two runs, a wider rear between them.
  DayOfRuns two(const std::function<void(LoggedRun&, LoggedRun&)>& how) const {
    static std::vector<LoggedRun> runs;
    runs = {told(1, {mid("hop", 2)}), told(2, {mid("hop", 1)})};
    runs[1].changes = {{.adjustment = "rear-width", .from = "a", .to = "b", .steps = 1.0}};
    how(runs[0], runs[1]);
    return day(runs);
  }
  double spread_between(const std::function<void(LoggedRun&, LoggedRun&)>& how) const {
    const Eigen::VectorXd sd = two(how).steps.at(0).drift_sd;
    EXPECT_EQ(sd.minCoeff(), sd.maxCoeff());
    return sd[0];
  }
  bool other_tyres(const std::function<void(LoggedRun&, LoggedRun&)>& how) const {
    return two(how).used.at(0).tyres_changed;
  }
};

const auto kAsBefore = [](LoggedRun&, LoggedRun&) {};

TEST_F(DaysOfRuns, TheTrackDriftsByItselfAndMoreWhereItMovedOnOrOtherTyresWentOn) {
  const Learning& learning = pack().learning;
  const auto track = [](LoggedRun&, LoggedRun& after) { after.track = "rubbered-in"; };
  const auto tyres = [](LoggedRun& before, LoggedRun& after) {
    before.tyres = "set 1";
    after.tyres = "set 2";
  };
  EXPECT_DOUBLE_EQ(spread_between(kAsBefore), learning.drift);
  EXPECT_DOUBLE_EQ(spread_between(track), learning.track_moved);
  EXPECT_DOUBLE_EQ(spread_between(tyres), std::hypot(learning.drift, learning.tyres_changed));
  EXPECT_DOUBLE_EQ(spread_between([&](LoggedRun& before, LoggedRun& after) {
                     track(before, after);
                     tyres(before, after);
                   }),
                   std::hypot(learning.track_moved, learning.tyres_changed));
}

TEST_F(DaysOfRuns, WhatIsExpectedIsTheTrackOfTheForecastAndWhatTheRulesSayOfTheMoves) {
  const DayOfRuns still = two(kAsBefore);
  EXPECT_EQ(still.steps[0].drift, still.by_rules[0]);
  const auto ahead = forecast(pack(), "green", 3.0);
  ASSERT_FALSE(ahead.empty());
  const auto onto = [&](const std::string& track) {
    return two([&](LoggedRun&, LoggedRun& after) { after.track = track; });
  };
  const DayOfRuns moved = onto(ahead.front().track);
  EXPECT_TRUE((moved.steps[0].drift - moved.by_rules[0]).isApprox(ahead.front().shift));
  EXPECT_FALSE(ahead.front().shift.isZero());
  const DayOfRuns back = onto("cold");  // which nobody expects after green
  EXPECT_EQ(back.steps[0].drift, back.by_rules[0]);
  EXPECT_TRUE(back.used[0].track_moved);
}

TEST_F(DaysOfRuns, HalfAStepIsExpectedToDoHalfAndTwoMovesTheSumOfBoth) {
  const Eigen::VectorXd one = two(kAsBefore).by_rules[0];
  EXPECT_GT(one.norm(), 0.1);
  const DayOfRuns half = two([](LoggedRun&, LoggedRun& after) { after.changes[0].steps = 0.5; });
  EXPECT_TRUE(half.by_rules[0].isApprox(one / 2.0));
  EXPECT_EQ(half.used[0].changes, 1);
  const auto hubs = [](LoggedRun&, LoggedRun& after) { after.changes[0].adjustment = "rear-hubs"; };
  const DayOfRuns both = two([](LoggedRun&, LoggedRun& after) {
    after.changes.push_back(after.changes[0]);
    after.changes[1].adjustment = "rear-hubs";
  });
  EXPECT_TRUE(both.by_rules[0].isApprox(one + two(hubs).by_rules[0]));
  EXPECT_EQ(both.used[0].changes, 2);
  const auto unmoved = [](LoggedRun&, LoggedRun& after) { after.changes.clear(); };
  EXPECT_EQ(two(unmoved).used[0].changes, 0);
  EXPECT_TRUE(two(unmoved).by_rules[0].isZero());
}

TEST_F(DaysOfRuns, AMoveOfSomethingUnknownOrByMoreStepsThanThereAreIsNone) {
  const auto steps = [&](const std::string& adjustment, double by) {
    return two([&](LoggedRun&, LoggedRun& after) {
             after.changes[0].adjustment = adjustment;
             after.changes[0].steps = by;
           })
        .used[0]
        .changes;
  };
  EXPECT_EQ(steps("sails", 1.0), 0);
  EXPECT_EQ(steps("rear-width", kMostSteps), 1);
  EXPECT_EQ(steps("rear-width", -kMostSteps), 1);
  EXPECT_EQ(steps("rear-width", kMostSteps + 1.0), 0);
}

TEST_F(DaysOfRuns, TyresAreOthersWhereBothRunsNameThemOrTheyHaveFewerLaps) {
  const auto named = [&](const std::string& before, const std::string& after) {
    return other_tyres([&](LoggedRun& one, LoggedRun& other) {
      one.tyres = before;
      other.tyres = after;
    });
  };
  EXPECT_TRUE(named("set 1", "set 2"));
  EXPECT_FALSE(named("set 1", "set 1"));
  EXPECT_FALSE(named("set 1", ""));
  EXPECT_FALSE(named("", "set 2"));
  const auto laps = [&](std::optional<int> before, std::optional<int> after) {
    return other_tyres([&](LoggedRun& one, LoggedRun& other) {
      one.tyre_laps = before;
      other.tyre_laps = after;
    });
  };
  EXPECT_TRUE(laps(30, 12));
  EXPECT_FALSE(laps(30, 38));
  EXPECT_FALSE(laps(30, 30)) << "nobody has counted";
  EXPECT_FALSE(laps(30, {}));
  EXPECT_FALSE(laps({}, 12));
}

TEST_F(DaysOfRuns, ASayingIsAsLoudAsItsSymptomReadsAndAsSureAsItsDriver) {
  const Hearing& hearing = pack().hearing;
  const auto said = [&](const Report& report) {
    const DayOfRuns found = two([&](LoggedRun& before, LoggedRun&) { before.reports = {report}; });
    return found.whole.at(0).runs.at(0).value();
  };
  Report hop = mid("hop", 3);
  hop.confidence = Confidence::sure;
  EXPECT_DOUBLE_EQ(said(hop).value, 3.0 * notches("hop"));
  EXPECT_DOUBLE_EQ(said(hop).sd, hearing.confidence_sd(Confidence::sure));
  hop.confidence = Confidence::unsure;
  EXPECT_DOUBLE_EQ(said(hop).sd, hearing.confidence_sd(Confidence::unsure));
  const Report lazy{.symptom = "lazy", .severity = 1, .confidence = Confidence::fair};
  EXPECT_DOUBLE_EQ(said(lazy).sd, hearing.confidence_sd(Confidence::fair));
  const Report push{.symptom = "push", .severity = 1, .confidence = Confidence::fair};
  EXPECT_DOUBLE_EQ(said(push).sd, hearing.confidence_sd(Confidence::fair) * hearing.unsaid_factor)
      << "vaguer, where the phase matters";
  hop = mid("hop", 0);
  EXPECT_DOUBLE_EQ(said(hop).value, 0.0);
  EXPECT_DOUBLE_EQ(said(hop).sd, pack().learning.unmentioned);
}

TEST_F(DaysOfRuns, OfTwoThingsSaidOfOneHandlingTheLouderCounts) {
  using Loudest = std::pair<double, std::string>;
  const auto heard = [&](std::vector<Report> reports) {
    const DayOfRuns found = two([&](LoggedRun& before, LoggedRun&) { before.reports = reports; });
    return Loudest(found.whole.at(0).runs.at(0)->value, found.reports.at(0).at(0)->symptom);
  };
  EXPECT_EQ(heard({mid("push", 1), mid("loose", 3)}), Loudest(3.0 * notches("loose"), "loose"));
  EXPECT_EQ(heard({mid("loose", 3), mid("push", 1)}), Loudest(3.0 * notches("loose"), "loose"));
  EXPECT_EQ(heard({mid("push", 2), mid("loose", 2)}), Loudest(2.0 * notches("push"), "push"));
}

TEST_F(DaysOfRuns, WhatACompleteDebriefLeavesOutIsSilentAndNothingElseIs) {
  const DayOfRuns whole = two([](LoggedRun& before, LoggedRun&) { before.reports.clear(); });
  ASSERT_THAT(whole.whole, SizeIs(1));
  EXPECT_EQ(whole.whole[0].runs[0]->value, 0.0);
  EXPECT_EQ(whole.whole[0].runs[0]->sd, pack().learning.unmentioned);
  EXPECT_EQ(whole.reports[0][0], nullptr);
  const DayOfRuns part = two([](LoggedRun& before, LoggedRun&) {
    before.reports.clear();
    before.complete = false;
  });
  EXPECT_FALSE(part.whole[0].runs[0]);
  const DayOfRuns unread =
      two([](LoggedRun& before, LoggedRun&) { before.reports = {mid("no-such-symptom", 2)}; });
  EXPECT_THAT(unread.whole, SizeIs(1)) << "a symptom that the rules do not know reads nothing";
}

/// How often what was said of one handling is cut, over runs of these severities.
class CutSayings : public DaysOfRuns {
 protected:
  std::size_t parts(const std::vector<Report>& reports) const {
    static std::vector<LoggedRun> runs;
    runs.clear();
    for (const Report& report : reports)
      runs.push_back(told(static_cast<int>(runs.size()) + 1, {report}));
    const DayOfRuns found = day(runs);
    EXPECT_THAT(found.whole, SizeIs(1));
    EXPECT_EQ(found.sayings.size(), found.reports.size());
    std::size_t sayings = 0;
    for (const DaySayings& part : found.sayings) {
      for (const auto& run : part.runs) sayings += run ? 1U : 0U;
    }
    EXPECT_EQ(sayings, reports.size()) << "each stands in one part";
    return found.sayings.size();
  }
  std::size_t parts(const std::string& symptom, const std::vector<int>& severities) const {
    std::vector<Report> reports;
    for (const int severity : severities) reports.push_back(mid(symptom, severity));
    return parts(reports);
  }
};

TEST_F(CutSayings, WhereASymptomIsSilentTwiceOrAtItsWorstTwice) {
  EXPECT_EQ(parts("hop", {2, 1}), 1U);
  EXPECT_EQ(parts("hop", {2, 2}), 1U);
  EXPECT_EQ(parts("hop", {2, 3}), 1U);
  EXPECT_EQ(parts("hop", {3, 2}), 1U);
  EXPECT_EQ(parts("hop", {3, 3}), 2U);
  EXPECT_EQ(parts("hop", {0, 2}), 1U);
  EXPECT_EQ(parts("hop", {2, 0}), 1U);
  EXPECT_EQ(parts("hop", {0, 0}), 2U);
  EXPECT_EQ(parts("hop", {1, 0, 0, 2, 3, 3, 1}), 3U);
}

TEST_F(CutSayings, NotWherePushOrLooseWouldHaveTold) {
  EXPECT_EQ(parts("push", {1, 0, 0}), 1U) << "a kart that is neither stands in the middle";
  EXPECT_EQ(parts("push", {3, 3}), 2U);
  EXPECT_EQ(parts({mid("push", 3), mid("loose", 3)}), 1U) << "from one end to the other";
}

TEST_F(DaysOfRuns, ADayHasTwoRunsOfOneDriverAtLeast) {
  const auto sizes = [](const std::vector<LoggedRun>& runs) {
    std::vector<std::size_t> out;
    for (const auto& day : cut_into_days(runs)) out.push_back(day.size());
    return out;
  };
  std::vector<LoggedRun> runs;
  for (int i = 0; i < 16; ++i) runs.push_back(told(i, {}));
  EXPECT_THAT(sizes({}), IsEmpty());
  EXPECT_THAT(sizes({runs[0]}), IsEmpty());
  EXPECT_THAT(sizes({runs[0], runs[1]}), ElementsAre(2));
  EXPECT_THAT(sizes(runs), ElementsAre(16));
  runs.push_back(told(16, {}));
  EXPECT_THAT(sizes(runs), ElementsAre(16, 2));
  runs[4].driven = false;
  EXPECT_THAT(sizes(runs), ElementsAre(16));
  for (int i = 8; i < 17; ++i) runs[static_cast<std::size_t>(i)].at = later(runs[0].at, 86400 + i);
  EXPECT_THAT(sizes(runs), ElementsAre(7, 9));
  runs[2].driver = "K";  // nobody said who drove before and after
  EXPECT_THAT(sizes(runs), ElementsAre(7, 9));
  runs[3].driver = "Q";
  EXPECT_THAT(sizes(runs), ElementsAre(3, 4, 9));
}

}  // namespace
}  // namespace kartwright
