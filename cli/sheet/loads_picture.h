// loads_picture.h - the kart from above with its loads before and after a change, on paper.

#pragma once

#include <optional>
#include <string>

#include "cli/sheet/drawing.h"
#include "engine/chassis/on_paper.h"
#include "engine/quantity/quantity.h"

namespace kartwright::cli {

struct LoadsView {
  std::string where;  ///< "in the middle of a left turn"
  const PaperSide* before = nullptr;
  const PaperSide* after = nullptr;  ///< nothing: no change that the physics claims
  std::size_t phase = 1;             ///< as PaperSide::phases
  double front_tyre_width = 0, rear_tyre_width = 0;
  std::string json_before, json_after;       ///< of the objects that hold `loads`
  std::optional<CornerLoads> standing = {};  ///< kg
  std::string json_standing = {};            ///< of the object that holds `lf` and so on
  System units = System::metric;
};

/// REQUIRES: before is set.
Picture loads_picture(const LoadsView& view);

/// The lines of before and after from behind; `json_before` and `json_after` hold `line`.
Picture line_picture(const LoadsView& view, std::string_view json_before,
                     std::string_view json_after);

/// What a reader of line_picture() should look at.
std::string line_caption(bool with_change);

}  // namespace kartwright::cli
