// The constants the whole engine stands on, against the figures their authorities publish.

#include <string_view>

#include <gtest/gtest.h>

#include "engine/quantity/quantity.h"

namespace kartwright {
namespace {

double si_of(std::string_view text, Kind kind) {
  return std::get<Quantity>(parse_quantity(text, kind)).si;
}

// International yard and pound agreement of 1959, as in NIST SP 811, appendix B.8 (from memory):
// the yard is 0.9144 m and the pound 0.45359237 kg, both exactly.
TEST(PublishedUnits, TheYardIsExact) {
  EXPECT_DOUBLE_EQ(si_of("36 in", Kind::length), 0.9144);
  EXPECT_DOUBLE_EQ(si_of("3 ft", Kind::length), 0.9144);
  EXPECT_DOUBLE_EQ(si_of("1 in", Kind::length), si_of("25.4 mm", Kind::length));
}

TEST(PublishedUnits, ThePoundIsExact) {
  EXPECT_DOUBLE_EQ(si_of("1 lb", Kind::mass), 0.45359237);
  EXPECT_DOUBLE_EQ(si_of("453.59237 g", Kind::mass), 0.45359237);
}

// Standard gravity 9.80665 m/s2 (third General Conference on Weights and Measures, 1901; from
// memory) makes the pound-force: psi = 0.45359237 kg * 9.80665 m/s2 / (0.0254 m)^2, the definition.
TEST(PublishedUnits, ThePoundPerSquareInchFollowsFromStandardGravity) {
  EXPECT_DOUBLE_EQ(si_of("1 psi", Kind::pressure) * 0.0254 * 0.0254 / 0.45359237, 9.80665);
}

// NIST SP 811, appendix B.8 (from memory): psi to pascal, multiply by 6.894 757 E+03, seven digits.
TEST(PublishedUnits, ThePoundPerSquareInchAsPrinted) {
  EXPECT_NEAR(si_of("1 psi", Kind::pressure), 6894.757, 0.0005);
}

// NIST SP 811, appendix B.8 (from memory): bar to pascal 1.0 E+05 exactly; degree to radian
// 1.745 329 E-02, seven digits.
TEST(PublishedUnits, TheBarAndTheDegreeAsPrinted) {
  EXPECT_EQ(si_of("1 bar", Kind::pressure), 1.0e5);
  EXPECT_NEAR(si_of("1 deg", Kind::angle), 1.745329e-2, 0.5e-8);
}

}  // namespace
}  // namespace kartwright
