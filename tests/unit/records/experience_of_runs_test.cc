// What runs amount to beside the rules: the joint belief split over the adjustments, and what is
// told and counted of each.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/advice/learned.h"
#include "tests/support/logged_day.h"

namespace kartwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class ExperienceOfRuns : public LoggedDay {
 protected:
  static std::size_t at(const std::string& adjustment) {
    return static_cast<std::size_t>(pack().adjustment(adjustment) - pack().adjustments.data());
  }
  static Report report(const std::string& symptom, int severity, Phase phase = Phase::mid) {
    return {.symptom = symptom, .phase = phase, .severity = severity};
  }

  LoggedRun& after_a_move(const std::string& adjustment, double steps,
                          std::vector<Report> reports) {
    LoggedRun& run = driven(std::move(reports));
    run.changes = {{.adjustment = adjustment, .from = "a", .to = "b", .steps = steps}};
    return run;
  }
  History history() const { return learn(runs_, pack(), kart()); }
  StepsOfOne steps_of(const std::string& adjustment) const {
    return history().steps.at(at(adjustment));
  }
  /// What is told of the last move of the rear width, without the run's name.
  std::string heard() const {
    const std::string told = steps_of("rear-width").told.at(0);
    return told.substr(told.find("step"));
  }
};

TEST_F(ExperienceOfRuns, OfEachAdjustmentAloneIsWhatTheJointBeliefSaysOfIt) {
  driven({report("hop", 3), report("push", 1)});
  after_a_move("rear-width", 1.0, {report("hop", 1), report("push", 2)});
  after_a_move("rear-hubs", -1.0, {report("hop", 2), report("push", 0)});
  after_a_move("rear-width", -0.5, {report("hop", 2), report("loose", 1)});
  const std::vector<Effect> effects = effects_by_rules(pack(), kart(), "green");
  const Experience found = experience_of(history(), effects);
  ASSERT_EQ(found.size(), effects.size());

  // The same by the filter, which takes the day in at once over all effects.
  Foretelling filter(effects);
  filter.take(DayReader(pack(), rules_for(pack(), kart())).day(cut_into_days(runs_).at(0)));
  const Index axes = effects.front().per_step.size();
  for (const char* const adjustment : {"rear-width", "rear-hubs"}) {
    const std::size_t j = at(adjustment);
    const Effect with = with_experience(effects[j], found[j]);
    const Index from = static_cast<Index>(j) * axes;
    EXPECT_LT((with.per_step - effects[j].per_step - filter.mean().segment(from, axes)).norm(),
              1e-9);
    EXPECT_LT((with.covariance - filter.covariance().block(from, from, axes, axes)).norm(), 1e-9);
    EXPECT_GT(filter.mean().segment(from, axes).norm(), 0.01);
    EXPECT_LT((found[j].precision - found[j].precision.transpose()).norm(), 1e-12);
    EXPECT_THAT(found[j].told, testing::Not(IsEmpty()));
  }
  EXPECT_EQ(found[at("rear-width")].runs, 4);
  EXPECT_EQ(found[at("rear-hubs")].runs, 2);
}

TEST_F(ExperienceOfRuns, OfWhatWasNeverMovedIsNone) {
  driven({report("hop", 3)});
  after_a_move("rear-width", 1.0, {report("hop", 1)});
  const Experience found = experience_of(history(), effects_by_rules(pack(), kart(), "green"));
  const LearnedEffect& hubs = found.at(at("rear-hubs"));
  EXPECT_EQ(hubs.runs, 0);
  EXPECT_EQ(hubs.precision.size(), 0);
  EXPECT_THAT(hubs.told, IsEmpty());
  EXPECT_EQ(found.at(at("rear-width")).runs, 1);
  EXPECT_THAT(experience_of(history(), {}), IsEmpty());
}

TEST_F(ExperienceOfRuns, TheThreeChangesThatAreLargestAreTold) {
  driven({report("hop", 1), report("push", 3), report("lazy", 1, Phase::any),
          report("hop", 2, Phase::entry)});
  runs_.back().reports = {report("bog", 1, Phase::exit), report("push", 3),
                          report("lazy", 2, Phase::any), report("hop", 2)};
  after_a_move("rear-width", 1.0, {report("hop", 2), report("bog", 3, Phase::exit)});
  EXPECT_EQ(heard(), "step, push mid 3 to 0, bog exit 1 to 3, lazy wheel 2 to 0");
}

TEST_F(ExperienceOfRuns, WhatDidNotChangeIsNotTold) {
  driven({report("hop", 2)});
  after_a_move("rear-width", 1.0, {report("hop", 2)});
  EXPECT_EQ(heard(), "step, nothing changed");
  runs_.back().reports.push_back(report("push", 1));
  EXPECT_EQ(heard(), "step, push mid 0 to 1");
  runs_.back().complete = false;
  runs_.front().complete = false;  // and so nobody knows of the push before
  EXPECT_EQ(heard(), "step, nothing changed");
}

TEST_F(ExperienceOfRuns, OfOppositesBothAreTold) {
  driven({report("push", 1), report("hop", 3)});
  after_a_move("rear-width", 1.0, {report("loose", 1), report("hop", 2)});
  EXPECT_EQ(heard(), "step, push mid 1, then loose mid 1, hop mid 3 to 2");
}

TEST_F(ExperienceOfRuns, MovesAreToldInStepsOfTheirSign) {
  driven({report("hop", 3)});
  const auto told = [&](double steps) {
    runs_.resize(1);
    after_a_move("rear-width", steps, {report("hop", 2)});
    return steps_of("rear-width").told.at(0);
  };
  EXPECT_EQ(told(1.0), "run 2 (2026-11-14): +1 step, hop mid 3 to 2");
  EXPECT_EQ(told(-1.0), "run 2 (2026-11-14): -1 step, hop mid 3 to 2");
  EXPECT_EQ(told(2.0), "run 2 (2026-11-14): +2 steps, hop mid 3 to 2");
  EXPECT_EQ(told(-0.5), "run 2 (2026-11-14): -0.5 steps, hop mid 3 to 2");
}

TEST_F(ExperienceOfRuns, TheLatestThreeOfAllDaysAreTold) {
  for (int day = 0; day < 2; ++day) {
    for (int run = 0; run < 3; ++run) {
      after_a_move("rear-width", 1.0, {report("hop", 1 + run % 2)}).at =
          later("2026-11-14T10:00:00", 86400 * day + 1200 * run);
    }
  }
  const auto told = steps_of("rear-width").told;
  EXPECT_THAT(told, ElementsAre(HasSubstr("run 6"), HasSubstr("run 5"), HasSubstr("run 3")))
      << "the first of a day has none before it";
  EXPECT_EQ(steps_of("rear-width").steps, 4);
  EXPECT_EQ(history().runs, 6U);
}

TEST_F(ExperienceOfRuns, AStepCountsWhereSomethingWasMovedAndSomethingSaid) {
  driven({report("hop", 3)});
  after_a_move("rear-width", 1.0, {report("hop", 2)});
  driven({report("hop", 1)});  // nothing was moved
  EXPECT_EQ(steps_of("rear-width").steps, 1);
  EXPECT_EQ(steps_of("rear-width").with_others, 0);
  EXPECT_EQ(steps_of("rear-width").track_moved, 0);
  EXPECT_EQ(steps_of("rear-width").tyres_changed, 0);
  EXPECT_EQ(steps_of("rear-hubs").steps, 0);
  for (LoggedRun& run : runs_) {
    run.reports.clear();
    run.complete = false;
  }
  EXPECT_EQ(steps_of("rear-width").steps, 0);
  EXPECT_THAT(steps_of("rear-width").told, IsEmpty());
  runs_[1].reports = {report("hop", 2)};  // said after it and never before
  EXPECT_EQ(steps_of("rear-width").steps, 0);
}

/// What was tried and taken back.
class TriedBeforeInRuns : public ExperienceOfRuns {
 protected:
  void taken_back(RunChange change) {
    runs_.clear();
    driven({});
    driven({}).changes = {std::move(change)};
    runs_.back().verdicts = {
        {.adjustment = "rear-width", .verdict = ClockVerdict::revert, .by = "clock"}};
  }
  std::vector<TriedBefore> tried() const { return history().tried.at(at("rear-width")); }
};

TEST_F(TriedBeforeInRuns, HasTheDirectionOfTheMove) {
  taken_back({.adjustment = "rear-width", .from = "a", .to = "b", .steps = 1.0});
  ASSERT_THAT(tried(), SizeIs(1));
  EXPECT_EQ(tried()[0].direction, 0U);
  EXPECT_EQ(tried()[0].text, "tried in run 2 (2026-11-14) and taken back");
  taken_back({.adjustment = "rear-width", .from = "a", .to = "b", .steps = -0.5});
  ASSERT_THAT(tried(), SizeIs(1));
  EXPECT_EQ(tried()[0].direction, 1U);
}

TEST_F(TriedBeforeInRuns, IsNothingWhereNothingWasMovedOrKnown) {
  taken_back({.adjustment = "rear-width", .from = "a", .to = "a", .steps = 0.0});
  EXPECT_THAT(tried(), IsEmpty());
  taken_back({.adjustment = "rear-hubs", .from = "a", .to = "b", .steps = 1.0});
  EXPECT_THAT(tried(), IsEmpty());
  taken_back({.adjustment = "rear-width", .from = "a", .to = "b", .steps = 1.0});
  runs_.back().verdicts[0].adjustment = "sails";
  EXPECT_THAT(tried(), IsEmpty());
}

TEST_F(TriedBeforeInRuns, TheLatestStandsFirst) {
  taken_back({.adjustment = "rear-width", .from = "a", .to = "b", .steps = 1.0});
  runs_.push_back(runs_.back());
  runs_.back().id = 3;
  runs_.back().changes[0].to = "c";
  ASSERT_THAT(tried(), SizeIs(2));
  EXPECT_THAT(tried()[0].text, HasSubstr("run 3"));
}

TEST_F(TriedBeforeInRuns, IsForgottenWhenTheCrewGoesThereAgainThoughNotByUndo) {
  const RunChange there{.adjustment = "rear-width", .from = "wide", .to = "wider", .steps = 1.0};
  taken_back(there);
  driven({}).changes = {there};
  EXPECT_THAT(tried(), IsEmpty()) << "in words that this kart cannot read, but the same";
  runs_.back().changes[0].origin = Origin::undo;
  EXPECT_THAT(tried(), SizeIs(1));
  runs_.back().changes[0] = there;
  runs_.back().changes[0].to = "widest";
  EXPECT_THAT(tried(), SizeIs(1));
  runs_.back().changes.insert(runs_.back().changes.begin(), there);
  EXPECT_THAT(tried(), SizeIs(1)) << "the last change of a run is where it stood";
  runs_.back().changes = {{.adjustment = "rear-hubs", .from = "a", .to = "wider", .steps = 1.0}};
  EXPECT_THAT(tried(), SizeIs(1)) << "of another adjustment";
}

}  // namespace
}  // namespace kartwright
