#include "cli/compare_text.h"

#include <cmath>

#include <fmt/format.h>

#include "cli/lap_plot.h"
#include "engine/records/lap_time.h"

namespace kartwright::cli {
namespace {

constexpr std::size_t kLetterColumns = 3;
constexpr std::size_t kLapsColumns = 5;
constexpr std::size_t kEffectColumns = 10;
constexpr std::size_t kIntervalColumns = 19;
constexpr std::size_t kNameColumns = 13;
constexpr int kNoEnd = 10'000;  // laps needed, at the least

const std::string& group_name(const LapComparison& all, std::size_t group) {
  return all.groups[group].name;
}

std::string laps_text(int laps) { return fmt::format("{} lap{}", laps, laps == 1 ? "" : "s"); }

/// "0.213 ± 0.081 s a lap faster than `A`".
std::string effect_text(const SettingEffect& effect, const std::string& first) {
  return fmt::format("{:.3f} ± {:.3f} s a lap {} than {}", std::abs(effect.seconds), within(effect),
                     effect.seconds < 0.0 ? "faster" : "slower", first);
}

std::string wild_numbers(const LapComparison& all) {
  constexpr std::size_t kFew = 8;
  std::string text = all.clock.wild.size() == 1 ? "lap " : "laps ";
  for (std::size_t i = 0; i < all.clock.wild.size() && i < kFew; ++i)
    text += fmt::format("{}{}", i == 0 ? "" : ", ", all.laps[all.clock.wild[i]].number);
  if (all.clock.wild.size() > kFew)
    text += fmt::format(" and {} more", all.clock.wild.size() - kFew);
  return text;
}

/// Why the clock settles nothing, and what would.
std::string unsettled_text(const LapComparison& all, std::size_t at) {
  const ClockJudgement& judged = all.clock.judged[at];
  const SettingEffect& effect = all.clock.fit.effects[at];
  const std::string& first = group_name(all, 0);
  const std::string& name = group_name(all, judged.setting);
  if (judged.reason == Unsettled::order) {
    return fmt::format(
        "not settled: {} is {}, but driven one after the other, drift and change cannot be told "
        "apart. Go back to {} for as many laps ({})",
        name, effect_text(effect, first), first, all.groups[judged.setting].laps);
  }
  if (judged.reason == Unsettled::wild_laps) {
    const std::string without =
        all.clock.fit_tame ? fmt::format("without {} {}", wild_numbers(all),
                                         effect_text(all.clock.fit_tame->effects[at], first))
                           : fmt::format("without {} too few are left", wild_numbers(all));
    return fmt::format(
        "not settled: the fits disagree. With all laps {} is {}; {}. Look what "
        "happened there before anything is concluded",
        name, effect_text(effect, first), without);
  }
  return fmt::format("not settled: {} is {}, which may as well be nothing", name,
                     effect_text(effect, first));
}

std::string verdict_text(const LapComparison& all, std::size_t at) {
  const ClockJudgement& judged = all.clock.judged[at];
  const std::string effect = effect_text(all.clock.fit.effects[at], group_name(all, 0));
  const std::string& name = group_name(all, judged.setting);
  switch (judged.verdict) {
    case ClockVerdict::keep:
      return fmt::format("keep {}: {}", name, effect);
    case ClockVerdict::revert:
      return fmt::format("revert, go back to {}: {} is {}", group_name(all, 0), name, effect);
    case ClockVerdict::not_settled:
      break;
  }
  return unsettled_text(all, at);
}

void verdict(const LapComparison& all, Page& page) {
  page.section("VERDICT");
  page.paragraph(verdict_text(all, all.decides), 2);
  for (std::size_t at = 0; at < all.clock.judged.size(); ++at) {
    if (at != all.decides) page.paragraph(verdict_text(all, at), 2);
  }
}

struct EffectRow {
  std::string letter, name, laps, effect, interval;
};

EffectRow row_of(const SettingEffect& effect) {
  return {.letter = "",
          .name = "",
          .laps = "",
          .effect = fmt::format("{:+.3f}", effect.seconds),
          .interval = fmt::format("{:+.3f} to {:+.3f}", effect.low, effect.high)};
}

/// A line of the table; a sentence where there is no room for one.
void effect_row(Page& page, const EffectRow& row) {
  const std::size_t fixed = kLetterColumns + kLapsColumns + kEffectColumns + kIntervalColumns;
  if (page.room() < fixed + kNameColumns) {
    if (row.letter == " ") return;
    page.paragraph(
        fmt::format("{} {}{}{}: {}", row.letter, row.name, row.laps.empty() ? "" : ", ",
                    row.laps.empty() ? "" : row.laps + " laps",
                    row.interval.empty() ? row.effect : row.effect + " s, 95 % " + row.interval),
        2);
    return;
  }
  const std::size_t room = std::min<std::size_t>(page.room() - fixed, 28);
  const std::string name = spelled(row.name, page.look());
  page.row(left(row.letter, kLetterColumns) + left(fitting(name, room), room) +
           right(row.laps, kLapsColumns) + right(row.effect, kEffectColumns) +
           right(row.interval, kIntervalColumns));
}

void effects(const LapComparison& all, const std::string& letters, Page& page) {
  page.section("EFFECT");
  effect_row(page, {" ", "group", "laps", "s a lap", "95 %"});
  effect_row(page, {letters.substr(0, 1), group_name(all, 0), std::to_string(all.groups[0].laps),
                    "first", ""});
  for (std::size_t at = 0; at < all.clock.fit.effects.size(); ++at) {
    const DrivenGroup& group = all.groups[all.clock.judged[at].setting];
    EffectRow row = row_of(all.clock.fit.effects[at]);
    row.letter = letters.substr(all.clock.judged[at].setting, 1);
    row.name = group.name;
    row.laps = std::to_string(group.laps);
    effect_row(page, row);
    if (!all.clock.fit_tame) continue;
    row = row_of(all.clock.fit_tame->effects[at]);
    row.name = "without wild";
    effect_row(page, row);
  }
}

std::string drift_text(const LapComparison& all) {
  const double drift = all.clock.fit.drift;
  if (std::abs(drift) <= all.drift_within) {
    return fmt::format("none that these laps can tell: {:+.4f} ± {:.4f} s a lap", drift,
                       all.drift_within);
  }
  return fmt::format("each lap came {:.4f} ± {:.4f} s {} than the one before, whatever the setting",
                     std::abs(drift), all.drift_within, drift < 0.0 ? "faster" : "slower");
}

void drift(const LapComparison& all, Page& page) {
  page.section("DRIFT");
  page.paragraph(drift_text(all), 2);
  page.paragraph(
      fmt::format("taken for a straight line over all laps, of track, tyres, fuel and driver "
                  "together; about it a lap scatters by {:.3f} s",
                  all.clock.fit.residual_sd),
      2);
  if (!all.clock.fit_tame) return;
  page.paragraph(fmt::format("without the wild laps {:+.4f} s a lap, scatter {:.3f} s",
                             all.clock.fit_tame->drift, all.clock.fit_tame->residual_sd),
                 2);
}

void plot(const LapComparison& all, const std::string& letters, Page& page) {
  page.row("lap time, against lap number");
  for (const std::string& row : lap_plot(all, letters, page.room(), page.look().unicode))
    page.row(row);
  std::string legend;
  for (std::size_t i = 0; i < letters.size(); ++i)
    legend += fmt::format("{} {}; ", letters[i], group_name(all, i));
  page.paragraph(legend + "* several groups; · the fit", 2);
}

void laps(const LapComparison& all, const std::string& letters, LapsDrawn drawn, Page& page) {
  page.section("LAPS");
  const bool in_letters = drawn == LapsDrawn::in_letters;
  if (in_letters) plot(all, letters, page);
  if (!all.clock.wild.empty()) {
    page.paragraph("wild, far off the rest: " + wild_numbers(all) +
                       (in_letters ? "; ^ v off the scale of the plot" : ""),
                   2);
  }
  if (all.left_out > 0) {
    page.paragraph(
        fmt::format("{} without a group left out", laps_text(static_cast<int>(all.left_out))), 2);
  }
}

std::string next_text(const LapComparison& all, std::size_t at) {
  const ClockJudgement& judged = all.clock.judged[at];
  const std::string& name = group_name(all, judged.setting);
  if (judged.reason == Unsettled::order) {
    return fmt::format("{}: back to {} for {}, then ask again", name, group_name(all, 0),
                       laps_text(all.groups[judged.setting].laps));
  }
  const std::string wild = all.clock.wild.empty() ? "" : "; counted with the wild laps";
  const bool settled = judged.verdict != ClockVerdict::not_settled;
  const std::string effect = fmt::format("an effect worth {:g} s a lap", all.worth);
  if (judged.laps_needed == 0) {
    return fmt::format("{}: no more laps: with these {} is found four times out of five{}", name,
                       effect, wild);
  }
  return fmt::format(
      "{}: {}{}{} more, shared among the settings as so far, until {} is found four "
      "times out of five{}",
      name, settled ? "settled as it is; " : "", judged.laps_needed >= kNoEnd ? "at least " : "",
      laps_text(judged.laps_needed), effect, wild);
}

void next(const LapComparison& all, Page& page) {
  page.section("NEXT");
  for (std::size_t at = 0; at < all.clock.judged.size(); ++at)
    page.paragraph(next_text(all, at), 2);
}

}  // namespace

Page compare_page(const LapComparison& compared, Look look, LapsDrawn drawn) {
  Page page(look);
  const std::string letters = letters_of(compared.groups);
  verdict(compared, page);
  effects(compared, letters, page);
  drift(compared, page);
  laps(compared, letters, drawn, page);
  next(compared, page);
  return page;
}

std::string compare_text(const LapComparison& compared, Look look) {
  return compare_page(compared, look).text();
}

}  // namespace kartwright::cli
