#include "cli/whatif_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "engine/chassis/load_measures.h"

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

bool is_wide(const Page& page) { return page.room() >= kLabelColumns + 3 * kNumberColumns; }

/// One line of the table; a sentence where that has no room.
void figure_row(Page& page, const PaperRow& row) {
  const int decimals = row.decimals;
  const std::string change = change_text(row.after - row.before, decimals);
  if (!is_wide(page)) {
    page.paragraph(fmt::format("{} {:.{}f} to {:.{}f}, {}", row.label, row.before, decimals,
                               row.after, decimals, change),
                   2);
  } else {
    page.row(left(row.label, kLabelColumns) +
             right(fmt::format("{:.{}f}", row.before, decimals), kNumberColumns) +
             right(fmt::format("{:.{}f}", row.after, decimals), kNumberColumns) +
             right(change, kNumberColumns));
  }
  if (!row.note.empty()) page.paragraph(row.note, 2);
}

void heading_row(Page& page, std::string_view label) {
  if (!is_wide(page)) return;
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

/// Which wheels are off the ground before and after; empty where none is.
std::string contact_text(const PaperClass& one, std::size_t phase) {
  const Contact was = one.before.phases.at(phase).contact;
  const Contact is = one.after.phases.at(phase).contact;
  if (was == Contact::all_four && is == Contact::all_four) return "";
  return was == is ? off_text(is) : off_text(was) + "; then " + off_text(is);
}

void loads_table(const PaperClass& one, const Pack& pack, Page& page) {
  page.section("LOADS");
  page.row(pack.track(one.track)->label + ", left turn, N");
  heading_row(page, "");
  for (const PaperRow& row : load_rows(one)) figure_row(page, row);
}

void figures_table(const PaperClass& one, Page& page) {
  page.section("FIGURES");
  for (const PaperRow& row : figure_rows(one)) figure_row(page, row);
}

/// What a class of track comes to: the loads, who is off the ground, what its corners cannot reach.
std::string class_result(const PaperClass& one) {
  const Figures& is = one.after.figures;
  std::string text = load_change(one.before.figures, is);
  if (is.release && *is.release > one.corner.peak) {
    text += fmt::format("; this track has {:.2f} g at the most, so it does not let go here",
                        one.corner.peak / kGravity);
  }
  const Contact contact = one.after.phases[1].contact;
  if (contact == Contact::tipping || contact == Contact::inside_front_off)
    text += "; in the middle " + off_text(contact);
  if (one.right && one.right_after)
    text += "; in right turns " + load_change(*one.right, *one.right_after);
  return text;
}

bool any_moves_loads(const std::vector<PaperChange>& changes) {
  return std::any_of(changes.begin(), changes.end(),
                     [](const PaperChange& change) { return moves_loads(change); });
}

void care(const std::vector<std::string_view>& cautions, Page& page) {
  page.section("CARE");
  for (const std::string_view text : cautions) page.paragraph(text, 2);
}

void result(const WhatIf& what, const Pack& pack, System units, Page& page) {
  page.section("RESULT");
  for (const PaperClass& one : what.paper.classes) {
    page.paragraph(fmt::format("{}: {}", pack.track(one.track)->label, class_result(one)), 2);
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

std::string assumed_label(std::string_view id, const Pack& pack, System units) {
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

void assumed(const std::vector<std::string_view>& ids, const Pack& pack, System units, Page& page) {
  page.section("ASSUMED");
  if (ids.empty()) return;
  std::vector<std::string> labels;
  for (const std::string_view id : ids) labels.push_back(assumed_label(id, pack, units));
  page.paragraph("not in the kart file (give them under `dimensions`): " + joined(labels, ", "), 2);
}

void basis(const Pack& pack, Page& page) {
  page.section("BASIS");
  page.paragraph(
      "Loads, release and tipping are physics of a kart in a steady corner. Axle grade, hubs, toe, "
      "camber, struts and pressures stay rules of thumb. Once the inside rear is off the ground, "
      "only mass, its place and the tracks count.",
      2);
  for (const QuantityPage& each : pack.quantities) {
    if (each.id == load_measures::kHop) page.paragraph(each.label + ": " + each.limits, 2);
  }
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

void sweep_legend(const Sweep& sweep, Page& page) {
  std::vector<std::string> texts;
  const auto any = [&](auto test) {
    return std::any_of(sweep.rows.begin(), sweep.rows.end(), test);
  };
  if (any([](const SweepRow& row) { return !row.change.warning.empty(); }))
    texts.emplace_back("! beyond what this kart or its class allows");
  if (any([](const SweepRow& row) { return row.middle.contact == Contact::inside_rear_off; }))
    texts.emplace_back("^ " + off_text(Contact::inside_rear_off) + " in the middle");
  if (any([](const SweepRow& row) { return row.middle.contact == Contact::tipping; }))
    texts.emplace_back("^^ " + off_text(Contact::tipping));
  if (!texts.empty()) page.paragraph(joined(texts, "; "), 2);
}

/// A row each, with a bar where there is room for one; sentences where there is none for rows.
void sweep_table(const Sweep& sweep, System units, Page& page) {
  const auto by_load = [](const SweepRow& a, const SweepRow& b) {
    return a.middle.loads.right_rear < b.middle.loads.right_rear;
  };
  const auto [least, most] = std::minmax_element(sweep.rows.begin(), sweep.rows.end(), by_load);
  constexpr std::size_t kFixed = 11 + 8 + 8 + 6 + 7 + 4;
  const bool wide = page.room() >= kFixed + 4;
  const std::size_t width = wide ? page.room() - kFixed : 0;
  if (wide) {
    page.row(left("", 11) + right("outside", 8) + right("inside", 8) + right("lets", 6) +
             right("hop", 7));
    page.row(left("", 11) + right("rear N", 8) + right("rear N", 8) + right("go g", 6) +
             right("index", 7));
  }
  for (const SweepRow& row : sweep.rows) {
    const std::string place = print_value(row.change, row.change.to, units);
    const CornerLoads& on = row.middle.loads;
    const double hop = std::max(row.figures.hop, 0.0);
    if (!wide) {
      page.paragraph(
          fmt::format("{}{}: outside {:.1f} N, inside {:.1f} N, lets go {} g, hop {:.2f}", place,
                      marks_of(row), on.right_rear, on.left_rear, release_text(row.figures), hop),
          2);
      continue;
    }
    page.row(left(place, 11) + right(fmt::format("{:.1f}", on.right_rear), 8) +
             right(fmt::format("{:.1f}", on.left_rear), 8) + right(release_text(row.figures), 6) +
             right(fmt::format("{:.2f}", hop), 7) + " " + left(marks_of(row), 3) +
             bar_of(on.right_rear, least->middle.loads.right_rear, most->middle.loads.right_rear,
                    width, page.look().unicode));
  }
  sweep_legend(sweep, page);
}

}  // namespace

std::string corner_line(const std::string& track, const CornerClass& corner, const Pack& pack) {
  return fmt::format("{}: {:.2f} g in corners of {:g} m, {:.2f} g at the most",
                     pack.track(track)->label, corner.lateral / kGravity, corner.radius,
                     corner.peak / kGravity);
}

std::string change_text(double change, int decimals) {
  const double unit = std::pow(10.0, decimals);
  return std::round(change * unit) == 0.0 ? fmt::format("{:.{}f}", 0.0, decimals)
                                          : fmt::format("{:+.{}f}", change, decimals);
}

std::string release_text(const Figures& figures) {
  return figures.release ? fmt::format("{:.2f}", *figures.release / kGravity) : "-";
}

std::string marks_of(const SweepRow& row) {
  std::string marks;
  if (!row.change.warning.empty()) marks += "!";
  if (row.middle.contact == Contact::tipping) return marks + "^^";
  return row.middle.contact == Contact::inside_rear_off ? marks + "^" : marks;
}

std::vector<PaperRow> load_rows(const PaperClass& one) {
  constexpr std::array kPhaseNames{"entry", "middle", "exit"};
  std::vector<PaperRow> rows;
  for (std::size_t i = 0; i < kPhaseNames.size(); ++i) {
    const CornerLoads& was = one.before.phases.at(i).loads;
    const CornerLoads& is = one.after.phases.at(i).loads;
    const std::string phase = kPhaseNames.at(i);
    rows.push_back({phase + ", inside front", was.left_front, is.left_front});
    rows.push_back({phase + ", outside front", was.right_front, is.right_front});
    rows.push_back({phase + ", inside rear", was.left_rear, is.left_rear});
    rows.push_back(
        {phase + ", outside rear", was.right_rear, is.right_rear, 1, contact_text(one, i)});
  }
  return rows;
}

std::vector<PaperRow> figure_rows(const PaperClass& one) {
  const Figures& was = one.before.figures;
  const Figures& is = one.after.figures;
  std::vector<PaperRow> rows;
  if (was.release && is.release)
    rows.push_back({"inside rear lets go, g", *was.release / kGravity, *is.release / kGravity, 2});
  rows.push_back({"both inside wheels, g", was.static_stability, is.static_stability, 2});
  rows.push_back({"hop index", std::max(was.hop, 0.0), std::max(is.hop, 0.0), 2});
  rows.push_back({"response, N a degree", was.response * kDegree, is.response * kDegree, 2});
  if (one.before.bar_turns && one.after.bar_turns) {
    rows.push_back({"front bar turns at, g", *one.before.bar_turns / kGravity,
                    *one.after.bar_turns / kGravity, 2});
  }
  rows.push_back({"front share, %", 100.0 * one.before.kart.front_share,
                  100.0 * one.after.kart.front_share, 2});
  const PatchLine& line = one.before.line;
  const PatchLine& then = one.after.line;
  rows.push_back({"line to the tyre, deg", line.angle / kDegree, then.angle / kDegree, 1});
  rows.push_back({"  upright part, %", 100.0 * line.upright, 100.0 * then.upright, 1});
  rows.push_back({"  sideways part, %", 100.0 * line.sideways, 100.0 * then.sideways, 1});
  return rows;
}

Page whatif_page(const WhatIf& what, const Kart& kart, const Pack& pack, System units, Look look) {
  Page page(look);
  page.section("ON PAPER");
  page.paragraph(kart.name + ": " + changes_line(what.paper.changes, units), 2);
  for (const PaperClass& one : what.paper.classes)
    page.paragraph(corner_line(one.track, one.corner, pack), 2);
  result(what, pack, units, page);
  if (any_moves_loads(what.paper.changes)) {
    for (const PaperClass& one : what.paper.classes) {
      loads_table(one, pack, page);
      figures_table(one, page);
    }
  }
  thumb(what, pack, page);
  assumed(what.paper.assumed, pack, units, page);
  if (what.counts_most) measure_first(*what.counts_most, pack, units, page);
  basis(pack, page);
  care(what.cautions, page);
  return page;
}

std::string whatif_text(const WhatIf& what, const Kart& kart, const Pack& pack, System units,
                        Look look) {
  return whatif_page(what, kart, pack, units, look).text();
}

Page sweep_page(const std::vector<Sweep>& sweeps, const Kart& kart, const Pack& pack, System units,
                Look look) {
  Page page(look);
  const PaperChange& swept = sweeps.front().rows.front().change;
  page.section("SWEEP");
  page.paragraph(kart.name + ": " + label_of(swept) +
                 ", the load on the outside rear drawn from its least to its most");
  if (!moves_loads(swept))
    page.paragraph(
        "the physics here claims nothing of it: what crews report stays a rule of thumb");
  for (const Sweep& sweep : sweeps) {
    page.section("LOADS");
    page.paragraph(corner_line(sweep.track, sweep.corner, pack), 2);
    sweep_table(sweep, units, page);
  }
  assumed(sweeps.front().assumed, pack, units, page);
  basis(pack, page);
  care(paper_cautions({swept}, pack), page);
  return page;
}

std::string sweep_text(const std::vector<Sweep>& sweeps, const Kart& kart, const Pack& pack,
                       System units, Look look) {
  return sweep_page(sweeps, kart, pack, units, look).text();
}

}  // namespace kartwright::cli
