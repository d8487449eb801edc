// What a picture of an advised kart shows.

#include "engine/advice/sketch.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/pit.h"

namespace kartwright {
namespace {

Sketch sketch_in(const Pit& pit) { return sketch_of(pit.answer(), pit.kart, rules()).value(); }

Pit cold_pit(std::vector<std::string> reports) {
  Pit pit;
  pit.track = "cold";
  pit.reports = std::move(reports);
  return pit;
}

double sum_of(const CornerLoads& loads) {
  return loads.left_front + loads.right_front + loads.left_rear + loads.right_rear;
}

TEST(Sketch, ShowsTheCornerOfTheWorstComplaint) {
  EXPECT_EQ(phase_of(sketch_in(cold_pit({"push@entry=2"}))), "entry");
  EXPECT_EQ(phase_of(sketch_in(cold_pit({"push@entry=1", "loose@exit=3"}))), "exit");
  EXPECT_EQ(phase_of(sketch_in(cold_pit({"push@entry=2", "loose@exit=2"}))), "entry");
}

TEST(Sketch, WithoutAComplaintOfOnePhaseShowsTheMiddleOfTheCorner) {
  EXPECT_EQ(phase_of(sketch_in(cold_pit({}))), "mid");
  EXPECT_EQ(phase_of(sketch_in(cold_pit({"push=2"}))), "mid");
  EXPECT_EQ(phase_of(sketch_in(cold_pit({"push@exit=0"}))), "mid");  // denied
}

TEST(Sketch, WhatPraiseSaysIsNoComplaint) {
  const Pit pit = cold_pit({"push@entry=1", "loose@exit=3"});
  Advice advice = pit.answer();
  for (Report& report : advice.debrief.heard.reports) report.from_praise = report.severity == 3;
  EXPECT_EQ(phase_of(*sketch_of(advice, pit.kart, rules())), "entry");
}

TEST(Sketch, OfAnUnweighedKartStandsOnTheSharesOfItsWholeMass) {
  const Sketch sketch = sketch_in(cold_pit({"push@mid=2"}));
  EXPECT_FALSE(sketch.weighed);
  EXPECT_GT(sum_of(sketch.standing), 100.0);
  EXPECT_LT(sum_of(sketch.standing), 250.0);
  EXPECT_GT(sketch.assumed, 0U);
  EXPECT_GT(sketch.rear_tyre_width, sketch.front_tyre_width);
}

TEST(Sketch, OfAWeighedKartStandsAsTheScalesSaid) {
  Pit pit = cold_pit({"push@mid=2"});
  pit.kart.corner_weights =
      CornerLoads{.left_front = 33.0, .right_front = 34.0, .left_rear = 45.0, .right_rear = 46.0};
  const Sketch sketch = sketch_in(pit);
  EXPECT_TRUE(sketch.weighed);
  EXPECT_EQ(sketch.standing.left_front, 33.0);
  EXPECT_EQ(sketch.standing.right_rear, 46.0);
}

TEST(Sketch, OfAChangeThatMovesTheLoadsShowsThemBeforeAndAfter) {
  Pit pit;
  pit.track = "rubbered-in";
  pit.reports = {"hop@mid=3"};
  ASSERT_EQ(first_of(pit.answer()), "rear-width wider");
  const Sketch sketch = sketch_in(pit);
  EXPECT_TRUE(sketch.moves_loads);
  EXPECT_NE(sketch.before().loads.right_rear, sketch.after().loads.right_rear);
}

TEST(Sketch, WhereTheKartIsLeftAloneAfterIsAsBefore) {
  const Sketch sketch = sketch_in(cold_pit({}));
  EXPECT_FALSE(sketch.moves_loads);
  EXPECT_EQ(sketch.before().loads.right_rear, sketch.after().loads.right_rear);
  EXPECT_EQ(sketch.before().loads.left_front, sketch.after().loads.left_front);
}

TEST(Sketch, WithoutFiguresForThePhysicsThereIsNone) {
  Pack bare = rules();
  bare.dimensions.clear();
  const Pit pit = cold_pit({"push@entry=2"});
  EXPECT_FALSE(sketch_of(pit.answer(), pit.kart, bare));
}

}  // namespace
}  // namespace kartwright
