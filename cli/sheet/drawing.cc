#include "cli/sheet/drawing.h"

#include <cmath>

#include <fmt/format.h>

namespace kartwright::cli {
namespace {

/// A place with a tenth of a unit, without zeros nobody needs.
std::string place(double value) {
  const double tenths = std::round(10.0 * value);
  return fmt::format("{:g}", tenths == 0.0 ? 0.0 : tenths / 10.0);
}

std::string places(const std::vector<Point>& points) {
  std::string out;
  for (const Point& each : points)
    out += (out.empty() ? "" : " ") + place(each.x) + "," + place(each.y);
  return out;
}

std::string anchor_name(Anchor anchor) {
  if (anchor == Anchor::middle) return "middle";
  return anchor == Anchor::end ? "end" : "start";
}

}  // namespace

void Drawing::line(Point from, Point to, std::string_view style) {
  shapes_ += element("line",
                     {{"x1", place(from.x)},
                      {"y1", place(from.y)},
                      {"x2", place(to.x)},
                      {"y2", place(to.y)},
                      {"class", std::string(style)}},
                     {});
}

void Drawing::box(Point corner, double width, double height, std::string_view style, double round) {
  Attributes attributes{{"x", place(corner.x)},
                        {"y", place(corner.y)},
                        {"width", place(width)},
                        {"height", place(height)},
                        {"class", std::string(style)}};
  if (round > 0.0) attributes.emplace_back("rx", place(round));
  shapes_ += element("rect", attributes, {});
}

void Drawing::circle(Point middle, double radius, std::string_view style) {
  shapes_ += element("circle",
                     {{"cx", place(middle.x)},
                      {"cy", place(middle.y)},
                      {"r", place(radius)},
                      {"class", std::string(style)}},
                     {});
}

void Drawing::path(const std::vector<Point>& points, std::string_view style) {
  shapes_ += element("polyline", {{"points", places(points)}, {"class", std::string(style)}}, {});
}

void Drawing::area(const std::vector<Point>& points, std::string_view style) {
  shapes_ += element("polygon", {{"points", places(points)}, {"class", std::string(style)}}, {});
}

void Drawing::words(Point at, std::string_view text, Anchor anchor, std::string_view style) {
  Attributes attributes{{"x", place(at.x)}, {"y", place(at.y)}};
  if (anchor != Anchor::start) attributes.emplace_back("text-anchor", anchor_name(anchor));
  if (!style.empty()) attributes.emplace_back("class", style);
  shapes_ += element("text", attributes, cli::words(text));
}

void Drawing::figure(Point at, std::string_view text, std::string_view json, Anchor anchor,
                     std::string_view style) {
  Attributes attributes{{"x", place(at.x)}, {"y", place(at.y)}, {"data-json", std::string(json)}};
  if (anchor != Anchor::start) attributes.emplace_back("text-anchor", anchor_name(anchor));
  if (!style.empty()) attributes.emplace_back("class", style);
  shapes_ += element("text", attributes, cli::words(text));
}

Picture Drawing::picture(std::string_view in_words) const {
  const Attributes attributes{{"viewBox", "0 0 " + place(width_) + " " + place(height_)},
                              {"role", "img"},
                              {"aria-label", std::string(in_words)}};
  return {.markup = element("svg", attributes, shapes_), .height = height_ * kWidth / width_};
}

}  // namespace kartwright::cli
