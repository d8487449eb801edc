#include "engine/advice/measure_next.h"

#include <algorithm>
#include <cmath>

#include "engine/decision/worth.h"

namespace kartwright {

namespace {

constexpr double kWorthIt = 1.0;  // points

/// The lead of the first change over the second in points, without room: at another belief.
double lead_at(const Eigen::VectorXd& mean, const Advice& advice, const Pack& pack) {
  const auto gain = [&](const Change& change) {
    const auto at = static_cast<std::size_t>(&change.adjustment() - pack.adjustments.data());
    return gain_of(mean, advice.weights, advice.effects[at], change.candidate.option.steps).now;
  };
  return 100.0 * (gain(advice.changes[0]) - gain(advice.changes[1])) / advice.loss_none;
}

/// The belief with one size at another value.
class Supposing {
 public:
  Supposing(const Advice& advice, const Situation& situation)
      : advice_(advice),
        kart_(situation.kart),
        there_{.pack = situation.pack,
               .kart = kart_,
               .reports = situation.reports,
               .facts = situation.facts,
               .supposed = situation.supposed} {}

  /// REQUIRES: the kart does not give it.
  Eigen::VectorXd belief_with(const MeasureDef& size, double value) {
    auto& given = there_.pack.dimension(size.id) != nullptr ? kart_.dimensions : kart_.measures;
    const auto added = given.emplace(size.id, value).first;
    const auto known = known_kart(kart_, there_.pack);
    if (known) {
      const LoadsToday& today = *advice_.loads;
      there_.loads =
          measures_of(*loads_of(*known, there_.pack, advice_.track, today.of_default), there_.pack);
    }
    Eigen::VectorXd mean = update(advice_.prior, take_readings(there_)).mean;
    given.erase(added);
    return mean;
  }

 private:
  const Advice& advice_;
  Kart kart_;
  Situation there_;
};

}  // namespace

std::optional<MeasureNext> measure_next(const Advice& advice, const Situation& situation) {
  if (!advice.loads || advice.changes.size() < 2 || advice.loss_none <= 0.0) return {};
  const Pack& pack = situation.pack;
  const double lead = lead_at(advice.belief.mean, advice, pack);
  Supposing supposing(advice, situation);
  std::optional<MeasureNext> best;
  for (const std::string_view id : advice.loads->known.assumed) {
    const MeasureDef* const dimension = pack.dimension(id);
    const MeasureDef* const size = dimension != nullptr ? dimension : pack.measure(id);
    if (size == nullptr || !size->likely_from || !size->likely_to) continue;
    double points = 0.0;
    for (const double end : {*size->likely_from, *size->likely_to}) {
      const Eigen::VectorXd mean = supposing.belief_with(*size, end);
      points = std::max(points, std::abs(lead_at(mean, advice, pack) - lead));
    }
    if (points >= kWorthIt && (!best || points > best->points))
      best = MeasureNext{size->id, size->label, points};
  }
  return best;
}

}  // namespace kartwright
