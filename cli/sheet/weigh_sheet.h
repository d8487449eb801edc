// weigh_sheet.h - a weighing as a sheet: the kart from above with the four readings, the shares
// against their bands, and where a move would bring the centre of mass.

#pragma once

#include <optional>
#include <string>

#include "cli/sheet/kart_picture.h"
#include "engine/chassis/lifted_weighing.h"
#include "engine/chassis/weighing.h"

namespace kartwright::cli {

/// `outline` is of the kart that was weighed; nothing where the rules do not say what to assume.
std::string weigh_sheet(const WeighingAnswer& answer, const std::optional<KartOutline>& outline);
std::string height_sheet(const HeightAnswer& answer);

}  // namespace kartwright::cli
