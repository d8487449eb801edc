// crossing.h - where a function of one number crosses zero.

#pragma once

#include <functional>
#include <optional>

namespace kartwright {

/// Where the function crosses zero between the two, to the last bit but a few; nothing where it has
/// one sign. The method is algorithm 748 of the ACM's Transactions on Mathematical Software.
std::optional<double> crossing(const std::function<double(double)>& function, double from,
                               double to);

}  // namespace kartwright
