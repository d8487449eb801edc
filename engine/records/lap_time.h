// lap_time.h - lap times as a timing sheet has them, read and printed.

#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace kartwright {

/// `31.42`, `31,42`, `62`, `1:02.417`, `1:02,417`: seconds. Below a minute there may be any number
/// of seconds; behind minutes there are two digits below sixty. Nothing where it is no time, or
/// none above zero.
std::optional<double> parse_lap_time(std::string_view text);

/// "31.420", "1:02.417": to the thousandth.
std::string print_lap_time(double seconds);

}  // namespace kartwright
