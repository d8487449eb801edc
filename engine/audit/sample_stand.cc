// Karts that the tests of one adjustment can tell apart. Each is looked at with the engine's own
// eyes, so that what is found is what the engine will see.

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/audit/sample.h"
#include "engine/inference/derive.h"

namespace kartwright {
namespace {

/// True where all literals hold on a kart with this adjustment alone.
bool fits(const Stand& stand, const std::string& id, const Conjunction& all, const Pack& pack) {
  Kart kart;
  if (stand.setting) kart.settings.emplace(id, *stand.setting);
  const std::vector<Report> none;
  Situation situation{.pack = pack, .kart = kart, .reports = none};
  situation.facts.all = given_facts(pack, kart, {});
  return std::all_of(all.begin(), all.end(), [&](const Literal& literal) {
    return holds(literal.test, situation) == literal.wanted;
  });
}

Setting usual_setting(const Adjustment& adjustment, double now) {
  Setting setting{.adjustment = &adjustment,
                  .now = now,
                  .travel = usual_travel(adjustment),
                  .limit = {},
                  .minutes = adjustment.minutes};
  if (adjustment.parts) setting.in_the_box = adjustment.positions;
  return setting;
}

/// Every place of the usual travel, the typical one first.
std::vector<Stand> usual_stands(const Adjustment& adjustment, const Pack& pack) {
  std::vector<Stand> out;
  const Kart typical = typical_kart(pack);
  if (const Setting* setting = typical.setting(adjustment.id)) out.push_back({*setting, {}, true});
  for (const double place : usual_travel(adjustment).places) {
    out.push_back({usual_setting(adjustment, place)});
  }
  return out;
}

/// Positions that the class has cut off on one side, the other, or both.
std::vector<Stand> limited_positions(const Adjustment& adjustment) {
  std::vector<Stand> out;
  const auto& names = adjustment.positions;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const auto at = static_cast<std::ptrdiff_t>(i);
    for (const auto& [from, to] : {std::pair(at, std::ptrdiff_t(names.size())),
                                   std::pair(std::ptrdiff_t(0), at + 1), std::pair(at, at + 1)}) {
      Setting setting = usual_setting(adjustment, static_cast<double>(i));
      setting.limit.allowed = {names.begin() + from, names.begin() + to};
      out.push_back({std::move(setting)});
    }
  }
  return out;
}

/// Distances from an end that the tests tell apart: none, one within each limit, one between two
/// limits, one beyond all.
std::vector<double> distances(const Adjustment& adjustment, const Conjunction& all) {
  std::set<double> limits{0.0};
  for (const Literal& literal : all) {
    const auto* test = std::get_if<SettingTest>(&literal.test);
    if (test != nullptr && test->within) limits.insert(*test->within);
  }
  std::vector<double> out;
  for (const double limit : limits) {
    if (!out.empty()) out.push_back((limit + *std::prev(limits.find(limit))) / 2.0);
    out.push_back(limit);
  }
  out.push_back(*limits.rbegin() + std::abs(adjustment.step));
  return out;
}

/// Karts whose grid begins `below` under the setting and ends `above` over it.
class Ranges {
 public:
  explicit Ranges(const Adjustment& adjustment) : adjustment_(adjustment) {
    const double half = (adjustment.to - adjustment.from) / 2.0;
    low_ = adjustment.from - half;  // as far as a kart file may go
    high_ = adjustment.to + half;
  }

  /// Between two places, or on one.
  std::optional<Stand> between(double below, double above) const {
    return stand(below, above, below + above);
  }
  /// Beyond the last place, since the grid ends before the range does.
  std::optional<Stand> overhanging(double below, double above_the_last) const {
    if (below <= 2.0 * above_the_last) return std::nullopt;
    return stand(below, 0.0, below - above_the_last);
  }
  /// Below the first place that the class allows.
  std::optional<Stand> short_of(double the_first, double the_last) const {
    const double spare = adjustment_.step;
    auto out = stand(spare, the_last, spare + the_first);
    if (out) out->setting->limit.at_least = out->setting->now;
    return out;
  }
  /// Between two places, with neither allowed.
  std::optional<Stand> alone() const {
    auto out = stand(adjustment_.step / 2.0, adjustment_.step / 2.0, adjustment_.step);
    if (out) out->setting->limit.at_least = out->setting->limit.at_most = out->setting->now;
    return out;
  }

 private:
  double written(double si) const { return as_written(si, adjustment_.kind, System::metric); }

  std::optional<Stand> stand(double below, double above, double step) const {
    const double width = below + above;
    if (width <= 0.0 || width > high_ - low_ || step <= 0.0) return std::nullopt;
    const double middle = (adjustment_.from + adjustment_.to) / 2.0;
    const double from = written(std::clamp(middle - below, low_, high_ - width));
    const Range range{from, written(from + width), written(step)};
    if (range.step <= 0.0 || range.to <= range.from) return std::nullopt;
    Setting setting = usual_setting(adjustment_, written(from + below));
    setting.travel = travel_over(range);
    const double place = nearest_place(setting.travel, setting.now);
    if (same_value(place, setting.now, range.step)) setting.now = place;
    return Stand{std::move(setting), range};
  }

  const Adjustment& adjustment_;
  double low_ = 0.0, high_ = 0.0;
};

std::vector<Stand> limited_ranges(const Adjustment& adjustment, const Conjunction& all) {
  std::vector<Stand> out;
  const auto add = [&](std::optional<Stand> stand) {
    if (stand) out.push_back(std::move(*stand));
  };
  const Ranges ranges(adjustment);
  const std::vector<double> far = distances(adjustment, all);
  for (const double below : far) {
    for (const double above : far) {
      add(ranges.between(below, above));
      add(ranges.overhanging(below, above));
      add(ranges.short_of(below, above));
    }
  }
  add(ranges.alone());
  Setting fixed = usual_setting(adjustment, usual_travel(adjustment).places.front());
  fixed.limit.at_least = fixed.limit.at_most = fixed.now;
  out.push_back({std::move(fixed)});
  return out;
}

}  // namespace

std::optional<Stand> sample_stand(const Adjustment& adjustment, const Conjunction& all, bool fitted,
                                  const Pack& pack) {
  const auto first_of = [&](const std::vector<Stand>& stands) -> std::optional<Stand> {
    const auto found = std::find_if(stands.begin(), stands.end(), [&](const Stand& stand) {
      return fits(stand, adjustment.id, all, pack);
    });
    return found == stands.end() ? std::nullopt : std::optional(*found);
  };
  if (auto found = first_of(usual_stands(adjustment, pack))) return found;
  if (auto found = first_of(adjustment.listed() ? limited_positions(adjustment)
                                                : limited_ranges(adjustment, all))) {
    return found;
  }
  return fitted ? std::nullopt : first_of({Stand{}});
}

}  // namespace kartwright
