// Laps of a race against what R 4.2.2 (lm) makes of them; see tests/published/laps/README.md.

#include <gtest/gtest.h>

#include "engine/records/compare.h"
#include "tests/support/columns.h"

namespace kartwright {
namespace {

constexpr const char* kLaps = "tests/published/laps/laps.csv";

/// The clean laps of one driver in some stints.
std::vector<TimedLap> laps_of(const std::string& driver, int stints) {
  const auto columns = numeric_columns(kLaps);
  const std::vector<std::string> drivers = text_column(kLaps, "driver");
  std::vector<TimedLap> laps;
  for (std::size_t i = 0; i < drivers.size(); ++i) {
    const auto at = static_cast<Eigen::Index>(i);
    const auto stint = static_cast<int>(columns.at("stint")[at]);
    if (drivers[i] != driver || columns.at("clean")[at] == 0.0 || stint > stints) continue;
    laps.push_back({.number = static_cast<int>(columns.at("lap")[at]),
                    .seconds = columns.at("ms")[at] / 1000.0,
                    .setting = static_cast<std::size_t>(stint)});
  }
  return laps;
}

TEST(PublishedClock, TwoStintsWithALinearDrift) {
  const Comparison found = compare(laps_of("D1", 2), 0.1).value();
  ASSERT_EQ(found.fit.effects.size(), 1U);
  const SettingEffect& effect = found.fit.effects[0];
  EXPECT_EQ(found.fit.degrees_of_freedom, 29);
  EXPECT_NEAR(effect.seconds, -1.98238729372937, 1e-9);
  EXPECT_NEAR(effect.error, 0.288357784203239, 1e-9);
  EXPECT_NEAR(effect.low, -2.57214518152154, 1e-9);
  EXPECT_NEAR(effect.high, -1.39262940593721, 1e-9);
  EXPECT_NEAR(found.fit.drift, 0.0352141089108919, 1e-10);
  EXPECT_NEAR(found.fit.drift_error, 0.0138779043260674, 1e-10);
  EXPECT_NEAR(found.fit.residual_sd, 0.394484160156847, 1e-9);
}

TEST(PublishedClock, ThreeStintsWithALinearDrift) {
  const Comparison found = compare(laps_of("D2", 3), 0.1).value();
  ASSERT_EQ(found.fit.effects.size(), 2U);
  EXPECT_EQ(found.fit.degrees_of_freedom, 49);
  EXPECT_NEAR(found.fit.effects[0].seconds, -2.36601111753743, 1e-9);
  EXPECT_NEAR(found.fit.effects[0].error, 0.369679667235876, 1e-9);
  EXPECT_NEAR(found.fit.effects[1].seconds, -4.57917563138615, 1e-9);
  EXPECT_NEAR(found.fit.effects[1].low, -5.94713692278065, 1e-9);
  EXPECT_NEAR(found.fit.effects[1].high, -3.21121433999164, 1e-9);
  EXPECT_NEAR(found.fit.drift, 0.0774089068825908, 1e-10);
}

}  // namespace
}  // namespace kartwright
