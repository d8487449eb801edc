#include "cli/sheet/belief_picture.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/sheet/sheet.h"

namespace kartwright::cli {
namespace {

constexpr double kLeast = 0.05;  // notches; less is printed as nothing
constexpr double kTop = 34.0, kRow = 28.0;
constexpr double kFrom = 10.0, kTo = 310.0;

/// Notches to the picture: as far as the widest bar goes, four at least.
struct Notches {
  double most = 4.0;
  double x(double notches) const {
    const double inside = std::clamp(notches, -most, most);
    return (kFrom + kTo) / 2.0 + inside / most * (kTo - kFrom) / 2.0;
  }
};

double sd_of(const Eigen::MatrixXd& covariance, Eigen::Index i) {
  return std::sqrt(covariance(i, i));
}

Notches scale_for(const Advice& advice) {
  Notches scale;
  for (Eigen::Index i = 0; i < advice.belief.mean.size(); ++i) {
    const double reach = std::abs(advice.belief.mean[i]) + sd_of(advice.belief.covariance, i);
    scale.most = std::max(scale.most, std::ceil(reach));
  }
  return scale;
}

void scale_words(Drawing& drawing, const Notches& scale, double foot) {
  drawing.line({scale.x(0.0), 20.0}, {scale.x(0.0), foot}, "faint");
  drawing.words({kFrom, 12.0}, fmt::format("-{:g} too little", scale.most), Anchor::start,
                "small soft");
  drawing.words({scale.x(0.0), 12.0}, "0 is fastest", Anchor::middle, "small soft");
  drawing.words({kTo, 12.0}, fmt::format("too much +{:g}", scale.most), Anchor::end, "small soft");
}

void axis_row(Drawing& drawing, const Notches& scale, const Advice& advice, const Pack& pack,
              Eigen::Index i, double y) {
  const double mean = advice.belief.mean[i];
  const double sd = sd_of(advice.belief.covariance, i);
  const double prior = advice.prior.mean[i];
  const double prior_sd = sd_of(advice.prior.covariance, i);
  drawing.words({kFrom, y}, pack.axes[static_cast<std::size_t>(i)].label, Anchor::start);
  drawing.figure({kTo - 42.0, y}, fmt::format("{:+.1f}", mean),
                 fmt::format("/working/posterior/mean/{}", i), Anchor::end);
  drawing.words({kTo, y}, fmt::format("± {:.1f}", sd), Anchor::end, "soft");
  const double line = y + 9.0;
  drawing.box({scale.x(prior - prior_sd), line - 4.0},
              scale.x(prior + prior_sd) - scale.x(prior - prior_sd), 8.0, "band");
  drawing.line({scale.x(prior), line - 4.0}, {scale.x(prior), line + 4.0}, "mark");
  drawing.line({scale.x(mean - sd), line}, {scale.x(mean + sd), line}, "is");
  drawing.circle({scale.x(mean), line}, 3.5, "is-dot");
}

std::string in_words(const Advice& advice, const Pack& pack) {
  std::string text =
      "Handling in notches from the fastest kart, after the debrief, with one standard deviation:";
  for (Eigen::Index i = 0; i < advice.belief.mean.size(); ++i) {
    text += fmt::format(" {} {:+.1f} ± {:.1f};", pack.axes[static_cast<std::size_t>(i)].label,
                        advice.belief.mean[i], sd_of(advice.belief.covariance, i));
  }
  text.back() = '.';
  return text;
}

/// What a reading moved, the most first.
std::string moved_by(const Advice& advice, const Pack& pack, Eigen::Index reading) {
  std::vector<std::pair<double, std::size_t>> moves;
  for (Eigen::Index axis = 0; axis < advice.belief.shares.rows(); ++axis) {
    const double share = advice.belief.shares(axis, reading);
    if (std::abs(share) >= kLeast) moves.emplace_back(share, static_cast<std::size_t>(axis));
  }
  std::stable_sort(moves.begin(), moves.end(), [](const auto& a, const auto& b) {
    return std::abs(a.first) > std::abs(b.first);
  });
  constexpr std::size_t kShown = 3;
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < std::min(kShown, moves.size()); ++i)
    texts.push_back(fmt::format("{} {:+.1f}", pack.axes[moves[i].second].label, moves[i].first));
  return joined(texts, ", ");
}

}  // namespace

Picture belief_picture(const Advice& advice, const Pack& pack) {
  const Notches scale = scale_for(advice);
  const Eigen::Index axes = advice.belief.mean.size();
  const double foot = kTop + kRow * static_cast<double>(axes) - 10.0;
  Drawing drawing(foot + 4.0);
  scale_words(drawing, scale, foot);
  for (Eigen::Index i = 0; i < axes; ++i)
    axis_row(drawing, scale, advice, pack, i, kTop + kRow * static_cast<double>(i));
  return drawing.picture(in_words(advice, pack));
}

Markup belief_table(const Advice& advice, const Pack& pack) {
  SheetTable table{.caption = "What moved the belief, in notches; the first three axes of each",
                   .head = {"heard or seen", "moved"},
                   .rows = {}};
  for (std::size_t i = 0; i < advice.readings.size(); ++i) {
    const std::string moved = moved_by(advice, pack, static_cast<Eigen::Index>(i));
    if (!moved.empty()) table.rows.push_back({words(advice.readings[i].text), words(moved)});
  }
  return table.rows.empty() ? Markup() : table_of(table);
}

}  // namespace kartwright::cli
