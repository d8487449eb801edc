#include "cli/whatif_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace kartwright::cli {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;
constexpr std::size_t kLabelColumns = 24;
constexpr std::size_t kNumberColumns = 8;

std::string label_of(const PaperChange& change) {
  return change.setting != nullptr ? change.setting->adjustment->label : change.definition->label;
}

std::string changes_line(const std::vector<PaperChange>& changes, System units) {
  std::vector<std::string> texts;
  for (const PaperChange& change : changes) {
    texts.push_back(fmt::format("{} {} to {}{}", label_of(change),
                                print_value(change, change.from, units),
                                print_value(change, change.to, units),
                                change.warning.empty() ? "" : " (" + change.warning + ")"));
  }
  return joined(texts, "; ");
}

std::string corner_line(const std::string& track, const CornerClass& corner, const Pack& pack) {
  return fmt::format("{}: {:.2f} g in corners of {:g} m, {:.2f} g at the most",
                     pack.track(track)->label, corner.lateral / kGravity, corner.radius,
                     corner.peak / kGravity);
}

/// A difference with its sign; none where it is printed as nothing.
std::string change_text(double change, int decimals) {
  const double unit = std::pow(10.0, decimals);
  return std::round(change * unit) == 0.0 ? fmt::format("{:.{}f}", 0.0, decimals)
                                          : fmt::format("{:+.{}f}", change, decimals);
}

/// One line of the table: a label, before, after, difference.
void figure_row(Page& page, std::string_view label, double before, double after, int decimals) {
  page.row(left(label, kLabelColumns) +
           right(fmt::format("{:.{}f}", before, decimals), kNumberColumns) +
           right(fmt::format("{:.{}f}", after, decimals), kNumberColumns) +
           right(change_text(after - before, decimals), kNumberColumns));
}

void heading_row(Page& page, std::string_view label) {
  page.row(left(label, kLabelColumns) + right("before", kNumberColumns) +
           right("after", kNumberColumns) + right("change", kNumberColumns));
}

std::string off_text(Contact contact) {
  switch (contact) {
    case Contact::inside_rear_off:
      return "inside rear off the ground";
    case Contact::inside_front_off:
      return "inside front off the ground";
    case Contact::tipping:
      return "both inside wheels off: it tips";
    case Contact::all_four:
      break;
  }
  return "all four on the ground";
}

void contact_line(const PaperSide& before, const PaperSide& after, std::size_t phase, Page& page) {
  const Contact was = before.phases.at(phase).contact;
  const Contact is = after.phases.at(phase).contact;
  if (was == Contact::all_four && is == Contact::all_four) return;
  page.paragraph(was == is ? off_text(is) : off_text(was) + "; then " + off_text(is), 2);
}

void loads_table(const PaperClass& one, const Pack& pack, Page& page) {
  constexpr std::array kPhaseNames{"entry", "middle", "exit"};
  page.section("LOADS");
  page.row(pack.track(one.track)->label + ", left turn, N");
  heading_row(page, "");
  for (std::size_t i = 0; i < kPhaseNames.size(); ++i) {
    const CornerLoads& was = one.before.phases.at(i).loads;
    const CornerLoads& is = one.after.phases.at(i).loads;
    const std::string phase = kPhaseNames.at(i);
    figure_row(page, phase + ", inside front", was.left_front, is.left_front, 1);
    figure_row(page, phase + ", outside front", was.right_front, is.right_front, 1);
    figure_row(page, phase + ", inside rear", was.left_rear, is.left_rear, 1);
    figure_row(page, phase + ", outside rear", was.right_rear, is.right_rear, 1);
    contact_line(one.before, one.after, i, page);
  }
}

void figures_table(const PaperClass& one, Page& page) {
  const Figures& was = one.before.figures;
  const Figures& is = one.after.figures;
  page.section("FIGURES");
  if (was.release && is.release) {
    figure_row(page, "inside rear lets go, g", *was.release / kGravity, *is.release / kGravity, 2);
  }
  figure_row(page, "both inside wheels, g", was.static_stability, is.static_stability, 2);
  figure_row(page, "hop index", std::max(was.hop, 0.0), std::max(is.hop, 0.0), 2);
  figure_row(page, "response, N a degree", was.response * kDegree, is.response * kDegree, 2);
  if (one.before.bar_turns && one.after.bar_turns) {
    figure_row(page, "front bar turns at, g", *one.before.bar_turns / kGravity,
               *one.after.bar_turns / kGravity, 2);
  }
  figure_row(page, "front share, %", 100.0 * one.before.kart.front_share,
             100.0 * one.after.kart.front_share, 2);
  const PatchLine& line = one.before.line;
  const PatchLine& then = one.after.line;
  figure_row(page, "line to the tyre, deg", line.angle / kDegree, then.angle / kDegree, 1);
  figure_row(page, "  upright part, %", 100.0 * line.upright, 100.0 * then.upright, 1);
  figure_row(page, "  sideways part, %", 100.0 * line.sideways, 100.0 * then.sideways, 1);
}

void result(const WhatIf& what, const Pack& pack, System units, Page& page) {
  page.section("RESULT");
  for (const PaperClass& one : what.paper.classes) {
    page.paragraph(fmt::format("{}: {}", pack.track(one.track)->label,
                               load_change(one.before.figures, one.after.figures)),
                   2);
  }
  if (what.equivalent_track) {
    page.paragraph(fmt::format("the mass at its new height tips this kart as a rear track of {} "
                               "would with the mass where it was (it has {})",
                               print_quantity(std::round(1000.0 * *what.equivalent_track) / 1000.0,
                                              Kind::length, units),
                               print_quantity(what.paper.classes.front().after.kart.rear_track,
                                              Kind::length, units)),
                   2);
  }
}

std::string moves_text(const Reported& reported, const Pack& pack) {
  std::vector<std::string> texts;
  for (const auto& [axis, notches] : reported.moves)
    texts.push_back(fmt::format("{} {:+.2g}", pack.axes[axis].label, notches));
  return texts.empty() ? "no rule says what it does on this track" : joined(texts, ", ");
}

void thumb(const WhatIf& what, const Pack& pack, Page& page) {
  page.section("THUMB");
  if (what.reported.empty()) return;
  page.paragraph("crews report, in notches of handling; a rule of thumb, not physics:");
  for (const Reported& reported : what.reported) {
    std::string text = reported.made + ": " + moves_text(reported, pack);
    if (reported.contested) text += " (contested)";
    if (reported.loads == LoadsSay::the_opposite) text += "; the loads say the opposite: test it";
    if (!reported.loads_claim) text += "; the physics here claims nothing of it";
    page.paragraph(text, 2);
  }
}

std::string assumed_label(const std::string& id, const Pack& pack, System units) {
  const MeasureDef* const dimension = pack.dimension(id);
  const MeasureDef& size = dimension != nullptr ? *dimension : *pack.measure(id);
  return fmt::format("{} {}", id, print_quantity(*size.assumed, size.kind, units));
}

void measure_first(const CountsMost& size, const Pack& pack, System units, Page& page) {
  const MeasureDef* const dimension = pack.dimension(size.id);
  const MeasureDef& known = dimension != nullptr ? *dimension : *pack.measure(size.id);
  const auto print = [&](double si) { return print_quantity(si, known.kind, units); };
  page.paragraph(fmt::format("measure first: {}, assumed {}; the change on the outside rear is "
                             "{:+.1f} N where it is {}, {:+.1f} N where it is {}",
                             known.label, print(*known.assumed), size.at_low, print(size.low),
                             size.at_high, print(size.high)),
                 2);
}

void assumed(const std::vector<std::string>& ids, const Pack& pack, System units, Page& page) {
  page.section("ASSUMED");
  if (ids.empty()) return;
  std::vector<std::string> labels;
  for (const std::string& id : ids) labels.push_back(assumed_label(id, pack, units));
  page.paragraph("not in the kart file (give them under `dimensions`): " + joined(labels, ", "), 2);
}

void basis(Page& page) {
  page.section("BASIS");
  page.paragraph(
      "Loads, release and tipping are physics of a kart in a steady corner. The edges of the hop "
      "index (0.1 slight, 0.4 strong) are not calibrated. Axle grade, hubs, toe, camber, struts "
      "and pressures stay rules of thumb. Once the inside rear is off the ground, only mass, its "
      "place and the tracks count.");
}

/// A bar between the least and the most of a column.
std::string bar_of(double value, double least, double most, std::size_t width, bool unicode) {
  const double share = most > least ? (value - least) / (most - least) : 0.0;
  const auto cells =
      1 + static_cast<std::size_t>(std::lround(share * static_cast<double>(width - 1)));
  std::string bar;
  for (std::size_t i = 0; i < cells; ++i) bar += unicode ? "━" : "=";
  return bar;
}

void sweep_table(const Sweep& sweep, System units, Page& page) {
  const auto by_load = [](const SweepRow& a, const SweepRow& b) {
    return a.figures.outside_rear < b.figures.outside_rear;
  };
  const auto [least, most] = std::minmax_element(sweep.rows.begin(), sweep.rows.end(), by_load);
  constexpr std::size_t kFixed = 11 + 8 + 8 + 6 + 7 + 2;
  const std::size_t width = page.room() > kFixed + 4 ? page.room() - kFixed : 4;
  page.row(left("", 11) + right("outside", 8) + right("inside", 8) + right("lets", 6) +
           right("hop", 7));
  page.row(left("", 11) + right("rear N", 8) + right("rear N", 8) + right("go g", 6) +
           right("index", 7));
  for (const SweepRow& row : sweep.rows) {
    const Figures& f = row.figures;
    page.row(left(print_value(row.change, row.change.to, units), 11) +
             right(fmt::format("{:.1f}", f.outside_rear), 8) +
             right(fmt::format("{:.1f}", f.inside_rear), 8) +
             right(f.release ? fmt::format("{:.2f}", *f.release / kGravity) : "-", 6) +
             right(fmt::format("{:.2f}", std::max(f.hop, 0.0)), 7) + "  " +
             bar_of(f.outside_rear, least->figures.outside_rear, most->figures.outside_rear, width,
                    page.look().unicode));
  }
}

}  // namespace

std::string whatif_text(const WhatIf& what, const Kart& kart, const Pack& pack, System units,
                        Look look) {
  Page page(look);
  page.section("ON PAPER");
  page.paragraph(kart.name + ": " + changes_line(what.paper.changes, units), 2);
  for (const PaperClass& one : what.paper.classes)
    page.paragraph(corner_line(one.track, one.corner, pack), 2);
  result(what, pack, units, page);
  for (const PaperClass& one : what.paper.classes) {
    loads_table(one, pack, page);
    figures_table(one, page);
  }
  thumb(what, pack, page);
  assumed(what.paper.assumed, pack, units, page);
  if (what.counts_most) measure_first(*what.counts_most, pack, units, page);
  basis(page);
  page.section("CARE");
  page.paragraph(pack.caution("last-word") != nullptr ? pack.caution("last-word")->text : "");
  return page.text();
}

std::string sweep_text(const std::vector<Sweep>& sweeps, const Kart& kart, const Pack& pack,
                       System units, Look look) {
  Page page(look);
  page.section("SWEEP");
  page.paragraph(kart.name + ": " + label_of(sweeps.front().rows.front().change) +
                 ", the load on the outside rear drawn from its least to its most");
  if (!moves_loads(sweeps.front().rows.front().change))
    page.paragraph(
        "the physics here claims nothing of it: what crews report stays a rule of thumb");
  for (const Sweep& sweep : sweeps) {
    page.section("LOADS");
    page.paragraph(corner_line(sweep.track, sweep.corner, pack), 2);
    sweep_table(sweep, units, page);
  }
  assumed(sweeps.front().assumed, pack, units, page);
  return page.text();
}

}  // namespace kartwright::cli
