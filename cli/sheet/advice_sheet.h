// advice_sheet.h - an advice as a sheet: the words of the page, the kart from above and from
// behind, the room of every adjustment, and what is believed before and after the debrief.

#pragma once

#include <string>

#include "cli/beside.h"
#include "engine/advice/advice.h"

namespace kartwright::cli {

/// `why` and `beside` as in advice_text. The pack and the kart outlive the advice.
std::string advice_sheet(const Advice& advice, const Kart& kart, const Pack& pack, bool why,
                         const Beside& beside);

}  // namespace kartwright::cli
