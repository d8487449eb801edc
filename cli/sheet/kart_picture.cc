#include "cli/sheet/kart_picture.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "cli/page.h"

namespace kartwright::cli {
namespace {

constexpr double kLineHeight = 13.0;
constexpr double kMiddle = Drawing::kWidth / 2.0;

/// One of the four wheels, from above.
struct Wheel {
  double left = 0, forward = 0;  ///< of its middle, m
  double width = 0, radius = 0;
  bool is_left() const { return left > 0; }
};

std::array<Wheel, 4> wheels_of(const KartOutline& k) {
  const double front = k.front_track / 2.0;
  const double rear = k.rear_track / 2.0;
  return {{{front, k.wheelbase, k.front_tyre_width, k.front_tyre_radius},
           {-front, k.wheelbase, k.front_tyre_width, k.front_tyre_radius},
           {rear, 0.0, k.rear_tyre_width, k.rear_tyre_radius},
           {-rear, 0.0, k.rear_tyre_width, k.rear_tyre_radius}}};
}

/// From the kart's metres to the picture: forward is up, left is left.
struct FromAboveScale {
  double units = 0;  ///< of the picture, a metre
  double top = 0;    ///< where the front axle stands
  double wheelbase = 0;

  double x(double left) const { return kMiddle - units * left; }
  double y(double forward) const { return top + units * (wheelbase - forward); }
  Point at(double forward, double left) const { return {x(left), y(forward)}; }
};

FromAboveScale scale_for(const KartOutline& k) {
  constexpr double kWide = 172.0;  // leaves room for words on both sides
  const double across =
      std::max(k.front_track + k.front_tyre_width, k.rear_track + k.rear_tyre_width);
  const double units = kWide / across;
  return {units, 20.0 + units * k.front_tyre_radius, k.wheelbase};
}

/// A measure on the ground, so that anybody can take sizes off the picture.
void ruler(Drawing& drawing, Point at, double units, System system) {
  const double length = system == System::metric ? 0.5 : 0.508;  // 20 in
  const double end = at.x + units * length;
  drawing.line(at, {end, at.y}, "axis");
  drawing.line({at.x, at.y - 3.0}, {at.x, at.y + 3.0}, "axis");
  drawing.line({end, at.y - 3.0}, {end, at.y + 3.0}, "axis");
  drawing.words({end + 5.0, at.y + 4.0}, print_quantity(length, Kind::length, system),
                Anchor::start, "small soft");
}

/// Two bars on the inside of a wheel, as tall as its load against the greatest of all: what was on
/// the left, what is on the right of it.
void load_bars(Drawing& drawing, const FromAboveScale& scale, const Wheel& wheel,
               std::optional<double> was, std::optional<double> is, double most) {
  constexpr double kBar = 5.0, kTall = 30.0, kGap = 3.0;
  const double inside = wheel.left + (wheel.is_left() ? -0.5 : 0.5) * wheel.width;
  const double both = kBar + (is ? kBar + 2.0 : 0.0);
  double x = scale.x(inside) + (wheel.is_left() ? kGap : -kGap - both);
  const double foot = scale.y(wheel.forward) + kTall / 2.0;
  const auto bar = [&](double load, const char* style) {
    const double tall = kTall * std::max(load, 0.0) / most;
    drawing.box({x, foot - tall}, kBar, tall, style);
    x += kBar + 2.0;
  };
  if (was) bar(*was, "was-fill");
  if (is) bar(*is, "is-fill");
}

void wheel_words(Drawing& drawing, const FromAboveScale& scale, const Wheel& wheel,
                 const std::vector<WheelFigure>& figures) {
  const double outside = wheel.left + (wheel.is_left() ? wheel.width : -wheel.width) / 2.0;
  const double x = scale.x(outside) + (wheel.is_left() ? -5.0 : 5.0);
  const Anchor anchor = wheel.is_left() ? Anchor::end : Anchor::start;
  double y = scale.y(wheel.forward) + 4.0 -
             kLineHeight * (static_cast<double>(figures.size()) - 1.0) / 2.0;
  for (const WheelFigure& each : figures) {
    drawing.figure({x, y}, each.text, each.json, anchor, each.style);
    y += kLineHeight;
  }
}

void cross_hair(Drawing& drawing, Point at, const char* style) {
  drawing.circle(at, 5.0, style);
  drawing.line({at.x - 8.0, at.y}, {at.x + 8.0, at.y}, "axis");
  drawing.line({at.x, at.y - 8.0}, {at.x, at.y + 8.0}, "axis");
}

/// Frame and axles, no more than a reader needs to know which way the kart points.
void body_lines(Drawing& drawing, const FromAboveScale& scale, const KartOutline& k) {
  const double front = k.front_track / 2.0 - k.front_tyre_width;
  const double rear = k.rear_track / 2.0;
  drawing.line(scale.at(k.wheelbase, k.front_track / 2.0),
               scale.at(k.wheelbase, -k.front_track / 2.0), "axis");
  drawing.line(scale.at(0.0, rear), scale.at(0.0, -rear), "axis");
  for (const double side : {1.0, -1.0}) {
    drawing.path({scale.at(0.0, side * 0.32 * k.rear_track),
                  scale.at(0.35 * k.wheelbase, side * 0.28 * k.rear_track),
                  scale.at(k.wheelbase, side * front)},
                 "frame");
  }
  drawing.line(scale.at(0.0, 0.0), scale.at(k.wheelbase, 0.0), "faint");
}

double most_of(const std::optional<CornerLoads>& a, const std::optional<CornerLoads>& b) {
  double most = 0.0;
  for (const auto* each : {&a, &b}) {
    if (!*each) continue;
    for (const double load : by_wheel(**each)) most = std::max(most, load);
  }
  return most;
}

std::optional<double> of_wheel(const std::optional<CornerLoads>& on, std::size_t wheel) {
  return on ? std::optional(by_wheel(*on).at(wheel)) : std::nullopt;
}

void all_wheels(Drawing& drawing, const FromAboveScale& scale, const FromAbove& view) {
  const std::array<Wheel, 4> wheels = wheels_of(view.kart);
  const double most = most_of(view.was, view.is);
  for (std::size_t i = 0; i < wheels.size(); ++i) {
    const Wheel& wheel = wheels.at(i);
    const double width = scale.units * wheel.width;
    drawing.box(
        {scale.x(wheel.left) - width / 2.0, scale.y(wheel.forward) - scale.units * wheel.radius},
        width, 2.0 * scale.units * wheel.radius, "tyre", 4.0);
    if (most > 0.0)
      load_bars(drawing, scale, wheel, of_wheel(view.was, i), of_wheel(view.is, i), most);
    wheel_words(drawing, scale, wheel, view.wheels.at(i));
  }
}

void mass(Drawing& drawing, const FromAboveScale& scale, const FromAbove& view) {
  if (view.band) {
    const MassBand& band = *view.band;
    const double across = view.kart.rear_track / 2.0;
    drawing.box(scale.at(view.kart.wheelbase, band.left), scale.units * (band.left - band.right),
                scale.units * view.kart.wheelbase, "strip");
    drawing.box(scale.at(band.front, across), scale.units * 2.0 * across,
                scale.units * (band.front - band.back), "strip");
  }
  const Point at = scale.at(view.mass.forward, view.mass.left);
  cross_hair(drawing, at, "was-dot");
  if (!view.mass_after) return;
  const Point then = scale.at(view.mass_after->forward, view.mass_after->left);
  drawing.line(at, then, "is");
  drawing.circle(then, 4.0, "is-dot");
}

/// An arrow that bends to the left in front of the kart, and which side is which.
void left_turn(Drawing& drawing) {
  drawing.path(
      {{kMiddle, 20.0}, {kMiddle - 1.0, 14.0}, {kMiddle - 5.0, 10.0}, {kMiddle - 16.0, 8.0}},
      "axis");
  drawing.area({{kMiddle - 22.0, 8.0}, {kMiddle - 15.0, 4.0}, {kMiddle - 15.0, 12.0}}, "head");
  drawing.words({kMiddle + 8.0, 12.0}, "turns left", Anchor::start, "small soft");
  drawing.words({4.0, 12.0}, "inside", Anchor::start, "small soft");
  drawing.words({316.0, 12.0}, "outside", Anchor::end, "small soft");
}

/// What the lines beside the wheels are, in their own looks, from the right.
void legend(Drawing& drawing, const std::vector<LegendWord>& words, double y) {
  double x = 316.0;
  for (auto each = words.rbegin(); each != words.rend(); ++each) {
    drawing.words({x, y}, each->text, Anchor::end, each->style);
    x -= Drawing::kLetter * static_cast<double>(columns(each->text)) + 12.0;
  }
}

void share_lines(Drawing& drawing, const std::vector<ShareLine>& lines, double y) {
  for (const ShareLine& each : lines) {
    drawing.words({4.0, y}, each.label, Anchor::start);
    drawing.figure({112.0, y}, each.figure.text, each.figure.json, Anchor::end, each.figure.style);
    drawing.words({120.0, y}, each.note, Anchor::start, "soft");
    y += kLineHeight;
  }
}

}  // namespace

std::array<double, 4> by_wheel(const CornerLoads& on) {
  return {on.left_front, on.right_front, on.left_rear, on.right_rear};
}

std::string_view wheel_name(std::size_t wheel) {
  static constexpr std::array<std::string_view, 4> kNames{"left front", "right front", "left rear",
                                                          "right rear"};
  return kNames.at(wheel);
}

KartOutline outline_of(const SprintKart& kart, double front_tyre_width, double rear_tyre_width) {
  return {.wheelbase = kart.wheelbase,
          .front_track = kart.front_track,
          .rear_track = kart.rear_track,
          .front_tyre_width = front_tyre_width,
          .rear_tyre_width = rear_tyre_width,
          .front_tyre_radius = kart.front_tyre_radius,
          .rear_tyre_radius = kart.rear_tyre_radius};
}

MassPlace mass_place(const SprintKart& kart) {
  return {.forward = kart.front_share * kart.wheelbase, .left = kart.mass_left};
}

MassPlace mass_place(const CornerLoads& on, const KartOutline& kart) {
  return {.forward = (on.left_front + on.right_front) / on.total() * kart.wheelbase,
          .left = ((on.left_front - on.right_front) * kart.front_track +
                   (on.left_rear - on.right_rear) * kart.rear_track) /
                  (2.0 * on.total())};
}

Picture from_above(const FromAbove& view, std::string_view in_words) {
  const FromAboveScale scale = scale_for(view.kart);
  const double foot = scale.y(0.0) + scale.units * view.kart.rear_tyre_radius;
  const double shares = kLineHeight * static_cast<double>(view.shares.size());
  Drawing drawing(foot + 24.0 + (view.shares.empty() ? 0.0 : shares + 4.0));
  if (view.turns_left) {
    left_turn(drawing);
  } else {
    drawing.words({kMiddle, 10.0}, "front", Anchor::middle, "small soft");
  }
  body_lines(drawing, scale, view.kart);
  all_wheels(drawing, scale, view);
  mass(drawing, scale, view);
  ruler(drawing, {4.0, foot + 14.0}, scale.units, view.units);
  legend(drawing, view.legend, foot + 18.0);
  share_lines(drawing, view.shares, foot + 34.0);
  return drawing.picture(in_words);
}

namespace {

constexpr double kOneDegree = std::numbers::pi / 180.0;

/// From the kart's metres to the picture, from behind: left is left.
struct FromBehindScale {
  double units = 0, ground = 0;
  Point at(double left, double up) const { return {kMiddle - units * left, ground - units * up}; }
};

void rear_wheels(Drawing& drawing, const FromBehindScale& scale, const SprintKart& kart,
                 double tyre_width, const char* style) {
  for (const double side : {1.0, -1.0}) {
    const double left = side * kart.rear_track / 2.0 + tyre_width / 2.0;
    drawing.box(scale.at(left, 2.0 * kart.rear_tyre_radius), scale.units * tyre_width,
                scale.units * 2.0 * kart.rear_tyre_radius, style, 3.0);
  }
}

Point patch_of(const FromBehindScale& scale, const SprintKart& kart) {
  return scale.at(-kart.rear_track / 2.0, 0.0);
}

/// The line, with its upright part down from the centre of mass and its sideways part on the
/// ground.
void line_and_parts(Drawing& drawing, const FromBehindScale& scale, const SprintKart& kart,
                    const char* style) {
  const Point mass = scale.at(0.0, kart.mass_height);
  const Point patch = patch_of(scale, kart);
  drawing.line(mass, patch, style);
  drawing.line(mass, {mass.x, scale.ground}, style);
  drawing.line({mass.x, scale.ground}, patch, style);
}

struct LineWords {
  const char* what;
  const char* json;
  double before, after;
  const char* unit;
};

/// "to the tyre 24.1° → 23.6°", each figure by itself.
void line_words(Drawing& drawing, const FromBehind& view, double y) {
  const PatchLine& was = view.line;
  const PatchLine is = view.line_after.value_or(was);
  const std::array rows{LineWords{"angle above the ground", "angle_rad", was.angle / kOneDegree,
                                  is.angle / kOneDegree, "°"},
                        LineWords{"upright part, down into the tyre", "upright",
                                  100.0 * was.upright, 100.0 * is.upright, " %"},
                        LineWords{"sideways part, across it", "sideways", 100.0 * was.sideways,
                                  100.0 * is.sideways, " %"}};
  for (const LineWords& row : rows) {
    drawing.words({4.0, y}, row.what, Anchor::start);
    const std::string end = std::string("/line/") + row.json;
    drawing.figure({250.0, y}, fmt::format("{:.1f}{}", row.before, row.unit),
                   view.json_before + end, Anchor::end, "now");
    if (view.line_after) {
      drawing.words({256.0, y}, "→", Anchor::start, "soft");
      drawing.figure({316.0, y}, fmt::format("{:.1f}{}", row.after, row.unit),
                     view.json_after + end, Anchor::end, "then");
    }
    y += kLineHeight;
  }
}

std::string behind_in_words(const FromBehind& view) {
  const auto side = [&](const SprintKart& kart, const PatchLine& line) {
    return fmt::format(
        "centre of mass {} above the ground, rear tyres {} apart, line {:.1f}°, "
        "upright {:.1f} %, sideways {:.1f} %",
        print_quantity(kart.mass_height, Kind::length, view.units),
        print_quantity(kart.rear_track, Kind::length, view.units), line.angle / kOneDegree,
        100.0 * line.upright, 100.0 * line.sideways);
  };
  std::string text = "The kart from behind in a left turn, to scale: " + side(view.was, view.line);
  if (view.is && view.line_after) text += "; after the change " + side(*view.is, *view.line_after);
  return text;
}

}  // namespace

Picture from_behind(const FromBehind& view) {
  const double widest = std::max(view.was.rear_track, view.is ? view.is->rear_track : 0.0);
  const double units = 296.0 / (widest + view.rear_tyre_width);
  const double tallest = std::max({2.0 * view.was.rear_tyre_radius, view.was.mass_height,
                                   view.is ? view.is->mass_height : 0.0});
  const FromBehindScale scale{units, 24.0 + units * tallest};
  Drawing drawing(scale.ground + 62.0);
  rear_wheels(drawing, scale, view.was, view.rear_tyre_width, "tyre");
  if (view.is) rear_wheels(drawing, scale, *view.is, view.rear_tyre_width, "faint");
  drawing.line({4.0, scale.ground}, {316.0, scale.ground}, "axis");
  line_and_parts(drawing, scale, view.was, "was");
  if (view.is) line_and_parts(drawing, scale, *view.is, "is");
  cross_hair(drawing, scale.at(0.0, view.was.mass_height), "was-dot");
  drawing.words({kMiddle, 12.0}, "centre of mass", Anchor::middle, "small soft");
  drawing.words({316.0, 12.0}, "outside", Anchor::end, "small soft");
  drawing.words({4.0, 12.0}, "inside", Anchor::start, "small soft");
  line_words(drawing, view, scale.ground + 20.0);
  return drawing.picture(behind_in_words(view));
}

std::string force_text(double newtons, System units) {
  if (units == System::metric) return fmt::format("{:.0f} N", newtons);
  constexpr double kPoundForce = 4.4482216152605;  // N, by the pound of 1959 and standard gravity
  return fmt::format("{:.1f} lbf", newtons / kPoundForce);
}

}  // namespace kartwright::cli
