// sheet_style.h - how every sheet looks: the only style there is.

#pragma once

#include <string_view>

namespace kartwright::cli {

/// CSS. Holds nothing that would have to be escaped in a style element.
std::string_view sheet_style();

}  // namespace kartwright::cli
