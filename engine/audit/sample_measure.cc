#include <algorithm>
#include <cmath>
#include <set>

#include "engine/audit/sample.h"
#include "engine/inference/situation.h"

namespace kartwright {
namespace {

bool fits(const Measured& measured, const MeasureDef& measure, const Conjunction& all,
          const Pack& pack) {
  Kart kart;
  if (measured.value) kart.measures[measure.id] = *measured.value;
  if (measured.band) kart.bands[measure.id] = *measured.band;
  const std::vector<Report> none;
  const Situation situation{.pack = pack, .kart = kart, .reports = none};
  return std::all_of(all.begin(), all.end(), [&](const Literal& literal) {
    return holds(literal.test, situation) == literal.wanted;
  });
}

/// The ends of what is plausible; a definition may leave one open.
std::pair<double, double> ends(const MeasureDef& measure) {
  const double from = std::isfinite(measure.from) ? measure.from : std::min(0.0, measure.to) - 1.0;
  const double to = std::isfinite(measure.to) ? measure.to : std::max(0.0, measure.from) + 1.0;
  return {from, to};
}

/// Values that the tests tell apart: at each limit, between two of them, and at the ends.
std::vector<double> values(const MeasureDef& measure, const Conjunction& all) {
  const std::pair<double, double> range = ends(measure);
  std::set<double> limits{range.first, range.second};
  const auto add = [&](const std::optional<double>& limit) {
    if (limit && *limit > range.first && *limit < range.second) limits.insert(*limit);
  };
  add(measure.band_from);
  add(measure.band_to);
  for (const Literal& literal : all) add(std::get<MeasureTest>(literal.test).limit);
  std::vector<double> out;
  for (const double limit : limits) {
    if (!out.empty()) {
      const double between = (limit + *std::prev(limits.find(limit))) / 2.0;
      out.push_back(as_written(between, measure.kind, System::metric));
      out.push_back(between);
    }
    out.push_back(as_written(limit, measure.kind, System::metric));
    out.push_back(as_written(limit, measure.kind, System::imperial));
  }
  std::erase_if(out, [&](double v) { return v < range.first || v > range.second; });
  return out;
}

/// Bands of the crew's own below, above and around a value.
std::vector<std::pair<double, double>> bands(const MeasureDef& measure, double value) {
  const auto [from, to] = ends(measure);
  const auto written = [&](double si) { return as_written(si, measure.kind, System::metric); };
  const double below = written((from + value) / 2.0);
  const double above = written((value + to) / 2.0);
  std::vector<std::pair<double, double>> out{{from, below}, {above, to}, {from, to}};
  std::erase_if(out, [from = from, to = to](const auto& band) {
    return band.first >= band.second || band.first < from || band.second > to;
  });
  return out;
}

}  // namespace

std::optional<Measured> sample_measure(const MeasureDef& measure, const Conjunction& all,
                                       const Pack& pack) {
  std::vector<Measured> tried{{}};
  const std::vector<double> measured = values(measure, all);
  for (const double value : measured) tried.push_back({value});
  for (const double value : measured) {
    for (const auto& band : bands(measure, value)) tried.push_back({value, band});
  }
  const auto found = std::find_if(tried.begin(), tried.end(), [&](const Measured& each) {
    return fits(each, measure, all, pack);
  });
  return found == tried.end() ? std::nullopt : std::optional(*found);
}

}  // namespace kartwright
