// What leads, in a few words; and which of two meanings too much rear grip has.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/advice/interview.h"
#include "engine/advice/load_reason.h"
#include "engine/knowledge/engine_facts.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

Pit hopping_pit() {
  Pit pit;
  pit.track = "rubbered-in";
  pit.reports = {"hop@mid=3"};
  return pit;
}

std::string leads_with(Headline headline, const Advice& answered) {
  Advice advice = answered;
  advice.verdict.headline = headline;
  return what_leads(advice);
}

TEST(WhatLeads, IsTheHeadlineInAFewWords) {
  const Pit pit = hopping_pit();
  const Advice advice = pit.answer();
  EXPECT_EQ(leads_with(Headline::ask_again, advice), "ask again, it does not fit together");
  EXPECT_EQ(leads_with(Headline::leave_alone, advice), "leave it alone");
  EXPECT_EQ(leads_with(Headline::wait_for_track, advice), "wait for the track");
  EXPECT_EQ(leads_with(Headline::change, advice), "rear wider, to " + advice.changes.front().to);
}

TEST(WhatLeads, OfAStopNamesTheFault) {
  Pit pit;
  pit.reports = {"vibration=3"};
  pit.facts = {"hit=yes"};
  Advice advice = pit.answer();
  ASSERT_FALSE(advice.checks.empty());
  EXPECT_EQ(leads_with(Headline::stop_and_fix, advice),
            "stop: " + advice.checks.front().fault->label);
  advice.checks.clear();
  EXPECT_EQ(leads_with(Headline::stop_and_fix, advice), "stop and fix");
}

TEST(WhatLeads, WithoutAChangeSaysSo) {
  const Pit pit = hopping_pit();
  Advice advice = pit.answer();
  advice.changes.clear();
  EXPECT_EQ(leads_with(Headline::change, advice), "no change");
}

class TooMuchRearGrip : public testing::Test {
 protected:
  /// What is said where the belief on the rear's grip in the middle and on unloading is this.
  std::string said(double grip, double unloading) {
    for (std::size_t i = 0; i < pack_.axes.size(); ++i) {
      double& mean = advice_.belief.mean[static_cast<Eigen::Index>(i)];
      if (pack_.axes[i].id == engine_axes::kRearGripMid) mean = grip;
      if (pack_.axes[i].id == engine_axes::kUnloading) mean = unloading;
    }
    return two_meanings(advice_, pack_);
  }

  const Pit pit_ = hopping_pit();
  Pack pack_ = rules();
  Advice advice_ = pit_.answer();
};

TEST_F(TooMuchRearGrip, IsADragWhereTheInsideIsNotFreed) {
  EXPECT_THAT(said(1.0, -0.5), testing::AllOf(StartsWith("It is "), HasSubstr("Free it first.")));
}

TEST_F(TooMuchRearGrip, IsABiteWhereItIsFreedTooMuch) {
  EXPECT_THAT(said(1.0, 0.5),
              testing::AllOf(StartsWith("It is "), testing::Not(HasSubstr("Free it first."))));
  EXPECT_NE(said(1.0, 0.5), said(1.0, -0.5));
}

TEST_F(TooMuchRearGrip, IsAskedAboutWhereNobodyKnows) {
  EXPECT_THAT(said(1.0, 0.0),
              testing::AllOf(StartsWith("Two things go by that name: "), HasSubstr("Ask first: ")));
  for (Symptom& symptom : pack_.symptoms) symptom.question.clear();
  EXPECT_THAT(said(1.0, 0.0), HasSubstr("See whether the inside rear lifts."));
}

TEST_F(TooMuchRearGrip, IsNotSpokenOfWhereThereIsNoneOrThePackHasNoWordsForIt) {
  EXPECT_EQ(said(0.4, 0.0), "");
  pack_.quantities.clear();
  EXPECT_EQ(said(1.0, 0.0), "");
  Pack other = rules();
  for (Axis& axis : other.axes) axis.id = "x-" + axis.id;
  EXPECT_EQ(two_meanings(advice_, other), "");
}

}  // namespace
}  // namespace kartwright
