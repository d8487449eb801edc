// drawing.h - a picture as inline SVG: a few shapes, words, and figures that say which value of the
// command's JSON they show.
//
// Sizes are in the picture's own units, x to the right, y down. A picture is drawn for a phone: 320
// units wide, words 11 units tall, so that it can be read at 360 px and is never scrolled sideways.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/sheet/markup.h"

namespace kartwright::cli {

struct Point {
  double x = 0.0, y = 0.0;
};

enum class Anchor { start, middle, end };

/// A finished picture; its height is in its own units, of Drawing::kWidth across.
struct Picture {
  Markup markup = {};
  double height = 0.0;
};

/// The look of a shape stands in the sheet's style under the name of its class.
class Drawing {
 public:
  static constexpr double kWidth = 320.0;
  static constexpr double kLetter = 6.2;  ///< about the width of a letter, never less

  explicit Drawing(double height, double width = kWidth) : width_(width), height_(height) {}

  void line(Point from, Point to, std::string_view style);
  void box(Point corner, double width, double height, std::string_view style, double round = 0.0);
  void circle(Point middle, double radius, std::string_view style);
  /// Straight lines through the points.
  void path(const std::vector<Point>& points, std::string_view style);
  /// The area inside the points.
  void area(const std::vector<Point>& points, std::string_view style);
  void words(Point at, std::string_view text, Anchor anchor, std::string_view style = "");
  /// A number with its unit; `json` points (RFC 6901) at the value it shows in the same command's
  /// JSON.
  void figure(Point at, std::string_view text, std::string_view json, Anchor anchor,
              std::string_view style = "");

  /// The whole, with what it shows in words for whoever cannot see it.
  Picture picture(std::string_view in_words) const;

 private:
  double width_, height_;
  Markup shapes_;
};

}  // namespace kartwright::cli
