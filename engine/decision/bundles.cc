#include "engine/decision/bundles.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <string_view>

namespace kartwright {
namespace {

using Eigen::Index;
using Eigen::VectorXd;
using Indices = std::vector<std::size_t>;

constexpr double kNever = std::numeric_limits<double>::infinity();

double weighed(const VectorXd& weights, const VectorXd& a, const VectorXd& b) {
  return weights.cwiseProduct(a).dot(b);
}

/// Minutes that two jobs save by sharing a stand.
double saved(const BundleItem& a, const BundleItem& b) {
  if (a.stand < 0 || a.stand != b.stand) return 0.0;
  return std::min(a.stand_minutes, b.stand_minutes);
}

/// A case with its sums taken once: alone_ by item, cross_ by pair of steps, and for sets of more
/// than two together_ by pair of items. Three jobs on one stand would save less than their pairs
/// do, so the sums by pairs are never above what a set is worth, and a set is weighed in full only
/// where they fall below the best.
class BundleSearch {
 public:
  BundleSearch(const BundleCase& c, std::size_t most)
      : case_(c),
        most_(std::min(most, c.items.size())),
        none_(weighed(c.weights, c.mean, c.mean)),
        slack_(1e-12 * std::max(1.0, none_)) {
    best_.value = none_;
    cross_steps();
    alone_ = gains(c.mean);
    for (std::size_t i = 0; i < c.items.size(); ++i) {
      const BundleItem& item = c.items[i];
      alone_[i] += item.cost + c.minute_cost * item.minutes;
      amounts_.push_back(item.amount);
      steps_.push_back(item.step);
      groups_.push_back(item.group);
    }
    for (const VectorXd& mean : c.must_relieve) relieves_.push_back(gains(mean));
    if (most_ > 2) pair_up();
  }

  BundleChoice run() {
    for (std::size_t size = 1; size <= most_; ++size) extend(0, size, none_, alone_);
    return best_;
  }

 private:
  /// What each item alone adds to the loss at a mean.
  std::vector<double> gains(const VectorXd& mean) const {
    std::vector<double> slope;
    for (const BundleStep& step : case_.steps) {
      slope.push_back(2.0 * weighed(case_.weights, step.effect, mean));
    }
    std::vector<double> out;
    for (const BundleItem& item : case_.items) {
      const double square = 0.5 * cross(item.step, item.step) + case_.steps[item.step].spread;
      out.push_back(item.amount * slope[item.step] + item.amount * item.amount * square);
    }
    return out;
  }

  /// The steps that some item takes, ascending.
  Indices steps_taken() const {
    std::vector<bool> is_taken(case_.steps.size());
    for (const BundleItem& item : case_.items) is_taken[item.step] = true;
    Indices taken;
    for (std::size_t step = 0; step < is_taken.size(); ++step) {
      if (is_taken[step]) taken.push_back(step);
    }
    return taken;
  }

  /// Of the steps that are not taken nobody will ask.
  void cross_steps() {
    const std::size_t n = case_.steps.size();
    cross_.resize(n * n);
    const Indices taken = steps_taken();
    VectorXd weighed_effect;
    for (const std::size_t a : taken) {
      weighed_effect = 2.0 * case_.weights.cwiseProduct(case_.steps[a].effect);
      for (const std::size_t b : taken) {
        if (b > a) break;
        cross_[a * n + b] = cross_[b * n + a] = weighed_effect.dot(case_.steps[b].effect);
      }
    }
  }

  double cross(std::size_t a, std::size_t b) const { return cross_[a * case_.steps.size() + b]; }

  double cross(const BundleItem& a, const BundleItem& b) const {
    return a.amount * b.amount * cross(a.step, b.step);
  }

  /// What each item behind `i` adds beside it, on top of `adds`.
  void add_beside(std::size_t i, const std::vector<double>& adds, double* out) const {
    const BundleItem& item = case_.items[i];
    const double* const with = &cross_[item.step * case_.steps.size()];
    const std::size_t n = case_.items.size();
    for (std::size_t k = i + 1; k < n; ++k) {
      out[k] = adds[k] + item.amount * amounts_[k] * with[steps_[k]];
      if (groups_[k] == item.group) out[k] = kNever;
    }
    if (item.exclusion < 0 && item.stand < 0) return;
    for (std::size_t k = i + 1; k < n; ++k) {
      const BundleItem& other = case_.items[k];
      if (item.exclusion >= 0 && item.exclusion == other.exclusion) out[k] = kNever;
      out[k] -= case_.minute_cost * saved(item, other);
    }
  }

  void pair_up() {
    const std::size_t n = case_.items.size();
    const std::vector<double> nothing(n, 0.0);
    together_.resize(n * n);
    for (std::size_t i = 0; i < n; ++i) add_beside(i, nothing, &together_[i * n]);
  }

  /// Adds `more` items from `from` on to the chosen ones, in ascending order. `value` is theirs by
  /// pairs, and `adds` what each further item would add to it.
  void extend(std::size_t from, std::size_t more, double value, const std::vector<double>& adds) {
    if (more == 1) {
      finish(from, value, adds);
      return;
    }
    const std::size_t n = case_.items.size();
    std::vector<double> next(n);
    for (std::size_t i = from; i + more <= n; ++i) {
      if (adds[i] == kNever) continue;
      if (together_.empty()) {
        add_beside(i, adds, next.data());
      } else {
        const double* const with = &together_[i * n];
        for (std::size_t k = i + 1; k < n; ++k) next[k] = adds[k] + with[k];
      }
      chosen_.push_back(i);
      extend(i + 1, more - 1, value + adds[i], next);
      chosen_.pop_back();
    }
  }

  void finish(std::size_t from, double value, const std::vector<double>& adds) {
    double below = best_.value - slack_ - value;
    for (std::size_t i = from; i < adds.size(); ++i) {
      if (adds[i] >= below) continue;
      chosen_.push_back(i);
      weigh_in_full();
      chosen_.pop_back();
      below = best_.value - slack_ - value;
    }
  }

  void weigh_in_full() {
    const double minutes = shared_minutes(case_, chosen_);
    if (case_.most_minutes && minutes > *case_.most_minutes + kSlackMinutes) return;
    if (std::any_of(relieves_.begin(), relieves_.end(),
                    [&](const auto& gains) { return change_of_loss(gains) >= 0.0; }))
      return;
    double value = none_ + change_of_loss(alone_);
    for (const std::size_t i : chosen_) value -= case_.minute_cost * case_.items[i].minutes;
    value += case_.minute_cost * minutes;
    if (value < best_.value - slack_) best_ = {chosen_, value};
  }

  /// By what the chosen items change the loss, from what each does alone.
  double change_of_loss(const std::vector<double>& alone) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < chosen_.size(); ++i) {
      sum += alone[chosen_[i]];
      for (std::size_t k = 0; k < i; ++k) {
        sum += cross(case_.items[chosen_[k]], case_.items[chosen_[i]]);
      }
    }
    return sum;
  }

  static constexpr double kSlackMinutes = 1e-9;
  const BundleCase& case_;
  std::size_t most_;
  double none_, slack_;
  std::vector<double> cross_, alone_, together_;
  std::vector<double> amounts_;     // of the items
  std::vector<std::size_t> steps_;  // of the items
  std::vector<int> groups_;         // of the items
  std::vector<std::vector<double>> relieves_;
  Indices chosen_;
  BundleChoice best_;
};

// --- from a kart --------------------------------------------------------------------------------

/// Numbers the classes of adjustments that name each other, directly or by way of others. Whoever
/// is named by nobody and names nobody is in none: -1.
std::map<std::string_view, int> classes_of(const std::vector<Way>& ways,
                                           std::vector<std::string> Adjustment::*named) {
  std::map<std::string_view, int> of;
  int next = 0;
  for (const Way& way : ways) {
    const std::vector<std::string>& others = way.adjustment->*named;
    if (others.empty()) continue;
    const int own = of.emplace(way.adjustment->id, next++).first->second;
    for (const std::string& other : others) {
      const int theirs = of.emplace(other, own).first->second;
      for (auto& [id, number] : of) number = number == theirs ? own : number;
    }
  }
  return of;
}

int class_of(const std::map<std::string_view, int>& classes, const Adjustment& adjustment) {
  const auto found = classes.find(adjustment.id);
  return found == classes.end() ? -1 : found->second;
}

/// A search with the option that each of its items stands for.
struct Offers {
  BundleCase search;
  std::vector<const Option*> options;
};

/// Counts loss in points: 100 for the loss of nothing.
BundleCase case_of(const Stakes& stakes) {
  const bool some = relief_of(stakes, 0.0) > 0.0;
  BundleCase c{.mean = stakes.mean,
               .weights = (some ? 100.0 / loss_of_nothing(stakes) : 0.0) * stakes.weights,
               .minute_cost = effort_rate(stakes.minutes_left),
               .most_minutes = stakes.minutes_left};
  for (const auto& mean : {stakes.without_complaints, stakes.with_complaints}) {
    if (mean) c.must_relieve.push_back(*mean);
  }
  return c;
}

/// The legal options of known effect, in the order of the ways.
Offers offers_of(const Stakes& stakes, const std::vector<Way>& ways,
                 const std::vector<Effect>& effects, const JobClasses& classes) {
  Offers offers{.search = case_of(stakes), .options = {}};
  for (const Effect& effect : effects) {
    const double spread = offers.search.weights.dot(effect.covariance.diagonal());
    offers.search.steps.push_back({effect.per_step, spread});
  }
  for (std::size_t i = 0; i < ways.size(); ++i) {
    if (!effects[i / 2].known()) continue;
    for (const Option& option : ways[i].options) {
      if (!option.legal()) continue;
      offers.options.push_back(&option);
      offers.search.items.push_back(
          {.group = static_cast<int>(i / 2),
           .step = i / 2,
           .amount = option.steps,
           .cost = last_notch_cost(option),
           .minutes = option.minutes,
           .stand = classes.stands[i / 2],
           .stand_minutes = std::min(ways[i].adjustment->stand_minutes, option.minutes),
           .exclusion = classes.exclusions[i / 2]});
    }
  }
  return offers;
}

/// J of the chosen moves together.
double loss_of(const Stakes& stakes, const std::vector<Effect>& effects, const BundleCase& c,
               const Indices& chosen) {
  VectorXd after = stakes.mean;
  double spread = 0.0;
  for (const std::size_t i : chosen) {
    const BundleItem& item = c.items[i];
    after += item.amount * effects[item.step].per_step;
    spread +=
        item.amount * item.amount * stakes.weights.dot(effects[item.step].covariance.diagonal());
  }
  return weighed(stakes.weights, after, after) + spread;
}

}  // namespace

double shared_minutes(const BundleCase& c, const std::vector<std::size_t>& items) {
  double minutes = 0.0;
  for (std::size_t i = 0; i < items.size(); ++i) {
    const BundleItem& item = c.items[items[i]];
    minutes += item.minutes;
    if (item.stand < 0) continue;
    // What came before on this stand has spent its longest already.
    double before = 0.0;
    for (std::size_t k = 0; k < i; ++k) {
      const BundleItem& other = c.items[items[k]];
      if (other.stand == item.stand) before = std::max(before, other.stand_minutes);
    }
    minutes -= std::min(before, item.stand_minutes);
  }
  return minutes;
}

JobClasses job_classes(const std::vector<Way>& ways) {
  const auto stands = classes_of(ways, &Adjustment::shares_stand_with);
  const auto twins = classes_of(ways, &Adjustment::same_setting_as);
  JobClasses classes;
  for (std::size_t i = 0; i < ways.size(); i += 2) {
    classes.stands.push_back(class_of(stands, *ways[i].adjustment));
    classes.exclusions.push_back(class_of(twins, *ways[i].adjustment));
  }
  return classes;
}

BundleChoice best_set(const BundleCase& c, std::size_t most) { return BundleSearch(c, most).run(); }

Bundle best_bundle(const Stakes& stakes, const std::vector<Way>& ways,
                   const std::vector<Effect>& effects, std::size_t most) {
  return best_bundle(stakes, ways, effects, job_classes(ways), most);
}

Bundle best_bundle(const Stakes& stakes, const std::vector<Way>& ways,
                   const std::vector<Effect>& effects, const JobClasses& classes,
                   std::size_t most) {
  const Offers offers = offers_of(stakes, ways, effects, classes);
  const Indices chosen = best_set(offers.search, most).items;
  Bundle bundle;
  if (chosen.empty()) return bundle;
  bundle.relief = relief_of(stakes, loss_of(stakes, effects, offers.search, chosen));
  bundle.minutes = shared_minutes(offers.search, chosen);
  bundle.points = 100.0 * bundle.relief - offers.search.minute_cost * bundle.minutes;
  std::vector<StopJob> jobs;
  for (const std::size_t i : chosen) {
    const BundleItem& item = offers.search.items[i];
    bundle.moves.push_back(*offers.options[i]);
    bundle.points -= item.cost;
    jobs.push_back({item.minutes, item.stand, item.stand_minutes});
  }
  bundle.order = stop_order(jobs, [&](const Indices& done) {
    Indices items;
    for (const std::size_t job : done) items.push_back(chosen[job]);
    return loss_of(stakes, effects, offers.search, items);
  });
  return bundle;
}

}  // namespace kartwright
