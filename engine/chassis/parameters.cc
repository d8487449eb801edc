#include "engine/chassis/parameters.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace kartwright {

namespace {

/// A parameter that a dimension of the pack gives as it is.
struct Direct {
  std::string_view dimension;
  double SprintKart::*member;
};

constexpr std::array kDirect{
    Direct{"wheelbase", &SprintKart::wheelbase},
    Direct{"mass-height", &SprintKart::mass_height},
    Direct{"front-half-mass", &SprintKart::front_mass_share},
    Direct{"front-half-height", &SprintKart::front_mass_height},
    Direct{"twist-axis-height", &SprintKart::twist_axis_height},
    Direct{"frame-twist-front", &SprintKart::front_frame},
    Direct{"frame-twist-rear", &SprintKart::rear_frame},
    Direct{"tyre-stiffness-front", &SprintKart::front_tyre},
    Direct{"tyre-stiffness-rear", &SprintKart::rear_tyre},
    Direct{"spindle-stiffness", &SprintKart::spindle},
    Direct{"carrier-stiffness", &SprintKart::carrier},
    Direct{"axle-diameter", &SprintKart::axle_diameter},
    Direct{"axle-wall", &SprintKart::axle_wall},
    Direct{"axle-modulus", &SprintKart::axle_modulus},
    Direct{"bearing-half-distance", &SprintKart::bearing_half_distance},
    Direct{"hub-length", &SprintKart::hub_length},
    Direct{"hub-outboard", &SprintKart::hub_outboard},
    Direct{"kingpin-inclination", &SprintKart::kingpin_inclination},
    Direct{"kingpin-width", &SprintKart::kingpin_width},
    Direct{"ackermann-share", &SprintKart::ackermann},
    Direct{"tyre-radius-front", &SprintKart::front_tyre_radius},
    Direct{"tyre-radius-rear", &SprintKart::rear_tyre_radius},
};

/// Takes figures from the kart where it has them, else from the pack, and remembers which.
class Taking {
 public:
  Taking(const Kart& kart, const Pack& pack) : kart_(kart), pack_(pack) {}

  double dimension(std::string_view id) {
    const auto given = kart_.dimensions.find(id);
    return given != kart_.dimensions.end() ? given->second : assume(pack_.dimension(id));
  }

  double measure(std::string_view id) {
    const auto given = kart_.measures.find(id);
    return given != kart_.measures.end() ? given->second : assume(pack_.measure(id));
  }

  /// A setting, or the dimension that stands in for it.
  double setting(std::string_view id, std::string_view otherwise) {
    const Setting* const setting = kart_.setting(id);
    return setting != nullptr ? setting->now : dimension(otherwise);
  }

  double mass() {
    return kart_.corner_weights ? kart_.corner_weights->total() : dimension("mass-with-driver");
  }

  /// m; of a kart on its scales the moments about the centre line.
  double mass_left(double front_track, double rear_track) {
    if (kart_.dimensions.contains("mass-sideways") || !kart_.corner_weights)
      return dimension("mass-sideways");
    const CornerLoads& on = *kart_.corner_weights;
    return ((on.left_front - on.right_front) * front_track +
            (on.left_rear - on.right_rear) * rear_track) /
           (2.0 * on.total());
  }

  bool complete() const { return complete_; }
  std::vector<std::string_view> assumed() {
    std::sort(assumed_.begin(), assumed_.end());
    return std::move(assumed_);
  }

 private:
  double assume(const MeasureDef* definition) {
    if (definition == nullptr || !definition->assumed) {
      complete_ = false;
      return 1.0;
    }
    assumed_.emplace_back(definition->id);
    return *definition->assumed;
  }

  const Kart& kart_;
  const Pack& pack_;
  bool complete_ = true;
  std::vector<std::string_view> assumed_;
};

constexpr std::string_view kFrontBar = "front-bar";

bool bar_is_in(const Kart& kart) {
  const Setting* const bar = kart.setting(kFrontBar);
  if (bar == nullptr || !bar->adjustment->listed()) return false;
  const auto at = static_cast<std::size_t>(bar->now);
  return at < bar->travel.names.size() && bar->travel.names[at] == "in";
}

struct Moved {
  std::string_view adjustment;
  void (*change)(KnownKart&, const Setting&, double);
};

void seat_along(KnownKart& known, const Setting& setting, double to) {
  SprintKart& kart = known.kart;
  kart.front_share += known.seat_mass * (to - setting.now) / (kart.mass * kart.wheelbase);
}

void seat_up(KnownKart& known, const Setting& setting, double to) {
  known.kart.mass_height += known.seat_mass * (to - setting.now) / known.kart.mass;
}

void ballast_along(KnownKart& known, const Setting& setting, double to) {
  SprintKart& kart = known.kart;
  kart.front_share += known.ballast_mass * (to - setting.now) / (kart.mass * kart.wheelbase);
}

void ballast_up(KnownKart& known, const Setting& setting, double to) {
  known.kart.mass_height += known.ballast_mass * (to - setting.now) / known.kart.mass;
}

void rear_width(KnownKart& known, const Setting&, double to) {
  known.kart.rear_track = to - known.rear_tyre_width;
}

void front_width(KnownKart& known, const Setting&, double to) {
  known.kart.front_track = to - known.front_tyre_width;
}

void caster(KnownKart& known, const Setting&, double to) { known.kart.caster = to; }

void front_bar(KnownKart& known, const Setting& setting, double to) {
  const bool in = setting.travel.names.at(static_cast<std::size_t>(to)) == "in";
  known.kart.front_bar = in ? known.bar_share * known.kart.front_frame : 0.0;
}

constexpr std::array kMoved{
    Moved{"rear-width", rear_width},
    Moved{"front-width", front_width},
    Moved{"caster", caster},
    Moved{kFrontBar, front_bar},
    Moved{"seat-fore-aft", seat_along},
    Moved{"seat-height", seat_up},
    Moved{"ballast-fore-aft", ballast_along},
    Moved{"ballast-height", ballast_up},
};

const Moved* moved(std::string_view adjustment) {
  const auto* const found = std::find_if(kMoved.begin(), kMoved.end(), [&](const Moved& each) {
    return each.adjustment == adjustment;
  });
  return found == kMoved.end() ? nullptr : found;
}

}  // namespace

std::optional<KnownKart> known_kart(const Kart& kart, const Pack& pack) {
  Taking take(kart, pack);
  KnownKart known;
  SprintKart& k = known.kart;
  for (const Direct& each : kDirect) k.*each.member = take.dimension(each.dimension);
  known.seat_mass = take.dimension("seat-mass");
  known.ballast_mass = take.dimension("ballast-mass");
  known.bar_share = take.dimension("front-bar-share");
  known.rear_tyre_width = take.dimension("rear-tyre-width");
  known.front_tyre_width = take.dimension("front-tyre-width");
  known.radius = take.dimension("track-corner-radius");
  k.mass = take.mass();
  k.front_share = take.measure("front-share");
  k.rear_track = take.setting("rear-width", "default-rear-width") - known.rear_tyre_width;
  k.front_track = take.setting("front-width", "default-front-width") - known.front_tyre_width;
  k.mass_left = take.mass_left(k.front_track, k.rear_track);
  k.caster = take.setting("caster", "default-caster");
  k.middle_bearing = take.dimension("axle-bearings") > 2.5;
  k.front_bar = bar_is_in(kart) ? known.bar_share * k.front_frame : 0.0;
  const auto peak = kart.dimensions.find("peak-cornering");
  if (peak != kart.dimensions.end()) known.peak = peak->second * kGravity;
  known.assumed = take.assumed();
  return take.complete() ? std::optional(std::move(known)) : std::nullopt;
}

std::string assumed_text(const MeasureDef& size, System units) {
  return size.label + " " + print_quantity(*size.assumed, size.kind, units);
}

std::optional<KnownKart> default_kart(const Pack& pack) { return known_kart(Kart{}, pack); }

bool is_front_bar(const Setting& setting) { return setting.adjustment->id == kFrontBar; }

bool moves_loads(std::string_view adjustment) { return moved(adjustment) != nullptr; }

void change_setting(KnownKart& known, const Setting& setting, double to) {
  moved(setting.adjustment->id)->change(known, setting, to);
}

std::optional<CornerClass> corner_class(const KnownKart& known, const Pack& pack,
                                        std::string_view track) {
  const TrackState* const state = pack.track(track);
  if (state == nullptr || !state->cornering) return {};
  return CornerClass{.lateral = state->cornering->middle * kGravity,
                     .peak = known.peak.value_or(state->cornering->peak * kGravity),
                     .radius = known.radius};
}

}  // namespace kartwright
