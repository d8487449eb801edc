// room_table.h - every adjustment of a kart: its range, what the class allows of it, where it
// stands, where it would go, and the room that is left.

#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "cli/sheet/drawing.h"
#include "engine/decision/options.h"

namespace kartwright::cli {

/// Of one setting. Values as Setting::now.
struct RoomGauge {
  const Setting* setting = nullptr;
  std::optional<double> to = {};      ///< where it would go
  std::optional<double> wanted = {};  ///< where the track to come would have it
  bool leads = false;                 ///< the move that leads
};

/// `○` now, `●` where it would go, `◇` wanted; the thick part is what the class allows.
Picture gauge_picture(const RoomGauge& gauge);

/// A row each, in two halves to stand side by side.
std::vector<Markup> room_tables(const std::vector<RoomGauge>& gauges, System units);

/// What the signs of a gauge mean.
std::string_view gauge_legend();

}  // namespace kartwright::cli
