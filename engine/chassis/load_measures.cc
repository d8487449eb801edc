#include "engine/chassis/load_measures.h"

#include <algorithm>

namespace kartwright {

std::optional<LoadsToday> loads_of(KnownKart known, const Pack& pack, std::string_view track,
                                   const Figures& of_default) {
  const std::optional<CornerClass> corner = corner_class(known, pack, track);
  if (!corner) return {};
  LoadsToday loads{.known = std::move(known), .corner = *corner};
  loads.known.kart.mass_left = 0.0;
  loads.figures = figures_of(loads.known.kart, loads.corner);
  loads.inside_rear_off = loads.figures.inside_rear < 0.0;
  loads.of_default = of_default;
  return loads;
}

std::optional<LoadsToday> loads_today(const Kart& kart, const Pack& pack, std::string_view track) {
  std::optional<KnownKart> known = known_kart(kart, pack);
  std::optional<KnownKart> usual = default_kart(pack);
  if (!known || !usual) return {};
  usual->kart.mass_left = 0.0;
  const std::optional<CornerClass> corner = corner_class(*usual, pack, track);
  if (!corner) return {};
  return loads_of(std::move(*known), pack, track, figures_of(usual->kart, *corner));
}

std::map<std::string, double, std::less<>> measures_of(const LoadsToday& loads, const Pack& pack) {
  std::map<std::string, double, std::less<>> out;
  const auto add = [&](std::string_view id, double value) {
    if (pack.measure(id) != nullptr) out.emplace(id, value);
  };
  add(load_measures::kInsideRear, loads.figures.inside_rear - loads.of_default.inside_rear);
  add(load_measures::kHop, std::max(loads.figures.hop, 0.0));
  return out;
}

}  // namespace kartwright
