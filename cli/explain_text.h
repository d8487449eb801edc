// explain_text.h - an explanation as a page, and the list of what can be explained.

#pragma once

#include <string>

#include "cli/page.h"
#include "engine/advice/explain.h"

namespace kartwright::cli {

/// A table stands under its columns where the page has room for them, else a line for each row.
Page explanation_page(const Explanation& explanation, Look look);
std::string explanation_text(const Explanation& explanation, Look look);

Page topics_page(const Pack& pack, Look look);
std::string topics_text(const Pack& pack, Look look);

}  // namespace kartwright::cli
