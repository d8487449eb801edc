// Numbers in texts, against the library that wrote them before.

#include "engine/quantity/number_text.h"

#include <cmath>
#include <limits>
#include <random>

#include <fmt/format.h>
#include <gtest/gtest.h>

namespace kartwright {
namespace {

std::string fixed(double value, int decimals) {
  std::string text;
  append_fixed(text, value, decimals);
  return text;
}

std::string shortly(double value) {
  std::string text;
  append_short(text, value);
  return text;
}

void expect_as_fmt(double value) {
  for (const int decimals : {0, 1, 2, 3, 9})
    EXPECT_EQ(fixed(value, decimals), fmt::format("{:.{}f}", value, decimals)) << value;
  EXPECT_EQ(shortly(value), fmt::format("{:g}", value));
}

TEST(NumberText, WritesWhatFmtWrites) {
  for (const double value : {0.0,
                             1.0,
                             0.5,
                             1.5,
                             2.5,
                             0.125,
                             0.375,
                             0.005,
                             0.015,
                             1.005,
                             2.675,
                             0.0005,
                             0.9995,
                             0.995,
                             9.995,
                             99.9999,
                             1360.0,
                             1360.0000000000002,
                             53.5,
                             1e-9,
                             4e-10,
                             999999.5,
                             1e6,
                             123456789.0,
                             999999999.9,
                             1e9,
                             1e15,
                             1e22,
                             1e300,
                             std::numeric_limits<double>::max(),
                             std::numeric_limits<double>::min(),
                             std::numeric_limits<double>::denorm_min()}) {
    expect_as_fmt(value);
    expect_as_fmt(-value);
  }
}

TEST(NumberText, WritesWhatFmtWritesOfAnyNumberOfAPit) {
  std::mt19937 random(29);
  std::uniform_real_distribution<double> notches(-20.0, 20.0);
  std::uniform_int_distribution<int> thousandths(-2'000'000, 2'000'000);
  for (int i = 0; i < 20'000; ++i) {
    expect_as_fmt(notches(random));
    expect_as_fmt(thousandths(random) / 1000.0);  // halves of a hundredth among them
  }
}

TEST(NumberText, IsAppended) {
  std::string text = "rear ";
  append_fixed(text, -0.25, 1);
  append_short(text, 12.5);
  EXPECT_EQ(text, "rear -0.212.5");
}

}  // namespace
}  // namespace kartwright
