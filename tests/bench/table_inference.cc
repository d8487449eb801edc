// Chaining beside CLIPS, and the posterior beside a plain dense solve.

#include <Eigen/Dense>
#include <array>
#include <stdexcept>

#include <fmt/format.h>

#include "engine/inference/belief.h"
#include "engine/knowledge/built_in.h"
#include "tests/bench/peers_chain.h"
#include "tests/bench/table_rows.h"
#include "tests/support/any.h"
#include "tests/support/clips.h"

namespace kartwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr std::array<ChainSize, 3> kChains{
    ChainSize{200, 50, 1, 400}, ChainSize{2'000, 500, 1, 100}, ChainSize{20'000, 2'000, 1, 20}};

/// Made-up readings of three axes each.
std::vector<Reading> some_readings(int count, Index axes) {
  Random random(11);
  std::vector<Reading> readings(static_cast<std::size_t>(count));
  for (Reading& reading : readings) {
    reading.row = VectorXd::Zero(axes);
    for (int i = 0; i < 3; ++i)
      reading.row[static_cast<Index>(any_below(random, static_cast<std::size_t>(axes)))] =
          any_between(random, -1.0, 1.0);
    reading.value = any_between(random, -3.0, 3.0);
    reading.sd = any_between(random, 0.5, 2.0);
  }
  return readings;
}

/// The same belief by its information: C = (P^-1 + H' R^-1 H)^-1 and m = mu + C H' R^-1 (y - H mu),
/// the inverses dense, by L D L'.
Belief by_information(const Prior& prior, const std::vector<Reading>& readings) {
  const Index n = prior.mean.size();
  const auto k = static_cast<Index>(readings.size());
  MatrixXd rows(k, n);
  VectorXd precision(k), off(k);
  for (Index i = 0; i < k; ++i) {
    const Reading& reading = readings[static_cast<std::size_t>(i)];
    rows.row(i) = reading.row.transpose();
    precision[i] = 1.0 / (reading.sd * reading.sd);
    off[i] = reading.value - reading.row.dot(prior.mean);
  }
  const MatrixXd one = MatrixXd::Identity(n, n);
  const MatrixXd weighed = rows.transpose() * precision.asDiagonal();  // H' R^-1
  const MatrixXd information = prior.covariance.ldlt().solve(one) + weighed * rows;
  Belief belief;
  belief.covariance = information.ldlt().solve(one);
  belief.shares = belief.covariance * weighed * off.asDiagonal();
  belief.mean = prior.mean + belief.shares.rowwise().sum();
  return belief;
}

bool same(const Belief& a, const Belief& b) {
  constexpr double kClose = 1e-9;
  const auto close = [](const auto& x, const auto& y) {
    return (x - y).cwiseAbs().maxCoeff() <= kClose * (1.0 + x.cwiseAbs().maxCoeff());
  };
  return close(a.mean, b.mean) && close(a.covariance, b.covariance) && close(a.shares, b.shares);
}

}  // namespace

void time_chaining(Effort effort) {
  if (clips_program().empty()) throw std::runtime_error("`clips` is not installed");
  Group run("what follows from rules", "CLIPS run");
  Group with_reset("  the same, facts given anew", "CLIPS reset and run");
  const int goes = effort.quick ? 3 : 7;
  for (const ChainSize& size : kChains) {
    if (effort.quick && size.rules > 2'000) continue;
    PairedGoes runs, both;
    for (int go = 0; go < goes; ++go) {
      const ChainTimes theirs = time_clips(size);
      const ChainTimes ours = time_ours(size);
      agree(theirs.concluded == ours.concluded, "chaining");
      runs.ours.push_back(ours.run);
      runs.theirs.push_back(theirs.run);
      both.ours.push_back(ours.run);
      both.theirs.push_back(theirs.reset + theirs.run);
    }
    const std::string rules = fmt::format("{} rules", size.rules);
    run.add(rules, size.rules, runs);
    with_reset.add(rules, size.rules, both);
  }
  run.print();
  with_reset.print();
}

void time_posterior(Effort effort) {
  const Prior prior = make_prior(built_in_pack());
  Group group("what is believed", "Eigen, information");
  for (const int count : {4, 16, 64}) {
    const std::vector<Reading> readings = some_readings(count, prior.mean.size());
    agree(same(update(prior, readings), by_information(prior, readings)), "the posterior");
    double kept = 0.0;
    group.add(fmt::format("{} readings", count), count,
              pairs_of(
                  effort.goes(), [&] { kept += update(prior, readings).mean[0]; },
                  [&] { kept += by_information(prior, readings).mean[0]; }));
    agree(kept == kept, "the posterior is not a number");
  }
  group.print();
}

}  // namespace kartwright
