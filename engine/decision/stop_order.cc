#include "engine/decision/stop_order.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace kartwright {
namespace {

using Order = std::vector<std::size_t>;

/// Jobs of one stand stand side by side.
bool stands_together(const std::vector<StopJob>& jobs, const Order& order) {
  for (std::size_t i = 2; i < order.size(); ++i) {
    const int stand = jobs[order[i]].stand;
    if (stand < 0 || jobs[order[i - 1]].stand == stand) continue;
    for (std::size_t k = 0; k + 1 < i; ++k) {
      if (jobs[order[k]].stand == stand) return false;
    }
  }
  return true;
}

/// What a job adds behind those before it: the stand takes its longest once.
double minutes_behind(const std::vector<StopJob>& jobs, const Order& order, std::size_t i) {
  const StopJob& job = jobs[order[i]];
  double spent = 0.0;
  for (std::size_t k = 0; k < i; ++k) {
    const StopJob& other = jobs[order[k]];
    if (job.stand >= 0 && other.stand == job.stand) spent = std::max(spent, other.stand_minutes);
  }
  return job.minutes - std::min(spent, job.stand_minutes);
}

}  // namespace

std::vector<StopStep> stop_order(
    const std::vector<StopJob>& jobs,
    const std::function<double(const std::vector<std::size_t>& done)>& loss) {
  // By the set of jobs done, as bits.
  std::vector<double> losses;
  for (unsigned done = 0; done < 1U << jobs.size(); ++done) {
    Order which;
    for (std::size_t i = 0; i < jobs.size(); ++i) {
      if ((done >> i & 1U) != 0) which.push_back(i);
    }
    losses.push_back(loss(which));
  }
  const double slack = 1e-9 * std::max(1.0, std::abs(losses.front()));
  Order order(jobs.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::vector<StopStep> best;
  double least = std::numeric_limits<double>::infinity();
  do {
    if (!stands_together(jobs, order)) continue;
    std::vector<StopStep> steps;
    double area = 0.0, until = 0.0;
    unsigned done = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
      const double minutes = minutes_behind(jobs, order, i);
      area += losses[done] * minutes;
      until += minutes;
      done |= 1U << order[i];
      steps.push_back({order[i], minutes, until, losses[done]});
    }
    if (area >= least - slack) continue;
    least = area;
    best = std::move(steps);
  } while (std::next_permutation(order.begin(), order.end()));
  return best;
}

}  // namespace kartwright
