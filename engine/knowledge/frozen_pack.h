// frozen_pack.h - a whole rule pack as bytes, so that the built-in one is read and checked when the
// program is built, and not at every start.
//
// The bytes are private to one build: they are made and read by the same code and never kept.

#pragma once

#include <string>
#include <string_view>

#include "engine/knowledge/pack.h"

namespace kartwright {

std::string freeze_pack(const Pack& pack);

/// The pack again, equal to the one frozen. REQUIRES: bytes made by `freeze_pack` of the same
/// build.
Pack thaw_pack(std::string_view bytes);

}  // namespace kartwright
