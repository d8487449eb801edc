// Scales and what is made of them: nothing is lost between readings and modes, and every error bar
// is the spread of what is drawn.

#include <array>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "engine/chassis/lifted_axle.h"
#include "engine/chassis/scales.h"
#include "tests/support/any.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

const int kWeighings = throws_of_the_dice(2000);
constexpr int kScaleDraws = 200000;
constexpr double kPad = 0.2;  // kg

CornerLoads any_readings(Random& random) {
  return {any_between(random, 20.0, 50.0), any_between(random, 20.0, 50.0),
          any_between(random, 30.0, 60.0), any_between(random, 30.0, 60.0)};
}

void expect_equal(const CornerLoads& a, const CornerLoads& b, double close) {
  ASSERT_NEAR(a.left_front, b.left_front, close);
  ASSERT_NEAR(a.right_front, b.right_front, close);
  ASSERT_NEAR(a.left_rear, b.left_rear, close);
  ASSERT_NEAR(a.right_rear, b.right_rear, close);
}

TEST(ScalesProperty, ModesAndReadingsSayTheSame) {
  Random random(101);
  for (int i = 0; i < kWeighings; ++i) {
    const CornerLoads on = any_readings(random);
    expect_equal(loads_of(modes_of(on)), on, 1e-13 * on.total());
    if (HasFatalFailure()) FAIL() << "weighing " << i;
  }
}

/// Left for right: roll and warp change their sign, total and pitch stay.
TEST(ScalesProperty, AMirrorTurnsRollAndWarp) {
  Random random(102);
  for (int i = 0; i < kWeighings; ++i) {
    const CornerLoads on = any_readings(random);
    const Modes m = modes_of(on);
    const Modes mirror = modes_of({on.right_front, on.left_front, on.right_rear, on.left_rear});
    ASSERT_EQ(m.total, mirror.total);
    ASSERT_EQ(m.pitch, mirror.pitch);
    ASSERT_EQ(m.roll, -mirror.roll);
    ASSERT_EQ(m.warp, -mirror.warp);
  }
}

TEST(ScalesProperty, CrossIsHalfWhereThereIsNoWarp) {
  Random random(103);
  for (int i = 0; i < kWeighings; ++i) {
    Modes modes = modes_of(any_readings(random));
    ASSERT_NEAR(shares_of(loads_of(modes), 0.0).cross.value, 0.5 - modes.warp / modes.total / 2.0,
                1e-13);
    modes.warp = 0.0;
    ASSERT_NEAR(shares_of(loads_of(modes), 0.0).cross.value, 0.5, 1e-13);
  }
}

/// How a share answers to each reading, by differences; the bars add as independent errors do.
TEST(ScalesProperty, TheBarOfAShareIsThatOfItsSlopes) {
  Random random(104);
  constexpr std::array kWheels{&CornerLoads::left_front, &CornerLoads::right_front,
                               &CornerLoads::left_rear, &CornerLoads::right_rear};
  for (int i = 0; i < kWeighings; ++i) {
    const CornerLoads on = any_readings(random);
    const double sigma = any_between(random, 0.05, 0.5);
    const Shares shares = shares_of(on, sigma);
    for (const auto share : {&Shares::front, &Shares::left, &Shares::cross}) {
      double squares = 0.0;
      for (const auto wheel : kWheels) {
        CornerLoads more = on;
        CornerLoads less = on;
        more.*wheel += 1e-3;
        less.*wheel -= 1e-3;
        const double rise =
            (shares_of(more, 0.0).*share).value - (shares_of(less, 0.0).*share).value;
        squares += std::pow(rise / 2e-3, 2);
      }
      ASSERT_NEAR((shares.*share).sd, sigma * std::sqrt(squares), 1e-9) << "weighing " << i;
    }
  }
}

/// Mean and standard deviation of many draws.
struct Drawn {
  double sum = 0, squares = 0;
  int count = 0;
  void add(double value) {
    sum += value;
    squares += value * value;
    ++count;
  }
  double mean() const { return sum / count; }
  double sd() const { return std::sqrt(squares / count - mean() * mean()); }
};

void expect_spread(const Drawn& all, double value, double sd) {
  EXPECT_NEAR(all.mean(), value, 5.0 * sd / std::sqrt(kScaleDraws));
  EXPECT_NEAR(all.sd(), sd, 0.01 * sd);  // five standard errors of it are 0.8 %
}

double error_of(Random& random, double sd) {
  return std::normal_distribution<double>(0.0, sd)(random);
}

CornerLoads misread(Random& random, CornerLoads on) {
  for (double* reading : {&on.left_front, &on.right_front, &on.left_rear, &on.right_rear})
    *reading += error_of(random, kPad);
  return on;
}

constexpr CornerLoads kTrue{36.0, 33.0, 47.0, 49.0};

TEST(ScalesProperty, TheBarsOfSharesAndPairsAreTheSpreadOfWhatIsDrawn) {
  Random random(105);
  Drawn front, cross, pair;
  for (int i = 0; i < kScaleDraws; ++i) {
    const CornerLoads read = misread(random, kTrue);
    front.add(shares_of(read, kPad).front.value);
    cross.add(shares_of(read, kPad).cross.value);
    pair.add(pairs_of(read, kPad).rear.value);
  }
  const Shares shares = shares_of(kTrue, kPad);
  expect_spread(front, 69.0 / 165.0, shares.front.sd);
  expect_spread(cross, 80.0 / 165.0, shares.cross.sd);
  expect_spread(pair, -2.0, pairs_of(kTrue, kPad).rear.sd);
}

/// Each of four scales is out by its own amount; the readings scatter on top.
TEST(ScalesProperty, ScalesChangedOverTellTheirErrorsFromTheKart) {
  Random random(106);
  Drawn left_front, right_front, front_scales, rear_scales;
  ScalesSwapped swapped;
  for (int i = 0; i < kScaleDraws; ++i) {
    CornerLoads first = kTrue;
    CornerLoads again = kTrue;
    first.left_front += 0.7, first.right_front -= 0.3;  // scales of the front axle
    again.left_front -= 0.3, again.right_front += 0.7;
    first.left_rear -= 0.4, first.right_rear += 0.2;
    again.left_rear += 0.2, again.right_rear -= 0.4;
    swapped = swap_scales(misread(random, first), misread(random, again), kPad);
    left_front.add(swapped.on.left_front);
    right_front.add(swapped.on.right_front);
    front_scales.add(swapped.front_scales.value);
    rear_scales.add(swapped.rear_scales.value);
  }
  // Even over the axle: both read too much by the mean of its scales' errors.
  expect_spread(left_front, kTrue.left_front + 0.2, swapped.sigma);
  expect_spread(right_front, kTrue.right_front + 0.2, swapped.sigma);
  expect_spread(front_scales, 1.0, swapped.front_scales.sd);
  expect_spread(rear_scales, -0.6, swapped.rear_scales.sd);
}

CornerLoads warped(CornerLoads on, double by) {
  Modes modes = modes_of(on);
  modes.warp += by;
  return loads_of(modes);
}

TEST(ScalesProperty, AQuarterTurnTellsTheFloorFromTheFrame) {
  Random random(107);
  Drawn frame, floor;
  KartTurned turned;
  for (int i = 0; i < kScaleDraws; ++i) {
    turned =
        turn_kart(misread(random, warped(kTrue, 3.0)), misread(random, warped(kTrue, -3.0)), kPad);
    frame.add(turned.frame.value);
    floor.add(turned.floor.value);
  }
  expect_spread(frame, modes_of(kTrue).warp, turned.frame.sd);
  expect_spread(floor, 3.0, turned.floor.sd);
}

/// Level and lifted are weighed on two scales each, and the lift is measured.
TEST(ScalesProperty, TheBarOfTheHeightIsTheSpreadOfWhatIsDrawn) {
  Random random(108);
  const LiftedAxle test{.mass = 165.0,
                        .wheelbase = 1.04,
                        .level = 95.7,
                        .lifted = 100.6,
                        .lift = 0.25,
                        .radius_down = 0.14,
                        .radius_up = 0.14,
                        .sigma_scale = 0.2,
                        .sigma_lift = 0.005};
  Drawn height;
  for (int i = 0; i < kScaleDraws; ++i) {
    LiftedAxle read = test;
    read.level += error_of(random, 0.2) + error_of(random, 0.2);
    read.lifted += error_of(random, 0.2) + error_of(random, 0.2);
    read.lift += error_of(random, 0.005);
    height.add(mass_height(read).value);
  }
  const WithError said = mass_height(test);
  EXPECT_NEAR(height.mean(), said.value, 0.0005);  // not a straight line: the mean is a little off
  EXPECT_NEAR(height.sd(), said.sd, 0.01 * said.sd);
}

/// Points of the kart turned in its plane: the wheels that stay down have their middle at (0, r).
TEST(ScalesProperty, WheelsOfTwoSizesCostLessThanAMillimetreOfHeight) {
  Random random(109);
  for (int i = 0; i < kWeighings; ++i) {
    const double base = 1.04;
    const double down = any_between(random, 0.135, 0.145);
    const double up = down - any_between(random, 0.0, 0.015);
    const double ahead = base * any_between(random, 0.40, 0.46);
    const double height = any_between(random, 0.22, 0.32);
    const double level = 165.0 * (1.0 - ahead / base);
    // The lifted axle's middle is at (base, up - down) from the other's and rises by `lift`.
    const double lift = any_between(random, 0.20, 0.25);
    const double length = std::hypot(base, up - down);
    const double turn = std::asin((up - down + lift) / length) - std::asin((up - down) / length);
    const auto across = [&](double x, double y) { return x * std::cos(turn) - y * std::sin(turn); };
    const double lifted = 165.0 * (1.0 - across(ahead, height - down) / across(base, up - down));
    const LiftedAxle test{.mass = 165.0,
                          .wheelbase = base,
                          .level = level,
                          .lifted = lifted,
                          .lift = lift,
                          .radius_down = down,
                          .radius_up = up};
    ASSERT_NEAR(mass_height(test).value, height, 0.001) << "weighing " << i;
  }
}

}  // namespace
}  // namespace kartwright
