// The pictures of a kart are to scale, and their figures are the loads.

#include "cli/sheet/kart_picture.h"

#include <cmath>
#include <numbers>
#include <regex>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/default_sprint_kart.h"

namespace kartwright::cli {
namespace {

using testing::HasSubstr;

/// The numbers of every match, in order.
std::vector<std::vector<double>> numbers_of(const std::string& html, const std::string& pattern) {
  const std::regex shape(pattern);
  std::vector<std::vector<double>> out;
  for (auto at = std::sregex_iterator(html.begin(), html.end(), shape);
       at != std::sregex_iterator(); ++at) {
    out.emplace_back();
    for (std::size_t i = 1; i < at->size(); ++i) out.back().push_back(std::stod((*at)[i]));
  }
  return out;
}

constexpr const char* kTyres =
    "<rect x=\"([-0-9.]+)\" y=\"([-0-9.]+)\" width=\"([-0-9.]+)\" height=\"([-0-9.]+)\" "
    "class=\"tyre\"";
constexpr const char* kLines =
    "<line x1=\"([-0-9.]+)\" y1=\"([-0-9.]+)\" x2=\"([-0-9.]+)\" y2=\"([-0-9.]+)\" class=\"was\"";

FromAbove some_view() {
  FromAbove view{.kart = outline_of(default_sprint_kart(), 0.13, 0.2),
                 .wheels = {},
                 .was = CornerLoads{36, 34, 48, 47},
                 .mass = mass_place(default_sprint_kart())};
  view.wheels[0] = {{"36 kg", "/best/lf", "now"}};
  return view;
}

TEST(KartFromAbove, KeepsTheProportionsOfTracksWheelbaseAndTyres) {
  const SprintKart kart = default_sprint_kart();
  const auto tyres = numbers_of(from_above(some_view(), "a kart").markup.html(), kTyres);
  ASSERT_EQ(tyres.size(), 4U);
  const auto middle = [&](std::size_t i) { return tyres[i][0] + tyres[i][2] / 2.0; };
  const auto axle = [&](std::size_t i) { return tyres[i][1] + tyres[i][3] / 2.0; };
  const double front = middle(1) - middle(0);
  const double rear = middle(3) - middle(2);
  const double base = axle(2) - axle(0);
  constexpr double kTenths = 0.003;  // places are written to a tenth of a unit, in 150
  EXPECT_NEAR(front / rear, kart.front_track / kart.rear_track, kTenths);
  EXPECT_NEAR(base / rear, kart.wheelbase / kart.rear_track, kTenths);
  EXPECT_NEAR(tyres[2][2] / rear, 0.2 / kart.rear_track, kTenths);
  EXPECT_NEAR(tyres[0][3] / rear, 2.0 * kart.front_tyre_radius / kart.rear_track, kTenths);
}

TEST(KartFromAbove, SaysWhereEachFigureComesFrom) {
  const std::string html = from_above(some_view(), "left front 36 kg").markup.html();
  EXPECT_THAT(html, HasSubstr("data-json=\"/best/lf\" text-anchor=\"end\" class=\"now\">36 kg<"));
  EXPECT_THAT(html, HasSubstr("role=\"img\" aria-label=\"left front 36 kg\""));
}

TEST(KartFromBehind, DrawsTheLineAtItsTrueAngle) {
  const SprintKart kart = default_sprint_kart();
  const PatchLine line = patch_line(kart.rear_track, kart.mass_height);
  const FromBehind view{.was = kart,
                        .is = {},
                        .rear_tyre_width = 0.2,
                        .line = line,
                        .line_after = {},
                        .json_before = "/on_paper/before",
                        .json_after = {}};
  const auto lines = numbers_of(from_behind(view).markup.html(), kLines);
  ASSERT_EQ(lines.size(), 3U);  // the line, upright and sideways
  const double across = lines[0][2] - lines[0][0];
  const double down = lines[0][3] - lines[0][1];
  EXPECT_NEAR(std::atan2(down, across), line.angle, 0.001);
  EXPECT_NEAR(down / std::hypot(down, across), line.upright, 0.001);
  EXPECT_NEAR(lines[1][3] - lines[1][1], down, 1e-9);
  EXPECT_NEAR(lines[2][2] - lines[2][0], across, 1e-9);
}

TEST(KartFromBehind, TellsTheLineInDegreesAndPerCent) {
  const SprintKart kart = default_sprint_kart();
  const FromBehind view{
      .was = kart,
      .is = {},
      .rear_tyre_width = 0.2,
      .line = {.angle = std::numbers::pi / 6.0, .upright = 0.5, .sideways = 0.866},
      .line_after = {},
      .json_before = "/before",
      .json_after = {}};
  const std::string html = from_behind(view).markup.html();
  EXPECT_THAT(html, HasSubstr("data-json=\"/before/line/angle_rad\""));
  EXPECT_THAT(html, HasSubstr(">30.0°<"));
  EXPECT_THAT(html, HasSubstr(">50.0 %<"));
  EXPECT_THAT(html, HasSubstr(">86.6 %<"));
}

TEST(KartPicture, FindsTheCentreOfMassFromTheFourWheels) {
  const KartOutline kart{.wheelbase = 1.0, .front_track = 1.0, .rear_track = 1.2};
  const MassPlace even = mass_place(CornerLoads{25, 25, 25, 25}, kart);
  EXPECT_DOUBLE_EQ(even.forward, 0.5);
  EXPECT_DOUBLE_EQ(even.left, 0.0);
  // Moments about the centre line: (40 - 10) 0.5 + (30 - 20) 0.6 = 21 kg m of 100 kg.
  const MassPlace leans = mass_place(CornerLoads{40, 10, 30, 20}, kart);
  EXPECT_DOUBLE_EQ(leans.forward, 0.5);
  EXPECT_DOUBLE_EQ(leans.left, 0.21);
}

TEST(KartPicture, TellsForcesInNewtonsOrPoundsForce) {
  EXPECT_EQ(force_text(842.95, System::metric), "843 N");
  // One pound-force is 4.448222 N: NIST Special Publication 811, appendix B.8, from memory.
  EXPECT_EQ(force_text(4.448222 * 100.0, System::imperial), "100.0 lbf");
}

}  // namespace
}  // namespace kartwright::cli
