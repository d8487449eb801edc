// learned_text.h - what a log has taught, as a page.

#pragma once

#include <string>

#include "cli/page.h"
#include "engine/advice/learned.h"

namespace kartwright::cli {

Page learned_page(const Learned& learned, const Pack& pack, Look look);
std::string learned_text(const Learned& learned, const Pack& pack, Look look);

}  // namespace kartwright::cli
