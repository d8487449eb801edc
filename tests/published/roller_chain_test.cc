// Roller chain and sprockets against what makers print.

#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/chassis/chain.h"

namespace kartwright {
namespace {

// The formula is that of ramseychain.com and engpowerdata.com (verified). A paper's example, read
// at th4.ilovetranslation.com (its values verified, the distance of 36 pitches inferred): 20 and 63
// teeth need 114.8 pitches, and 114 pitches a distance of 35.6. Printed to a tenth: 0.05. What the
// paper calls exact follows from no geometry and is left out.
TEST(PublishedChain, TwentyAndSixtyThreeTeeth) {
  EXPECT_NEAR(chain_pitches(20, 63, 36.0), 114.8, 0.05);
  const std::optional<double> distance = chain_distance(20, 63, 114.0);
  ASSERT_TRUE(distance);
  EXPECT_NEAR(*distance, 35.6, 0.05);
}

// tkart.it (verified): chains of pitch 219 are sold from 98 to 110 links, even counts only. What is
// asked for never lies more than a pitch from one of them.
TEST(PublishedChain, ComesInEvenCounts) {
  EXPECT_EQ(nearest_even_links(114.8), 114);
  EXPECT_EQ(nearest_even_links(115.2), 116);
  for (double pitches = 97.5; pitches < 110.5; pitches += 0.37) {
    const int links = nearest_even_links(pitches);
    EXPECT_EQ(links % 2, 0) << pitches;
    EXPECT_TRUE(links >= 98 && links <= 110) << pitches;
    EXPECT_LE(std::abs(links - pitches), 1.0) << pitches;
  }
}

// Pitches (verified, saddingtonracing.com, gokartsupply.com, um-driverless.github.io): number 35
// 9.525 mm, number 219 7.774 mm.
constexpr double kNumber35 = 9.525 / 25.4;  // inches
constexpr double kNumber219 = 7.774 / 25.4;

// Outside diameters in inches, tsracing.com (verified). Tolerance 0.02 in: the table steps
// unevenly.
TEST(PublishedSprockets, OfPitch35) {
  constexpr std::array kPrinted{9.530, 9.650, 9.760, 9.880, 9.995};
  int teeth = 78;
  for (const double printed : kPrinted) {
    EXPECT_NEAR(kNumber35 * sprocket_diameter(teeth), printed, 0.02) << teeth << " teeth";
    ++teeth;
  }
}

// The same table, rounded to 0.025 in and more: 0.03 in, which still tells 7.774 mm from the 8 mm
// or 5/16 in that are taken for it.
TEST(PublishedSprockets, OfPitch219) {
  constexpr std::array kPrinted{8.950, 9.025, 9.125, 9.225, 9.325, 9.425,
                                9.525, 9.625, 9.725, 9.825, 9.925};
  int teeth = 90;
  for (const double printed : kPrinted) {
    EXPECT_NEAR(kNumber219 * sprocket_diameter(teeth), printed, 0.03) << teeth << " teeth";
    EXPECT_GT(std::abs(5.0 / 16.0 * sprocket_diameter(teeth) - printed), 0.15) << teeth << " teeth";
    EXPECT_GT(std::abs(8.0 / 25.4 * sprocket_diameter(teeth) - printed), 0.2) << teeth << " teeth";
    ++teeth;
  }
}

}  // namespace
}  // namespace kartwright
