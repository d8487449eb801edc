#include "engine/practice/ends.h"

#include <algorithm>

#include "engine/decision/headline.h"

namespace kartwright {
namespace {

double error_of_end(std::string_view id, const Marking& marking) {
  const Advice& advice = marking.advice();
  double error = 0.0;
  for (const DrillEnd& end : marking.pack().drills.ends) {
    if (end.id != id) continue;
    for (std::size_t i = 0; i < marking.pack().axes.size(); ++i) {
      const Axis& axis = marking.pack().axes[i];
      const bool of_it = std::any_of(end.axes.begin(), end.axes.end(), [&](const std::string& a) {
        return a == axis.id || a == axis.family;
      });
      const auto at = static_cast<Eigen::Index>(i);
      if (of_it) error += advice.weights[at] * advice.belief.mean[at] * advice.belief.mean[at];
    }
  }
  return error;
}

double likeliest_stop(const Marking& marking) {
  double most = 0.0;
  for (std::size_t i = 0; i < marking.pack().faults.size(); ++i) {
    if (marking.pack().faults[i].stop) most = std::max(most, marking.probability_of_fault(i));
  }
  return most;
}

}  // namespace

std::string_view name_of(KartEnd end) {
  static constexpr std::array<std::string_view, 5> kNames{"front", "rear", "both", "neither",
                                                          "broken"};
  return kNames.at(static_cast<std::size_t>(end));
}

EndMarks mark_ends(const Marking& marking) {
  EndMarks out{.front = error_of_end("front", marking), .rear = error_of_end("rear", marking)};
  const double all = out.front + out.rear;
  const double share = all > 0.0 ? out.front / all : 0.5;
  const double broken = likeliest_stop(marking);
  const bool stop = !marking.stopping().empty();
  const bool leave = marking.leaving_is_right();
  const double ends = stop ? 1.0 - broken : leave ? 0.5 : 1.0;
  const double neither = leave ? 1.0 : std::min(1.0, kSmallLoss / std::max(all, kSmallLoss));
  out.marks = {ends * share, ends * (1.0 - share), ends * 2.0 * std::min(share, 1.0 - share),
               stop ? ends * neither : neither, broken};
  const auto most = std::max_element(out.marks.begin(), out.marks.end());
  out.right = kKartEnds.at(static_cast<std::size_t>(most - out.marks.begin()));
  const double scale = 100.0 / *most;
  for (double& mark : out.marks) mark *= scale;
  return out;
}

std::optional<KartEnd> end_named(std::string_view word) {
  std::optional<KartEnd> found;
  for (const KartEnd end : kKartEnds) {
    if (word.empty() || !name_of(end).starts_with(word)) continue;
    if (found) return std::nullopt;
    found = end;
  }
  return found;
}

}  // namespace kartwright
