#include "engine/decision/draws.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <random>

#include "engine/decision/gaussian.h"

namespace kartwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// The belief and the effects of the contenders, each effect once, in the contenders' order.
class Drawn {
 public:
  Drawn(const Gaussian& belief, const std::vector<Contender>& contenders) : gaussians_{belief} {
    std::map<const Effect*, std::size_t, std::less<>> places;
    for (const Contender& each : contenders) {
      const auto [place, fresh] = places.emplace(each.effect, gaussians_.size());
      if (fresh) gaussians_.emplace_back(each.effect->per_step, each.effect->covariance);
      place_.push_back(place->second);
    }
    drawn_.resize(gaussians_.size());
    for (const Gaussian& each : gaussians_) normals_in_all_ += each.normals();
  }

  /// So many draws; the normals of one follow those of the one before it.
  void draw(std::mt19937_64& engine, Index draws) {
    normals_.resize(draws, normals_in_all_);
    draw_normals(engine, normals_);
    Index first = 0;
    for (std::size_t i = 0; i < gaussians_.size(); ++i) {
      gaussians_[i].draw_from(normals_.middleCols(first, gaussians_[i].normals()), drawn_[i]);
      first += gaussians_[i].normals();
    }
  }

  /// A row for each draw, a column for each axis.
  const MatrixXd& z() const { return drawn_.front(); }
  const MatrixXd& b(std::size_t contender) const { return drawn_[place_[contender]]; }

 private:
  std::vector<Gaussian> gaussians_;  ///< the belief first
  std::vector<std::size_t> place_;   ///< of each contender's effect in them
  std::vector<MatrixXd> drawn_;
  MatrixXd normals_;
  Index normals_in_all_ = 0;
};

/// What a contender scores on each draw.
VectorXd scores_of(const Contender& contender, const MatrixXd& z, const MatrixXd& b,
                   const VectorXd& weights, double points) {
  VectorXd added = VectorXd::Zero(z.rows());
  for (Index axis = 0; axis < weights.size(); ++axis) {
    if (weights[axis] == 0.0) continue;
    added.array() += weights[axis] * b.col(axis).array() *
                     (2.0 * z.col(axis) + contender.steps * b.col(axis)).array();
  }
  return contender.fixed - (points * contender.steps) * added.array();
}

/// Notes for each draw which contender scores most on it, or their number where doing nothing does.
void count_first(const std::vector<Contender>& contenders, const Drawn& drawn,
                 const VectorXd& weights, double points, std::vector<int>& counts) {
  const std::size_t nothing = contenders.size();
  const auto draws = static_cast<std::size_t>(drawn.z().rows());
  std::vector<std::size_t> best(draws, nothing);
  std::vector<double> best_score(draws, 0.0);
  for (std::size_t i = 0; i < contenders.size(); ++i) {
    if (!contenders[i].may_lead) continue;
    const VectorXd scores = scores_of(contenders[i], drawn.z(), drawn.b(i), weights, points);
    for (std::size_t d = 0; d < draws; ++d) {
      const double scored = scores[static_cast<Index>(d)];
      const bool tied_with_nothing = best[d] == nothing && scored >= best_score[d];
      if (scored > best_score[d] || tied_with_nothing) {
        best[d] = i;
        best_score[d] = scored;
      }
    }
  }
  for (const std::size_t first : best) ++counts[first];
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
  Drawn drawn(Gaussian(stakes.mean, covariance), contenders);
  constexpr double kNoError = 1e-12;
  const double nothing = loss_of_nothing(stakes);
  const double points = nothing < kNoError ? 0.0 : 100.0 / nothing;
  std::vector<int> counts(contenders.size() + 1, 0);
  constexpr int kAtOnce = 64;  // what they take stays in the nearest memory
  for (int done = 0; done < plan.draws; done += kAtOnce) {
    drawn.draw(engine, std::min(kAtOnce, plan.draws - done));
    count_first(contenders, drawn, stakes.weights, points, counts);
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
