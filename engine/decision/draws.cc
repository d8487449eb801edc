#include "engine/decision/draws.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <random>

#include "engine/decision/gaussian.h"

namespace kartwright {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

/// The effects of the contenders, each once, in the contenders' order.
class Effects {
 public:
  explicit Effects(const std::vector<Contender>& contenders) {
    std::map<const Effect*, std::size_t, std::less<>> places;
    for (const Contender& each : contenders) {
      const auto [place, fresh] = places.emplace(each.effect, gaussians_.size());
      if (fresh) gaussians_.emplace_back(each.effect->per_step, each.effect->covariance);
      place_.push_back(place->second);
    }
    drawn_.resize(gaussians_.size());
  }

  void draw(std::mt19937_64& engine) {
    for (std::size_t i = 0; i < gaussians_.size(); ++i) gaussians_[i].draw(engine, drawn_[i]);
  }
  const VectorXd& of(std::size_t contender) const { return drawn_[place_[contender]]; }

 private:
  std::vector<Gaussian> gaussians_;
  std::vector<std::size_t> place_;
  std::vector<VectorXd> drawn_;
};

/// The contender that scores most on a draw, or their number where doing nothing does.
std::size_t first_of(const std::vector<Contender>& contenders, const VectorXd& weighed_z,
                     const VectorXd& weights, const Effects& effects, double points) {
  std::size_t best = contenders.size();
  double best_score = 0.0;
  for (std::size_t i = 0; i < contenders.size(); ++i) {
    const Contender& each = contenders[i];
    if (!each.may_lead) continue;
    const VectorXd& b = effects.of(i);
    const double added =
        each.steps * (2.0 * weighed_z.dot(b) + each.steps * b.cwiseAbs2().dot(weights));
    const double score = each.fixed - points * added;
    const bool tied_with_nothing = best == contenders.size() && score >= best_score;
    if (score > best_score || tied_with_nothing) {
      best = i;
      best_score = score;
    }
  }
  return best;
}

}  // namespace

std::vector<Contender> contenders_of(const std::vector<Candidate>& candidates,
                                     const std::vector<Way>& ways,
                                     const std::vector<Effect>& effects) {
  std::vector<Contender> out;
  for (const Candidate& candidate : candidates) {
    const auto way = std::find_if(ways.begin(), ways.end(), [&](const Way& each) {
      return each.setting == candidate.option.setting;
    });
    const Parts& parts = candidate.parts;
    out.push_back({.steps = candidate.option.steps,
                   .effect = &effects[static_cast<std::size_t>(way - ways.begin()) / 2],
                   .fixed = parts.room + parts.effort + parts.last_notch,
                   .may_lead = !candidate.held_back()});
  }
  return out;
}

Draws draw(const Stakes& stakes, const MatrixXd& covariance,
           const std::vector<Contender>& contenders, const DrawPlan& plan) {
  std::mt19937_64 engine(plan.seed);
  Gaussian belief(stakes.mean, covariance);
  Effects effects(contenders);
  constexpr double kNoError = 1e-12;
  const double nothing = loss_of_nothing(stakes);
  const double points = nothing < kNoError ? 0.0 : 100.0 / nothing;
  std::vector<int> counts(contenders.size() + 1, 0);
  VectorXd z;
  for (int i = 0; i < plan.draws; ++i) {
    belief.draw(engine, z);
    effects.draw(engine);
    z = z.cwiseProduct(stakes.weights);
    ++counts[first_of(contenders, z, stakes.weights, effects, points)];
  }
  Draws out{.first = {}, .nothing = 0.0, .draws = plan.draws};
  const auto share = [&](int count) { return count / static_cast<double>(plan.draws); };
  for (std::size_t i = 0; i < contenders.size(); ++i) out.first.push_back(share(counts[i]));
  out.nothing = share(counts.back());
  return out;
}

bool coin_toss(const Draws& draws) {
  std::vector<double> shares = draws.first;
  shares.push_back(draws.nothing);
  if (shares.size() < 2 || draws.draws <= 0) return false;
  std::sort(shares.begin(), shares.end(), std::greater<>());
  const double a = shares[0], b = shares[1];
  const double lead = a - b;
  const double error = std::sqrt((a + b - lead * lead) / draws.draws);
  constexpr double kClose = 0.1;
  return lead < 2.0 * error || (a < 0.5 && lead <= kClose);
}

}  // namespace kartwright
