// stop_order.h - in which order to make the changes of one stop.
//
// A stop can end before its time. The order is the one that leaves the least handling error over
// the minutes of the stop, whenever it ends; jobs on one stand are done together, so that its
// minutes are spent once.

#pragma once

#include <cstddef>
#include <functional>
#include <vector>

namespace kartwright {

struct StopJob {
  double minutes = 0.0;
  int stand = -1;  ///< jobs of one stand are done one after the other; -1: none
  double stand_minutes = 0.0;
};

/// One job in its turn.
struct StopStep {
  std::size_t job = 0;
  double minutes = 0.0;  ///< that it takes more, with the kart as it stands by then
  double until = 0.0;    ///< minutes from the start of the stop until it is done
  double loss = 0.0;     ///< left once it is done
};

/// `loss` of the jobs done so far, in the order of their numbers. Of all orders that keep jobs of
/// one stand together, the one with the least sum over jobs of the loss before it times its
/// minutes; of equals (within 1e-9) the one whose first job, then second, has the lower number.
/// Every order is looked at: REQUIRES: at most 8 jobs.
std::vector<StopStep> stop_order(
    const std::vector<StopJob>& jobs,
    const std::function<double(const std::vector<std::size_t>& done)>& loss);

}  // namespace kartwright
