#include <algorithm>
#include <cmath>

#include "engine/inference/mend.h"

namespace kartwright {
namespace {

/// What a gauge of the pits can tell apart, SI.
double just_noticed(Kind kind) {
  switch (kind) {
    case Kind::length:
      return 0.0005;
    case Kind::mass:
      return 0.1;
    case Kind::angle:
      return 0.001;
    case Kind::pressure:
      return 1000.0;
    case Kind::ratio:
      return 0.001;
    case Kind::stiffness:
      return 100.0;
    case Kind::twist:
      return 10.0;
    case Kind::count:
      break;
  }
  return 1.0;
}

bool meets(double value, const Requirement& asked, const Situation& situation) {
  const auto& test = std::get<MeasureTest>(asked.ask);
  const std::optional<double> edge = edge_of(test, situation);
  const bool above = test.side == MeasureTest::Side::above;
  return asked.wanted == (edge && (above ? value > *edge : value < *edge));
}

/// Values at and just beyond every edge that is asked about.
std::vector<double> values_to_try(const Requirements& asked, const Situation& situation) {
  std::vector<double> out;
  for (const Requirement& one : asked) {
    const auto& test = std::get<MeasureTest>(one.ask);
    const double fine = just_noticed(situation.pack.measure(test.measure)->kind);
    const std::optional<double> edge = edge_of(test, situation);
    if (edge) out.insert(out.end(), {*edge, *edge - fine, *edge + fine});
  }
  return out;
}

/// Tenths of what is plausible.
double tenths(double difference, const MeasureDef& def) {
  return 10.0 * std::abs(difference) / (def.to - def.from);
}

/// The requirement that is missed by most.
const Requirement& farthest(const Requirements& asked, std::optional<double> now,
                            const Situation& situation) {
  const auto missed = [&](const Requirement& one) {
    const std::optional<double> edge = edge_of(std::get<MeasureTest>(one.ask), situation);
    if (one.met) return -1.0;
    return now && edge ? std::abs(*edge - *now) : 0.0;
  };
  return *std::max_element(
      asked.begin(), asked.end(),
      [&](const Requirement& a, const Requirement& b) { return missed(a) < missed(b); });
}

/// The first that waits for a band where neither the pack nor the crew has one, or nullptr.
const Requirement* without_edge(const Requirements& asked, const Situation& situation) {
  const auto found = std::find_if(asked.begin(), asked.end(), [&](const Requirement& one) {
    return one.wanted && !edge_of(std::get<MeasureTest>(one.ask), situation);
  });
  return found == asked.end() ? nullptr : &*found;
}

/// A band of the crew's that the measurement, or the middle of what is plausible, is just out of.
BandChange band_missed(const MeasureTest& test, const MeasureDef& def, std::optional<double> now) {
  const double value = now.value_or((def.from + def.to) / 2.0);
  const double fine = just_noticed(def.kind);
  if (test.side == MeasureTest::Side::above) {
    return {def.id, std::min(def.from, value - fine), value - fine};
  }
  return {def.id, value + fine, std::max(def.to, value + fine)};
}

/// Where there is no band: one, and then what is still asked of the measurement.
Lacks with_a_band(const Requirement& first, const Requirements& asked, const Situation& situation) {
  const auto& test = std::get<MeasureTest>(first.ask);
  const MeasureDef& def = *situation.pack.measure(test.measure);
  constexpr double kOwnBand = 2.0;
  const std::optional<double> now = measured(test.measure, situation);
  const BandChange band = band_missed(test, def, now);
  Lack lack{.asked = first, .change = band, .distance = kOwnBand, .seen = now};
  Kart kart = situation.kart;
  kart.bands[def.id] = {band.from, band.to};
  const Situation banded{.pack = situation.pack, .kart = kart, .reports = situation.reports};
  Requirements rest = asked;
  for (Requirement& one : rest) one.met = is_met(one, banded);
  Lacks more = mend(rest, banded);
  if (more) more->insert(more->begin(), std::move(lack));
  return more;
}

}  // namespace

Lacks mend_measure(const Requirements& asked, const Situation& situation) {
  const std::string& id = std::get<MeasureTest>(asked.front().ask).measure;
  const MeasureDef& def = *situation.pack.measure(id);
  if (const Requirement* bandless = without_edge(asked, situation))
    return with_a_band(*bandless, asked, situation);
  const std::optional<double> now = measured(id, situation);
  std::vector<double> values = values_to_try(asked, situation);
  std::erase_if(values, [&](double value) {
    return !std::all_of(asked.begin(), asked.end(),
                        [&](const Requirement& one) { return meets(value, one, situation); });
  });
  if (values.empty()) return std::nullopt;
  const double from = now.value_or(values.front());
  const double to = *std::min_element(values.begin(), values.end(), [&](double a, double b) {
    return std::abs(a - from) < std::abs(b - from);
  });
  Lack lack{.asked = farthest(asked, now, situation), .change = MeasureChange{id, to}};
  lack.distance = now ? tenths(to - *now, def) : 1.0;
  lack.seen = now;
  const std::optional<double> edge = edge_of(std::get<MeasureTest>(lack.asked.ask), situation);
  lack.limit = edge;
  if (now && edge) lack.off_by = std::abs(*edge - *now);
  return std::vector{std::move(lack)};
}

}  // namespace kartwright
