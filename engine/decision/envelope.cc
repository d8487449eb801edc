#include "engine/decision/envelope.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace kartwright {
namespace {

double density(double z) {
  static const double kScale = 1.0 / std::sqrt(2.0 * std::acos(-1.0));
  return kScale * std::exp(-0.5 * z * z);
}

/// P(Z <= z).
double below(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

/// Where the later of two lines, the steeper, comes to the height of the earlier.
double crossing(const Line& flat, const Line& steep) {
  return (flat.height - steep.height) / (steep.slope - flat.slope);
}

/// Leaves the lines that are highest somewhere, by slope.
void keep_highest(std::vector<Line>& lines) {
  std::sort(lines.begin(), lines.end(), [](const Line& a, const Line& b) {
    return std::tie(a.slope, a.height) < std::tie(b.slope, b.height);
  });
  std::size_t kept = 0;
  for (const Line line : lines) {
    while (kept > 0) {
      const Line& last = lines[kept - 1];
      const bool parallel = last.slope == line.slope;  // and not higher, by the order
      if (!parallel && (kept == 1 || crossing(lines[kept - 2], last) < crossing(last, line))) break;
      --kept;
    }
    lines[kept++] = line;
  }
  lines.resize(kept);
}

/// What a corner adds to the line that is best at z = 0: it bends away from it on the far side.
double hinge(const Corner& corner, double z) {
  return corner.rise * std::max(0.0, corner.z > 0.0 ? z - corner.z : corner.z - z);
}

/// E[hinge(Z); Z > floor].
double expected_hinge(const Corner& corner, double floor) {
  if (corner.z > 0.0) {
    const double from = std::max(corner.z, floor);
    return corner.rise * (density(from) - corner.z * below(-from));
  }
  if (corner.z <= floor) return 0.0;
  return corner.rise *
         (density(corner.z) - density(floor) + corner.z * (below(corner.z) - below(floor)));
}

/// E[Z | Z <= floor]. REQUIRES: below(floor) > 0.
double mean_below(double floor) { return -density(floor) / below(floor); }

}  // namespace

std::vector<Corner> corners_of(std::vector<Line> lines) {
  keep_highest(lines);
  std::vector<Corner> corners;
  for (std::size_t i = 1; i < lines.size(); ++i) {
    corners.push_back({crossing(lines[i - 1], lines[i]), lines[i].slope - lines[i - 1].slope});
  }
  return corners;
}

double worth_of_seeing(std::vector<Line> lines, double floor) {
  // Beyond this no double has any probability left, and its products would be no numbers.
  constexpr double kNever = 38.0;
  const double alike = below(floor);
  const double middle = alike > 0.0 ? mean_below(floor) : 0.0;
  double worth = 0.0;
  for (const Corner& corner : corners_of(std::move(lines))) {
    if (!(std::abs(corner.z) < kNever)) continue;
    worth += std::max(0.0, expected_hinge(corner, floor)) + alike * hinge(corner, middle);
  }
  return worth;
}

}  // namespace kartwright
