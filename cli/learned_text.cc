#include "cli/learned_text.h"

#include <algorithm>

#include <fmt/format.h>

namespace kartwright::cli {
namespace {

std::string words_of(Agreement agreement) {
  switch (agreement) {
    case Agreement::too_few:
      return "too few to say";
    case Agreement::agrees:
      return "agrees";
    case Agreement::differs:
      return "differs";
    case Agreement::contradicted:
      return "CONTRADICTED";
  }
  return {};
}

std::string spread(double mean, double sd) { return fmt::format("{:+.2f} ± {:.2f}", mean, sd); }

std::vector<std::size_t> widths_of(const std::vector<LearnedRow>& rows) {
  std::vector<std::size_t> widths(6, 0);
  for (const LearnedRow& row : rows) {
    std::size_t i = 0;
    for (const std::string* const text :
         {&row.move, &row.axis, &row.rule, &row.learned, &row.runs, &row.agreement}) {
      widths[i] = std::max(widths[i], columns(*text));
      ++i;
    }
  }
  return widths;
}

/// The table in one line a row where that fits, else what it is told by on a line of its own.
void table(const Learned& learned, const Pack& pack, Page& page) {
  std::vector<LearnedRow> rows{{"a step of", "", "by the rules", "with the log", "runs", ""}};
  for (const LearnedAdjustment& each : learned.adjustments)
    rows.push_back(learned_row_of(each, pack));
  const std::vector<std::size_t> w = widths_of(rows);
  const std::size_t whole = w[0] + w[1] + w[2] + w[3] + w[4] + w[5] + 7;
  const bool wide = whole <= page.room();
  for (const LearnedRow& row : rows) {
    const std::string figures = fmt::format("{}  {}  {}", right(row.rule, w[2]),
                                            right(row.learned, w[3]), right(row.runs, w[4]));
    if (wide) {
      page.row(fmt::format("{} {} {} {}", left(row.move, w[0]), left(row.axis, w[1]), figures,
                           row.agreement));
      continue;
    }
    page.row(row.axis.empty() ? row.move : row.move + ", " + row.axis);
    page.row("  " + figures + " " + row.agreement);
  }
}

void contradictions(const Learned& learned, const Pack& pack, Page& page) {
  page.section("AGAINST");
  for (const LearnedAdjustment& each : learned.adjustments) {
    for (const std::size_t axis : each.contradicted) {
      const auto i = static_cast<Eigen::Index>(axis);
      page.paragraph(
          fmt::format("{}: on this kart {} goes the other way than the rules say, {} a step and "
                      "not {:+.2f}, sure at 95 %",
                      each.adjustment->phrases[0], pack.axes[axis].label,
                      spread(each.learned[i], each.sd[i]), each.rule[i]),
          2, Tint::stop);
    }
  }
}

/// What stands between a change and what came of it.
void guards(const Learned& learned, Page& page) {
  page.section("MIND");
  for (const LearnedAdjustment& each : learned.adjustments) {
    std::vector<std::string> texts;
    if (each.with_others > 0)
      texts.push_back(fmt::format("{} with another change", each.with_others));
    if (each.track_moved > 0)
      texts.push_back(fmt::format("{} as the track moved on", each.track_moved));
    if (each.tyres_changed > 0)
      texts.push_back(fmt::format("{} with other tyres", each.tyres_changed));
    if (!texts.empty())
      page.paragraph(fmt::format("{}: of {} runs {}; they count for less", each.adjustment->label,
                                 each.runs, joined(texts, ", ")),
                     2);
  }
}

std::string share_of(double part, double whole) {
  return whole > 0.0 ? fmt::format(" ({:.0f} %)", 100.0 * part / whole) : "";
}

void calibration(const Calibration& all, Page& page) {
  page.section("PROMISED");
  std::string text =
      fmt::format("{} differences between debriefs, each foretold from the days before it:",
                  all.intervals.front().of);
  for (const Held& held : all.intervals) {
    text += fmt::format("{} {:.0f}{} came where {:.0f} % should",
                        &held == &all.intervals.front() ? "" : ",", held.held,
                        share_of(held.held, held.of), 100.0 * held.promised);
  }
  page.paragraph(text, 2);
  page.paragraph(fmt::format("the strongest complaint, where the change should ease it: eased {}, "
                             "the same {}, worse {}",
                             all.eased, all.same, all.worse),
                 2);
  if (all.advised == 0) return page.paragraph("no change by advice is in the log yet", 2);
  page.paragraph(
      fmt::format("{} changes by advice: the clock says faster {}, slower {}, not settled "
                  "{}",
                  all.advised, all.faster, all.slower, all.not_settled),
      2);
  page.paragraph(
      fmt::format(
          "they promised {:.0f} % less of the handling error; in the debriefs the squares of "
          "the severities went from {:g} to {:g}{}",
          100.0 * all.promised_share, all.squares_before, all.squares_after,
          share_of(all.squares_after - all.squares_before, all.squares_before)),
      2);
}

}  // namespace

LearnedRow learned_row_of(const LearnedAdjustment& each, const Pack& pack) {
  const auto axis = static_cast<Eigen::Index>(each.axis);
  return {each.adjustment->phrases[0],
          pack.axes[each.axis].label,
          spread(each.rule[axis], each.rule_sd[axis]),
          spread(each.learned[axis], each.sd[axis]),
          std::to_string(each.runs),
          words_of(each.agreement)};
}

Page learned_page(const Learned& learned, const Pack& pack, Look look) {
  Page page(look);
  page.section("LEARNED");
  const std::string track = learned.track == "unknown" ? "" : ", on a " + learned.track + " track";
  page.paragraph(fmt::format("{}, {} runs{}; notches a step, told where the rules are surest",
                             learned.kart, learned.runs, track));
  if (learned.adjustments.empty()) {
    page.paragraph("no change stands between two runs of one day with a debrief each");
  } else {
    table(learned, pack, page);
  }
  contradictions(learned, pack, page);
  guards(learned, page);
  if (learned.calibration) calibration(*learned.calibration, page);
  return page;
}

std::string learned_text(const Learned& learned, const Pack& pack, Look look) {
  return learned_page(learned, pack, look).text();
}

}  // namespace kartwright::cli
