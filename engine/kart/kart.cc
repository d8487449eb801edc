#include "engine/kart/kart.h"

#include <algorithm>
#include <cmath>

#include "engine/kart/travel.h"

namespace kartwright {

namespace {

const std::string& name_at(const Setting& setting, double value) {
  const auto last = static_cast<long>(setting.travel.names.size()) - 1;
  const long index = std::clamp(std::lround(value), 0L, last);
  return setting.travel.names[static_cast<std::size_t>(index)];
}

bool named(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

std::optional<double> typical_value(const Adjustment& adjustment, const Travel& travel) {
  if (adjustment.listed()) return place_named(travel, adjustment.typical);
  const ParsedQuantity parsed = parse_quantity(adjustment.typical, adjustment.kind);
  const auto* const quantity = std::get_if<Quantity>(&parsed);
  if (quantity == nullptr) return {};
  const double place = nearest_place(travel, quantity->si);
  return same_value(place, quantity->si, travel.step) ? place : quantity->si;
}

std::optional<Setting> typical_setting(const Adjustment& adjustment) {
  Setting setting{.adjustment = &adjustment,
                  .travel = usual_travel(adjustment),
                  .limit = {},
                  .minutes = adjustment.minutes};
  const std::optional<double> now = typical_value(adjustment, setting.travel);
  if (!now) return {};
  setting.now = *now;
  if (adjustment.parts) setting.in_the_box = adjustment.positions;
  return setting;
}

}  // namespace

const Setting* Kart::setting(std::string_view adjustment) const {
  const auto found = settings.find(std::string(adjustment));
  return found == settings.end() ? nullptr : &found->second;
}

Kart typical_kart(const Pack& pack) {
  Kart kart;
  kart.typical = true;
  for (const Adjustment& adjustment : pack.adjustments) {
    if (auto setting = typical_setting(adjustment)) {
      kart.settings.emplace(adjustment.id, std::move(*setting));
    }
  }
  return kart;
}

std::string print_setting(const Setting& setting, double value, System system) {
  if (!setting.travel.names.empty()) return name_at(setting, value);
  return print_quantity(value, setting.adjustment->kind, system);
}

bool class_allows(const Setting& setting, double value) {
  const ClassLimit& limit = setting.limit;
  const auto same = [&](double end) { return same_value(value, end, setting.travel.step); };
  if (limit.at_least && value < *limit.at_least && !same(*limit.at_least)) return false;
  if (limit.at_most && value > *limit.at_most && !same(*limit.at_most)) return false;
  return limit.allowed.empty() || setting.travel.names.empty() ||
         named(limit.allowed, name_at(setting, value));
}

}  // namespace kartwright
