// advice_text.h - an advice as a page for the terminal, in the order a crew chief reads it.

#pragma once

#include <string>

#include "cli/beside.h"
#include "cli/page.h"
#include "engine/advice/advice.h"

namespace kartwright::cli {

/// A report as HEARD tells it.
std::string report_line(const Report& report, const Pack& pack);
/// Words that came to nothing, as HEARD tells them.
std::string left_over_line(const NotUnderstood& left);

/// `why` tells the reasons of every change, with provenance and the facts behind them.
/// What was asked for beside it stands behind the reading; where that is why not, the rest is left
/// out but for `why`.
Page advice_page(const Advice& advice, const Pack& pack, Look look, bool why,
                 const Beside& beside = {});
std::string advice_text(const Advice& advice, const Pack& pack, Look look, bool why,
                        const Beside& beside = {});

}  // namespace kartwright::cli
