// The one thing to say first.

#include "engine/decision/headline.h"

#include <limits>

#include <gtest/gtest.h>

namespace kartwright {
namespace {

/// A kart with a complaint, an error worth mending and a change that mends it.
HeadlineCase complaint() {
  HeadlineCase c;
  c.complaint = true;
  c.loss_of_nothing = 5.0;
  c.best_score = 40.0;
  return c;
}

void expect(const HeadlineCase& c, Headline headline, LeaveReason reason = LeaveReason::none) {
  const Verdict verdict = headline_of(c);
  EXPECT_EQ(name_of(verdict.headline), name_of(headline));
  EXPECT_EQ(verdict.reason, reason);
}

TEST(Headline, IsAChangeWhereOnePays) { expect(complaint(), Headline::change); }

TEST(Headline, IsStopAndFixBeforeAnythingElse) {
  HeadlineCase c = complaint();
  c.stop_fault = true;
  expect(c, Headline::stop_and_fix);
  c.coherent = false;
  c.complaint = false;
  expect(c, Headline::stop_and_fix);
}

TEST(Headline, IsAskAgainWhereTheReportsDoNotFit) {
  HeadlineCase c = complaint();
  c.coherent = false;
  expect(c, Headline::ask_again);
  c.loss_of_nothing = 0.0;
  c.best_score = 0.0;
  expect(c, Headline::ask_again);
}

TEST(Headline, LeavesAKartAloneThatNobodyComplainsOf) {
  HeadlineCase c = complaint();
  c.complaint = false;
  expect(c, Headline::leave_alone, LeaveReason::no_complaint);
}

TEST(Headline, DoesNotWaitForAComplaintWhereTheTrackWentWetOrDry) {
  HeadlineCase c = complaint();
  c.complaint = false;
  c.wet_changed = true;
  expect(c, Headline::change);
}

TEST(Headline, LeavesASmallErrorAlone) {
  HeadlineCase c = complaint();
  c.loss_of_nothing = 0.449;
  expect(c, Headline::leave_alone, LeaveReason::nothing_wrong);
  c.loss_of_nothing = 0.45;
  expect(c, Headline::change);
}

TEST(Headline, LeavesAKartAloneWhereNothingPaysForItsMinutes) {
  HeadlineCase c = complaint();
  c.best_score = 9.99;
  expect(c, Headline::leave_alone, LeaveReason::nothing_pays);
  c.best_score = 10.0;
  expect(c, Headline::change);
  c.best_score = -std::numeric_limits<double>::infinity();  // nothing on offer
  expect(c, Headline::leave_alone, LeaveReason::nothing_pays);
}

TEST(Headline, DoesNotQuietAComplaintThatTheClockLikes) {
  HeadlineCase c = complaint();
  c.best_only_comfort = true;
  expect(c, Headline::leave_alone, LeaveReason::only_comfort);
}

TEST(Headline, KeepsTheRoomWhereOnlyItsPriceSpeaksAgainstAChange) {
  HeadlineCase c = complaint();
  c.best_score = 2.0;
  c.best_without_room = 30.0;
  expect(c, Headline::leave_alone, LeaveReason::keep_room);
  c.best_without_room = 9.99;
  expect(c, Headline::leave_alone, LeaveReason::nothing_pays);
}

TEST(Headline, WaitsForATrackThatDoesMoreThanTheBestChange) {
  HeadlineCase c = complaint();
  c.best_relief = 0.3;
  c.track_relief = 0.31;
  expect(c, Headline::wait_for_track);
  c.track_relief = 0.3;
  expect(c, Headline::change);
  c.track_relief = 0.9;
  c.loss_of_nothing = 0.1;  // nothing to wait for
  expect(c, Headline::leave_alone, LeaveReason::nothing_wrong);
}

TEST(Headline, HasTheNamesOfTheContract) {
  EXPECT_EQ(name_of(Headline::stop_and_fix), "stop-and-fix");
  EXPECT_EQ(name_of(Headline::ask_again), "ask-again");
  EXPECT_EQ(name_of(Headline::leave_alone), "leave-alone");
  EXPECT_EQ(name_of(Headline::wait_for_track), "wait-for-track");
  EXPECT_EQ(name_of(Headline::change), "change");
}

}  // namespace
}  // namespace kartwright
