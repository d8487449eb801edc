// What the physics measures of a kart, for rules to read.

#include "engine/chassis/load_measures.h"

#include <gtest/gtest.h>

#include "tests/support/pit.h"

namespace kartwright {
namespace {

TEST(LoadMeasures, OfTheTypicalKartWiderThanThePacksOwnCarryMoreInsideThanIt) {
  Kart kart = typical_kart(rules());
  const LoadsToday today = loads_today(kart, rules(), "rubbered-in").value();
  const auto measures = measures_of(today, rules());
  EXPECT_DOUBLE_EQ(measures.at("inside-rear-over-default"),
                   today.figures.inside_rear - today.of_default.inside_rear);
  EXPECT_EQ(measures.at("hop-index"), std::max(0.0, today.figures.hop));
  const KnownKart usual = default_kart(rules()).value();
  EXPECT_DOUBLE_EQ(today.of_default.inside_rear, figures_of(usual.kart, today.corner).inside_rear);
}

TEST(LoadMeasures, TakeTheMassOnTheCentreLineSinceBothTurnsCount) {
  Kart kart = typical_kart(rules());
  const double even = loads_today(kart, rules(), "green").value().figures.inside_rear;
  kart.dimensions["mass-sideways"] = 0.05;
  EXPECT_DOUBLE_EQ(loads_today(kart, rules(), "green").value().figures.inside_rear, even);
}

TEST(LoadMeasures, SayWhetherTheInsideRearIsOffInTheMiddleOfTheCorner) {
  Kart kart = typical_kart(rules());
  EXPECT_FALSE(loads_today(kart, rules(), "wet").value().inside_rear_off);
  kart.dimensions["mass-height"] = 0.55;
  const LoadsToday high = loads_today(kart, rules(), "rubbered-in").value();
  EXPECT_TRUE(high.inside_rear_off);
  EXPECT_LT(high.figures.inside_rear, 0.0);
  EXPECT_GT(measures_of(high, rules()).at("hop-index"), 0.0);
}

TEST(LoadMeasures, AreOnlyThoseThatThePackKnowsAndNoneOfAnUnknownTrack) {
  const Kart kart = typical_kart(rules());
  EXPECT_FALSE(loads_today(kart, rules(), "unknown"));
  EXPECT_FALSE(loads_today(kart, Pack{}, "green"));
  const LoadsToday today = loads_today(kart, rules(), "green").value();
  EXPECT_TRUE(measures_of(today, Pack{}).empty());
}

}  // namespace
}  // namespace kartwright
