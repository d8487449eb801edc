// why_text.h - the reasons: mechanism, axes, shares, rules, down to the driver's own words.

#pragma once

#include "cli/page.h"
#include "engine/advice/advice.h"

namespace kartwright::cli {

/// The section WHY: of the first move, or with `all` of every one, with the readings and facts that
/// stand behind them and the lines of the rule files.
void why_text(const Advice& advice, const Pack& pack, bool all, Page& page);

}  // namespace kartwright::cli
