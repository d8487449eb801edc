// load_measures.h - what the physics measures of a kart on a track, for rules to read as they read
// what the crew has measured.

#pragma once

#include <array>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "engine/chassis/parameters.h"

namespace kartwright {

namespace load_measures {

/// N that the inside rear carries in the middle of a corner above what the pack's own kart carries
/// there, before any wheel leaves the ground.
inline constexpr std::string_view kInsideRear = "inside-rear-over-default";
/// The hop index, not below zero.
inline constexpr std::string_view kHop = "hop-index";

inline constexpr std::array kAll{kInsideRear, kHop};

}  // namespace load_measures

/// A kart's loads on a track as it is today. Both turns alike: the centre of mass is taken on the
/// centre line.
struct LoadsToday {
  KnownKart known;
  CornerClass corner = {};
  Figures figures = {};
  bool inside_rear_off = false;  ///< in the middle of a corner
  Figures of_default = {};       ///< the pack's own kart on the same track
};

/// Nothing where the pack has no figures for the physics, or none for the track state.
std::optional<LoadsToday> loads_today(const Kart& kart, const Pack& pack, std::string_view track);

/// The same of a kart that is known, beside the figures of the pack's own.
std::optional<LoadsToday> loads_of(KnownKart known, const Pack& pack, std::string_view track,
                                   const Figures& of_default);

/// By measure id, those that the pack knows.
std::map<std::string, double, std::less<>> measures_of(const LoadsToday& loads, const Pack& pack);

}  // namespace kartwright
