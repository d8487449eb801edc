#include "cli/plan_text.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/advice_text.h"

namespace kartwright::cli {
namespace {

long percent(double share) { return std::lround(100.0 * share); }

/// What the plan goes out from, where anything was said.
void heard(const Debrief& debrief, const Pack& pack, Page& page) {
  page.section("HEARD");
  for (const Report& report : debrief.heard.reports) page.paragraph(report_line(report, pack), 2);
  for (const StatedFact& fact : debrief.heard.facts)
    page.paragraph(pack.fact(fact.fact)->label + ": " + fact.value, 2);
  for (const NotUnderstood& left : debrief.heard.not_understood)
    page.paragraph(left_over_line(left), 2);
}

/// What must be looked at or asked before a plan is worth anything.
void before_all(const Day& day, Page& page) {
  page.section("FIRST");
  const Tint tint = day.stops_the_kart.empty() ? Tint::none : Tint::stop;
  if (!day.before_all.empty()) page.paragraph(day.before_all, 0, tint);
  for (const FaultOdds& odds : day.stops_the_kart) {
    page.paragraph(fmt::format("{}, {:.0f} %, {:g} min: {}", odds.fault->label,
                               100.0 * odds.probability, odds.fault->minutes, odds.fault->check),
                   2, tint);
    page.paragraph("if so: " + odds.fault->fix, 2);
  }
}

void heading(const Day& day, Page& page) {
  page.section("PLAN");
  std::string numbers = "by the rules";
  if (day.runs_in_log > 0) numbers = fmt::format("with {} runs of its log", day.runs_in_log);
  page.paragraph(fmt::format("{}, {} stage{}, {}", day.kart, day.stops.size(),
                             day.stops.size() == 1 ? "" : "s", numbers));
  if (day.movers.empty()) {
    page.paragraph("leave it as it stands: no change pays for its minutes on this day");
  } else {
    page.paragraph(fmt::format("leaves {} % of the handling error that it would have untouched",
                               percent(day.left)));
  }
  const std::string within =
      fmt::format("up to {} adjustments in all, {} at a stop", day.most_levers, day.changes);
  page.paragraph(
      day.short_of_best == 0.0
          ? "the best of all plans that move " + within
          : fmt::format("the search was ended early: no plan that moves {} is better by more "
                        "than {:.1f} points",
                        within, day.short_of_best));
  for (const std::string& note : day.notes) page.paragraph("(" + note + ")", 1);
}

/// A column of the table, as wide as its widest text.
using Column = std::vector<std::string>;

std::size_t widest_of(const Column& column) {
  std::size_t widest = 0;
  for (const std::string& each : column) widest = std::max(widest, columns(each));
  return widest;
}

/// Words stand on the left of a column, figures on the right.
void table(const std::vector<Column>& all, std::size_t figures, Page& page) {
  for (std::size_t row = 0; row < all.front().size(); ++row) {
    std::string text;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const std::size_t width = widest_of(all[i]);
      const bool figure = i + figures >= all.size();
      if (i > 0) text += "  ";
      text += figure ? right(all[i][row], width) : left(all[i][row], width);
    }
    page.row(text);
  }
}

std::size_t width_of(const std::vector<Column>& all) {
  std::size_t width = 2 * (all.size() - 1);
  for (const Column& column : all) width += widest_of(column);
  return width;
}

std::vector<Column> day_columns(const Day& day, bool with_errors) {
  std::vector<Column> all(1 + day.movers.size());
  all[0] = {"stage", "as it stands"};
  for (std::size_t i = 0; i < day.movers.size(); ++i)
    all[i + 1] = {day.movers[i]->label, day.stands[i]};
  Column untouched{"as is", ""}, left{"plan", ""};
  for (std::size_t row = 0; row < day.stops.size(); ++row) {
    all[0].push_back(day.stops[row].stage->label);
    const std::vector<std::string> told = settings_told(day, row);
    for (std::size_t i = 0; i < told.size(); ++i) all[i + 1].push_back(told[i]);
    untouched.push_back(fmt::format("{} %", percent(day.stops[row].untouched)));
    left.push_back(fmt::format("{} %", percent(day.stops[row].left)));
  }
  if (with_errors) {
    all.push_back(untouched);
    all.push_back(left);
  }
  return all;
}

constexpr const char* kLegend =
    "as is, plan: the handling error, in per cent of what the kart as it stands has on the mean of "
    "the day";

/// The last two columns by themselves.
void errors_by_stage(const Day& day, Page& page) {
  const std::vector<Column> whole = day_columns(day, true);
  std::vector<Column> errors{whole.front(), whole[whole.size() - 2], whole.back()};
  for (Column& column : errors) column.erase(column.begin() + 1);
  table(errors, 2, page);
  page.paragraph(kLegend);
}

/// The day as a table; on a narrow page first without the errors, then a line a setting.
void day_table(const Day& day, Page& page) {
  page.section("DAY");
  const std::vector<Column> whole = day_columns(day, true);
  if (width_of(whole) <= page.room()) {
    table(whole, 2, page);
    page.paragraph(std::string(kLegend) + "; · stays");
    return;
  }
  const std::vector<Column> settings = day_columns(day, false);
  if (width_of(settings) <= page.room()) {
    table(settings, 0, page);
    errors_by_stage(day, page);
    return;
  }
  page.paragraph("as it stands");
  for (std::size_t i = 0; i < day.movers.size(); ++i)
    page.indented(day.movers[i]->label + " " + day.stands[i], 2, 2);
  for (const DayStop& stop : day.stops) {
    page.paragraph(stop.stage->label);
    for (std::size_t i = 0; i < day.movers.size(); ++i)
      page.indented(day.movers[i]->label + " " + stop.settings[i], 2, 2);
  }
  errors_by_stage(day, page);
}

std::string move_text(const DayMove& move) {
  return fmt::format("{}, {} → {}", move.phrase(), move.from, move.to);
}

/// One line a change, in the order to make them.
void stop_lines(const DayStop& stop, const std::string& when, Page& page) {
  page.paragraph(fmt::format("{}: {:g} min, to {} % (as is {} %)", when, stop.minutes,
                             percent(stop.left), percent(stop.untouched)));
  for (std::size_t i = 0; i < stop.moves.size(); ++i) {
    const DayMove& move = stop.moves[i];
    std::string text = fmt::format("{}. {} ({:g} min)", i + 1, move_text(move), move.minutes);
    const bool shares = move.minutes < move.adjustment->minutes;
    if (shares)
      text = fmt::format("{}. {} ({:g} min more on the same stand)", i + 1, move_text(move),
                         move.minutes);
    const double before = i == 0 ? -1.0 : stop.moves[i - 1].left;
    if (before >= 0.0 && move.left > before) text += ", for the stages to come";
    page.indented(text, 2, 3);
  }
}

void stops(const Day& day, Page& page) {
  page.section("STOPS");
  for (std::size_t k = 0; k < day.stops.size(); ++k) {
    const DayStop& stop = day.stops[k];
    if (stop.moves.empty()) continue;
    stop_lines(stop,
               k == 0 ? (day.at_the_bench ? "at the start, " : "now, ") + stop.stage->label
                      : stop.stage->label,
               page);
  }
}

std::string_view why_no_further(Refusal reason) {
  if (reason == Refusal::class_limit) return "the class allows no more";
  if (reason == Refusal::no_part) return "the part for more is not in the box";
  return "it goes no further";
}

void where_it_runs_out(const Day& day, Page& page) {
  page.section("RUNS OUT");
  for (const RunsOut& each : day.runs_out) {
    std::string text = fmt::format("{}: {} stands at {}, {}, and {} is wanted", each.stage->label,
                                   each.adjustment->label, each.at, why_no_further(each.reason),
                                   each.adjustment->directions.at(each.direction));
    if (each.takes_over) {
      text += fmt::format("; {}, takes over{}", move_text(*each.takes_over),
                          each.by_plan ? "" : ", if a stop is worth it");
    } else {
      text += "; nothing here takes over";
    }
    page.paragraph(text, 2);
  }
}

void looking_ahead(const Day& day, Page& page) {
  page.section("AHEAD");
  if (!day.gain_of_looking_ahead) return;
  const std::string now = day.start_looking_at_now.empty()
                              ? "leave the kart as it stands"
                              : "start at " + joined(day.start_looking_at_now, ", ");
  page.paragraph(
      fmt::format("for {} alone: {}. Over the day the start above is better by {:.1f} points",
                  day.stops.front().stage->label, now, *day.gain_of_looking_ahead),
      2);
}

void if_the_day_goes_otherwise(const Day& day, Page& page) {
  for (const DayReply& reply : day.replies) {
    page.section(reply.early ? "EARLY" : "NEVER");
    page.paragraph(reply.early ? "if the rubber comes one stage early, from the same start:"
                               : "if the rubber never comes, from the same start:");
    std::size_t moves = 0;
    for (const DayStop& stop : reply.stops) {
      if (stop.moves.empty()) continue;
      stop_lines(stop, stop.stage->label, page);
      moves += stop.moves.size();
    }
    if (moves == 0) page.indented("leave it there", 2);
    std::string sum = fmt::format("leaves {} % of what it would have untouched on such a day",
                                  percent(reply.left));
    constexpr double kFelt = 0.5;
    if (reply.regret >= kFelt)
      sum += fmt::format("; a start made for such a day would be better by {:.1f} points",
                         reply.regret);
    page.paragraph(sum, 2);
  }
}

void care(const Day& day, Page& page) {
  page.section("CARE");
  for (const std::string_view caution : day.cautions) page.paragraph(caution, 2);
}

}  // namespace

std::vector<std::string> settings_told(const Day& day, std::size_t stage) {
  std::vector<std::string> told = day.stops[stage].settings;
  for (std::size_t i = 0; stage > 0 && i < told.size(); ++i)
    if (told[i] == day.stops[stage - 1].settings[i]) told[i] = "·";
  return told;
}

Page plan_page(const Day& day, const Debrief& debrief, const Pack& pack, Look look) {
  Page page(look);
  heard(debrief, pack, page);
  before_all(day, page);
  heading(day, page);
  day_table(day, page);
  if (!day.movers.empty()) stops(day, page);
  where_it_runs_out(day, page);
  looking_ahead(day, page);
  if_the_day_goes_otherwise(day, page);
  care(day, page);
  return page;
}

std::string plan_text(const Day& day, const Debrief& debrief, const Pack& pack, Look look) {
  return plan_page(day, debrief, pack, look).text();
}

}  // namespace kartwright::cli
