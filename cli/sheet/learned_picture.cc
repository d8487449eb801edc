#include "cli/sheet/learned_picture.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "cli/page.h"

namespace kartwright::cli {
namespace {

constexpr double kFromLeft = 10.0, kToRight = 310.0;

/// One adjustment on the axis it is told by, notches a step.
struct Told {
  double rule = 0, rule_sd = 0, learned = 0, sd = 0;
  explicit Told(const LearnedAdjustment& each) {
    const auto axis = static_cast<Eigen::Index>(each.axis);
    rule = each.rule[axis];
    rule_sd = each.rule_sd[axis];
    learned = each.learned[axis];
    sd = each.sd[axis];
  }
  double reach() const { return std::max(std::abs(rule) + rule_sd, std::abs(learned) + sd); }
};

std::size_t in_picture(const Learned& learned) {
  return std::min(learned.adjustments.size(), kLearnedInPicture);
}

/// Notches to the picture: as far as the widest bar goes, by halves.
struct StepScale {
  double most = 0.5;
  explicit StepScale(const Learned& learned) {
    for (std::size_t i = 0; i < in_picture(learned); ++i)
      most = std::max(most, std::ceil(2.0 * Told(learned.adjustments[i]).reach()) / 2.0);
  }
  double x(double notches) const {
    return (kFromLeft + kToRight) / 2.0 + notches / most * (kToRight - kFromLeft) / 2.0;
  }
};

std::string words_for(const LearnedAdjustment& each, const Pack& pack) {
  return each.adjustment->phrases[0] + ", " + pack.axes[each.axis].label;
}

void learned_row(Drawing& drawing, const StepScale& scale, const LearnedAdjustment& each,
                 std::size_t i, const Pack& pack, double y) {
  constexpr std::size_t kMoveInPicture = 24, kAxisInPicture = 36;  // columns
  const Told told(each);
  drawing.words({kFromLeft, y}, fitting(printable(each.adjustment->phrases[0]), kMoveInPicture),
                Anchor::start);
  drawing.words({kFromLeft, y + 13.0},
                fitting(printable(pack.axes[each.axis].label), kAxisInPicture), Anchor::start,
                "small soft");
  drawing.figure({kToRight - 50.0, y}, fmt::format("{:+.2f}", told.learned),
                 fmt::format("/adjustments/{}/learned/{}", i, each.axis), Anchor::end);
  drawing.words({kToRight, y}, fmt::format("± {:.2f}", told.sd), Anchor::end, "soft");
  const double line = y + 22.0;
  const double from = scale.x(told.rule - told.rule_sd), to = scale.x(told.rule + told.rule_sd);
  drawing.box({from, line - 4.0}, to - from, 8.0, "tyre");
  drawing.line({scale.x(0.0), line - 6.0}, {scale.x(0.0), line + 6.0}, "axis");
  drawing.line({scale.x(told.rule), line - 4.0}, {scale.x(told.rule), line + 4.0}, "mark");
  drawing.line({scale.x(told.learned - told.sd), line}, {scale.x(told.learned + told.sd), line},
               "is");
  drawing.circle({scale.x(told.learned), line}, 3.5, "is-dot");
}

std::string learned_in_words(const Learned& learned, const Pack& pack) {
  std::string text =
      "What a step does, in notches, with the log and by the rules, one standard deviation either "
      "way:";
  for (std::size_t i = 0; i < in_picture(learned); ++i) {
    const LearnedAdjustment& each = learned.adjustments[i];
    const Told told(each);
    text += fmt::format(" {} {:+.2f} ± {:.2f}, by the rules {:+.2f} ± {:.2f};",
                        words_for(each, pack), told.learned, told.sd, told.rule, told.rule_sd);
  }
  text.back() = '.';
  return text;
}

// --- what was promised ---------------------------------------------------------------------------

constexpr double kBarFrom = 106.0, kBarTo = 268.0;

std::string percent_of(double share) { return fmt::format("{:.0f} %", 100.0 * share); }

double bar_x(double share) { return kBarFrom + share * (kBarTo - kBarFrom); }

void held_row(Drawing& drawing, const Held& held, std::size_t i, double y) {
  const std::string pointer = fmt::format("/calibration/intervals/{}", i);
  drawing.words({kFromLeft, y}, "promised", Anchor::start, "soft");
  drawing.figure({kBarFrom - 8.0, y}, percent_of(held.promised), pointer + "/promised", Anchor::end,
                 "soft");
  drawing.box({kBarFrom, y - 8.0}, kBarTo - kBarFrom, 8.0, "band");
  drawing.box({kBarFrom, y - 7.0}, bar_x(held.share()) - kBarFrom, 6.0, "is-fill");
  drawing.line({bar_x(held.promised), y - 10.0}, {bar_x(held.promised), y + 2.0}, "mark");
  drawing.figure({kToRight, y}, percent_of(held.share()), pointer + "/share", Anchor::end);
}

/// How many of a kind; a third of a row.
struct Share {
  std::string_view word, style;
  int count = 0;
  std::string_view key;
};
using Shares = std::array<Share, 3>;

int sum_of(const Shares& shares) { return shares[0].count + shares[1].count + shares[2].count; }

Shares complaints_of(const Calibration& all) {
  return {{{"eased", "is-fill", all.eased, "complaint/eased"},
           {"the same", "tyre", all.same, "complaint/same"},
           {"worse", "wanted", all.worse, "complaint/worse"}}};
}

Shares clock_of(const Calibration& all) {
  return {{{"faster", "is-fill", all.faster, "clock/faster"},
           {"not settled", "tyre", all.not_settled, "clock/not_settled"},
           {"slower", "wanted", all.slower, "clock/slower"}}};
}

void shares_row(Drawing& drawing, std::string_view title, const Shares& shares, double y) {
  drawing.words({kFromLeft, y}, title, Anchor::start, "soft");
  constexpr std::array<double, 3> kColumns{kFromLeft, 100.0, 222.0};
  double at = kFromLeft;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    const Share& each = shares.at(i);
    const double length = (kToRight - kFromLeft) * each.count / std::max(1, sum_of(shares));
    if (each.count > 0) drawing.box({at, y + 6.0}, length, 8.0, each.style);
    at += length;
    const double x = kColumns.at(i), foot = y + 28.0;
    drawing.box({x, foot - 8.0}, 8.0, 8.0, each.style);
    drawing.figure({x + 14.0, foot}, std::to_string(each.count),
                   fmt::format("/calibration/{}", each.key), Anchor::start);
    drawing.words({x + 38.0, foot}, each.word, Anchor::start);
  }
}

std::string shares_in_words(std::string_view title, const Shares& shares) {
  std::string text = fmt::format(" {}:", title);
  for (const Share& each : shares) text += fmt::format(" {} {},", each.word, each.count);
  text.back() = '.';
  return text;
}

constexpr std::string_view kComplaints = "strongest complaint after a change to ease it";
constexpr std::string_view kClock = "changes by advice, by the clock";

std::string promises_in_words(const Calibration& all) {
  std::string text = "How often what was foretold came:";
  for (const Held& held : all.intervals)
    text +=
        fmt::format(" promised {}, came {};", percent_of(held.promised), percent_of(held.share()));
  text.back() = '.';
  text += shares_in_words(kComplaints, complaints_of(all));
  if (all.advised > 0) text += shares_in_words(kClock, clock_of(all));
  return text;
}

}  // namespace

Picture learned_picture(const Learned& learned, const Pack& pack) {
  constexpr double kFirst = 34.0, kRow = 40.0;
  const double foot = kFirst + kRow * static_cast<double>(in_picture(learned)) - 10.0;
  Drawing drawing(foot + 4.0);
  const StepScale scale(learned);
  drawing.words({kFromLeft, 12.0}, "less of it", Anchor::start, "small soft");
  drawing.words({scale.x(0.0), 12.0}, "does nothing", Anchor::middle, "small soft");
  drawing.words({kToRight, 12.0}, "more of it", Anchor::end, "small soft");
  for (std::size_t i = 0; i < in_picture(learned); ++i)
    learned_row(drawing, scale, learned.adjustments[i], i, pack,
                kFirst + kRow * static_cast<double>(i));
  return drawing.picture(learned_in_words(learned, pack));
}

bool has_promises(const Calibration& all) { return all.intervals.front().of > 0; }

Picture promises_picture(const Calibration& all) {
  constexpr double kRow = 18.0, kShares = 48.0;
  const double shares_from = 14.0 + kRow * static_cast<double>(all.intervals.size()) + 6.0;
  Drawing drawing(shares_from + kShares * (all.advised > 0 ? 2.0 : 1.0) - 14.0);
  for (std::size_t i = 0; i < all.intervals.size(); ++i)
    held_row(drawing, all.intervals.at(i), i, 14.0 + kRow * static_cast<double>(i));
  shares_row(drawing, kComplaints, complaints_of(all), shares_from);
  if (all.advised > 0) shares_row(drawing, kClock, clock_of(all), shares_from + kShares);
  return drawing.picture(promises_in_words(all));
}

}  // namespace kartwright::cli
