#include "tests/support/small_bundles.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace kartwright {
namespace {

class Amounts {
 public:
  Amounts(Random& random, bool whole_numbers) : random_(random), whole_(whole_numbers) {}

  double operator()(double from, double to) const {
    const double amount = any_between(random_, from, to);
    return whole_ ? std::round(amount) : amount;
  }

  Eigen::VectorXd vector(int size, double from, double to) const {
    Eigen::VectorXd out(size);
    for (double& each : out) each = (*this)(from, to);
    return out;
  }

 private:
  Random& random_;
  bool whole_;
};

void add_moves(Random& random, const Amounts& amount, int group, BundleCase& c) {
  BundleItem item{.group = group, .step = static_cast<std::size_t>(group)};
  item.minutes = amount(0.0, 6.0);
  item.stand = whole(random, -1, 1);
  item.stand_minutes = std::min(item.minutes, amount(0.0, 4.0));
  item.exclusion = one_in(random, 4) ? 0 : -1;
  for (const double way : {1.0, -1.0}) {
    const int places = whole(random, 0, 2);
    for (int place = 1; place <= places; ++place) {
      item.amount = way * place;
      item.cost = amount(0.0, 1.0);
      c.items.push_back(item);
    }
  }
}

}  // namespace

BundleCase any_bundle_case(Random& random, bool whole_numbers) {
  const Amounts amount(random, whole_numbers);
  const int axes = whole(random, 2, 8);
  BundleCase c{.mean = amount.vector(axes, -5.0, 5.0), .weights = amount.vector(axes, 0.0, 2.0)};
  const int groups = whole(random, 0, 9);
  for (int group = 0; group < groups; ++group) {
    c.steps.push_back({amount.vector(axes, -1.6, 1.6), amount(0.0, 0.7)});
    add_moves(random, amount, group, c);
  }
  c.minute_cost = one_in(random, 2) ? 0.0 : amount(0.0, 1.0);
  if (one_in(random, 2)) c.most_minutes = amount(0.0, 20.0);
  if (one_in(random, 4)) c.must_relieve.push_back(amount.vector(axes, -3.0, 3.0));
  return c;
}

namespace naive {
namespace {

double loss_with(const BundleCase& c, const Eigen::VectorXd& mean,
                 const std::vector<std::size_t>& set) {
  double loss = 0.0;
  for (Eigen::Index axis = 0; axis < mean.size(); ++axis) {
    double left = mean[axis];
    for (const std::size_t i : set) {
      left += c.items[i].amount * c.steps[c.items[i].step].effect[axis];
    }
    loss += c.weights[axis] * left * left;
  }
  for (const std::size_t i : set) {
    loss += c.items[i].amount * c.items[i].amount * c.steps[c.items[i].step].spread;
  }
  return loss;
}

double minutes_of(const BundleCase& c, const std::vector<std::size_t>& set) {
  double minutes = 0.0;
  std::map<int, double> longest, sum;
  for (const std::size_t i : set) {
    const BundleItem& item = c.items[i];
    minutes += item.minutes;
    if (item.stand < 0) continue;
    sum[item.stand] += item.stand_minutes;
    longest[item.stand] = std::max(longest[item.stand], item.stand_minutes);
  }
  for (const auto& [stand, all] : sum) minutes -= all - longest[stand];
  return minutes;
}

bool allowed(const BundleCase& c, const std::vector<std::size_t>& set) {
  std::set<int> groups, exclusions;
  for (const std::size_t i : set) {
    if (!groups.insert(c.items[i].group).second) return false;
    const int exclusion = c.items[i].exclusion;
    if (exclusion >= 0 && !exclusions.insert(exclusion).second) return false;
  }
  if (c.most_minutes && minutes_of(c, set) > *c.most_minutes + 1e-9) return false;
  return set.empty() || std::all_of(c.must_relieve.begin(), c.must_relieve.end(),
                                    [&](const Eigen::VectorXd& mean) {
                                      return loss_with(c, mean, set) < loss_with(c, mean, {});
                                    });
}

void take(const BundleCase& c, const std::vector<std::size_t>& set, Enumerated& out) {
  if (!allowed(c, set)) return;
  ++out.allowed;
  double value = loss_with(c, c.mean, set) + c.minute_cost * minutes_of(c, set);
  for (const std::size_t i : set) value += c.items[i].cost;
  if (out.allowed > 1 && value >= out.value - 1e-9) return;
  out.value = value;
  out.first = set;
}

}  // namespace

Enumerated enumerate(const BundleCase& c, std::size_t most) {
  const std::size_t n = c.items.size();
  Enumerated out;
  take(c, {}, out);
  for (std::size_t i = 0; most >= 1 && i < n; ++i) take(c, {i}, out);
  for (std::size_t i = 0; most >= 2 && i < n; ++i) {
    for (std::size_t j = i + 1; j < n; ++j) take(c, {i, j}, out);
  }
  for (std::size_t i = 0; most >= 3 && i < n; ++i) {
    for (std::size_t j = i + 1; j < n; ++j) {
      for (std::size_t k = j + 1; k < n; ++k) take(c, {i, j, k}, out);
    }
  }
  return out;
}

}  // namespace naive
}  // namespace kartwright
