// parameters.h - what the physics needs of a kart, out of its file, and what had to be assumed.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/chassis/figures.h"
#include "engine/kart/kart.h"

namespace kartwright {

/// One kart as the physics sees it.
struct KnownKart {
  SprintKart kart;
  double seat_mass = 0;     ///< kg, of driver and seat: what moves with the seat
  double ballast_mass = 0;  ///< kg, of the ballast that can be moved
  double bar_share = 0;     ///< what the front bar adds to the front section of the frame
  double rear_tyre_width = 0, front_tyre_width = 0;  ///< m
  double radius = 0;                                 ///< m, of the corners that matter
  std::optional<double> peak;             ///< m/s^2, the hardest cornering that the crew measured
  std::vector<std::string_view> assumed;  ///< ids in the pack of what nobody gave, sorted
};

/// Settings come first, then what the kart file has measured, then what the pack assumes. A kart on
/// its scales has its mass from them. Nothing where the pack does not say what to assume for
/// something that the physics asks for and the kart does not give. The pack outlives it.
std::optional<KnownKart> known_kart(const Kart& kart, const Pack& pack);

/// "wheelbase 1040 mm": what is assumed of it. REQUIRES: the pack assumes something.
std::string assumed_text(const MeasureDef& size, System units);

/// The pack's own kart, every parameter assumed: what others are held against.
std::optional<KnownKart> default_kart(const Pack& pack);

/// What the front bar does to the loads depends on the corner, see bar_turns_at().
bool is_front_bar(const Setting& setting);

/// What a setting moves in the physics; false for those whose effect it does not claim (toe,
/// camber, axle grade, hubs, pressures and the like).
bool moves_loads(std::string_view adjustment);

/// The kart with one setting elsewhere. `from` and `to` are SI or indices of positions, as in
/// Setting::now. REQUIRES: moves_loads(setting.adjustment->id).
void change_setting(KnownKart& known, const Setting& setting, double to);

/// The corners of a track state, or nothing where the pack says nothing of it.
std::optional<CornerClass> corner_class(const KnownKart& known, const Pack& pack,
                                        std::string_view track);

}  // namespace kartwright
