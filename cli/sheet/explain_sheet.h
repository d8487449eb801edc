// explain_sheet.h - an explanation, and the list of what can be explained, as a sheet.

#pragma once

#include <string>

#include "engine/advice/explain.h"

namespace kartwright::cli {

std::string explanation_sheet(const Explanation& explanation);
std::string topics_sheet(const Pack& pack);

}  // namespace kartwright::cli
