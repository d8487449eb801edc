// The height of the mass by a lifted axle, against a textbook, a standard and the algebra of
// another house.

#include "engine/chassis/lifted_axle.h"

#include <cmath>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

#include "tests/support/any.h"

namespace kartwright {
namespace {

// Hibbeler, Statics, the car on four scales: method, 2297 lb and 1959 lb on front and rear axle,
// tyres 1.98 ft across (verified, askfilo.com/user-question-answers-physics/...36333239393039);
// 9.40 ft between the axles, the rear axle's middle raised to 3.0 ft, 2576 lb then on the front,
// and the answers 5.07 ft from the rear and 3.80 ft up (from memory). Printed to 0.01 ft and
// rounded on the way: tolerance 0.006.
constexpr LiftedAxle kTextbookCar{.mass = 2297.0 + 1959.0,
                                  .wheelbase = 9.40,
                                  .level = 2297.0,
                                  .lifted = 2576.0,
                                  .lift = 3.0 - 0.99,
                                  .radius_down = 0.99,
                                  .radius_up = 0.99};

TEST(PublishedLiftedAxle, TextbookCar) {
  EXPECT_NEAR(mass_height(kTextbookCar).value, 3.80, 0.006);
  const double from_rear = kTextbookCar.level / kTextbookCar.mass * kTextbookCar.wheelbase;
  EXPECT_NEAR(from_rear, 5.07, 0.006);
}

// A text on weighing cars in the collection Nemotron-CC-Math ("Center of Gravity Height Again",
// verified): 110 in between the axles, lifted by 18 in, leaves 108.5 in on the floor, and the slope
// is 0.1659; the sine, which is often taken for it, is 0.1636. Printed to four digits.
TEST(PublishedLiftedAxle, TheSlopeIsTheTangentAndNotTheSine) {
  // A mass of one that moves all of itself stands 110 / slope high.
  const LiftedAxle unit{.mass = 1.0, .wheelbase = 110.0, .level = 0.0, .lifted = 1.0, .lift = 18.0};
  const double slope = 110.0 / mass_height(unit).value;
  EXPECT_NEAR(slope, 0.1659, 6e-5);
  EXPECT_NEAR(18.0 / slope, 108.5, 0.06);
}

/// What is weighed, by turning the kart's points in its plane: the mass over the middle of the
/// wheels that stay down, the other wheels' middle over the same.
struct Weighed {
  double mass, wheelbase, radius;
  double ahead, height;  ///< of the mass, from the wheels that stay down
};

double on_those_down(const Weighed& kart, double angle) {
  const double mass_at =
      kart.ahead * std::cos(angle) - (kart.height - kart.radius) * std::sin(angle);
  const double wheels_at = kart.wheelbase * std::cos(angle);
  return kart.mass * (1.0 - mass_at / wheels_at);
}

LiftedAxle lifted_by(const Weighed& kart, double angle) {
  return {.mass = kart.mass,
          .wheelbase = kart.wheelbase,
          .level = on_those_down(kart, 0.0),
          .lifted = on_those_down(kart, angle),
          .lift = kart.wheelbase * std::sin(angle),
          .radius_down = kart.radius,
          .radius_up = kart.radius};
}

/// The same kart, the other axle lifted.
Weighed other_end_first(Weighed kart) {
  kart.ahead = kart.wheelbase - kart.ahead;
  return kart;
}

Weighed any_weighed(Random& random) {
  const double wheelbase = any_between(random, 1.0, 1.1);
  return {any_between(random, 100.0, 200.0), wheelbase, any_between(random, 0.12, 0.15),
          wheelbase * any_between(random, 0.35, 0.65), any_between(random, 0.18, 0.4)};
}

// ISO 10392, 6.2 (excerpt verified, mandarinseed.com/a/ISO/91.html): plot the load of the axle that
// stays down against the tangent of the angle, at least three steps, and lift the other axle too.
// The height is in the slope of that line. Synthetic weighings, so 1e-12 of a metre.
TEST(PublishedLiftedAxle, TheHeightIsTheSlopeOfTheLineOfTheStandard) {
  Random random(71);
  for (int i = 0; i < 1000; ++i) {
    const Weighed kart = any_weighed(random);
    for (const Weighed& way : {kart, other_end_first(kart)}) {
      std::vector<LiftedAxle> lifts;
      const int steps = whole(random, 3, 12);
      for (int step = 1; step <= steps; ++step) lifts.push_back(lifted_by(way, 0.3 * step / steps));
      ASSERT_NEAR(mass_height(lifts), kart.height, 1e-12) << "kart " << i;
      ASSERT_NEAR(mass_height(lifts.back()).value, kart.height, 1e-12) << "kart " << i;
    }
  }
}

/// The line through the level weighing, by the sums of a textbook, for readings that scatter.
TEST(PublishedLiftedAxle, ScatteredReadingsGoByLeastSquares) {
  Random random(72);
  for (int i = 0; i < 1000; ++i) {
    const Weighed kart = any_weighed(random);
    std::vector<LiftedAxle> lifts;
    for (const double angle : {0.1, 0.17, 0.24}) {
      lifts.push_back(lifted_by(kart, angle));
      lifts.back().lifted += any_between(random, -0.5, 0.5);
    }
    const auto misfit = [&](double height) {
      double sum = 0.0;
      for (const LiftedAxle& test : lifts) {
        const double tangent = std::tan(std::asin(test.lift / test.wheelbase));
        const double line = kart.mass * (height - kart.radius) * tangent / kart.wheelbase;
        sum += std::pow(test.lifted - test.level - line, 2);
      }
      return sum;
    };
    const double best = mass_height(lifts);
    ASSERT_LT(misfit(best), misfit(best + 1e-4)) << "kart " << i;
    ASSERT_LT(misfit(best), misfit(best - 1e-4)) << "kart " << i;
  }
}

// The body builders' guide of a maker of vans, Crafter 3.5, vwn-aufbaurichtlinien.de (verified)
// has its own algebra for the same test: X = Gv RS / (Gv + Gh), level and raised, where the raised
// wheelbase is RS2 = sqrt(RS1^2 - a^2), and the height from both. Both ways must agree to 1e-9 m.
TEST(PublishedLiftedAxle, AgreesWithTheAlgebraOfAVanMaker) {
  Random random(73);
  for (int i = 0; i < 1000; ++i) {
    const LiftedAxle test = lifted_by(any_weighed(random), any_between(random, 0.05, 0.5));
    const double raised_base = std::sqrt(test.wheelbase * test.wheelbase - test.lift * test.lift);
    const double level_at = (test.mass - test.level) * test.wheelbase / test.mass;
    const double raised_at = (test.mass - test.lifted) * raised_base / test.mass;
    const double cosine = raised_base / test.wheelbase;
    const double height = (level_at * cosine - raised_at) / (test.lift / test.wheelbase);
    ASSERT_NEAR(mass_height(test).value, height + test.radius_down, 1e-9) << "kart " << i;
  }
}

}  // namespace
}  // namespace kartwright
