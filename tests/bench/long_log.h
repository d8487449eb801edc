// long_log.h - logs of an invented kart's seasons, as long as is asked for.

#pragma once

#include <string>

namespace kartwright {

/// The kart's file.
std::string logged_kart();

/// The path of a log of so many runs of that kart; made once for each size, gone at the end.
std::string log_of(int runs);

}  // namespace kartwright
