#include "cli/sheet/whatif_sheet.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "cli/sheet/kart_picture.h"
#include "cli/sheet/loads_picture.h"
#include "cli/sheet/sheet.h"
#include "cli/whatif_text.h"

namespace kartwright::cli {
namespace {

SheetTable figures_as_table(const std::vector<PaperRow>& rows, std::string_view caption) {
  SheetTable table{.caption = std::string(caption),
                   .head = {"", "before", "after", "change"},
                   .rows = {},
                   .figures = {false, true, true, true}};
  for (const PaperRow& row : rows) {
    table.rows.push_back({words(row.label), words(fmt::format("{:.{}f}", row.before, row.decimals)),
                          words(fmt::format("{:.{}f}", row.after, row.decimals)),
                          words(change_text(row.after - row.before, row.decimals))});
  }
  return table;
}

/// The rows with what is said below them.
Markup table_with_notes(const std::vector<PaperRow>& rows, std::string_view caption) {
  Markup out = table_of(figures_as_table(rows, caption));
  for (const PaperRow& row : rows)
    if (!row.note.empty()) out += element("p", words(row.label + ": " + row.note));
  return out;
}

void class_pictures(Sheet& sheet, const WhatIf& what, std::size_t i, const Pack& pack,
                    System units) {
  const PaperClass& one = what.paper.classes[i];
  const std::string base = fmt::format("/classes/{}", i);
  const LoadsView view{.where = "in the middle of a left turn",
                       .before = &one.before,
                       .after = &one.after,
                       .phase = 1,
                       .front_tyre_width = what.front_tyre_width,
                       .rear_tyre_width = what.rear_tyre_width,
                       .json_before = base + "/before/mid",
                       .json_after = base + "/after/mid",
                       .units = units};
  sheet.picture(loads_picture(view), "Loads in the middle of a left turn, before and after: " +
                                         corner_line(one.track, one.corner, pack) + ".");
  if (i == 0)
    sheet.picture(line_picture(view, base + "/before", base + "/after"), line_caption(true));
}

/// One curve of a sweep.
struct Curve {
  const char* label;
  const char* json;  ///< of the value in a row
  const char* style;
  double (*load)(const SweepRow&);
};

double outside_of(const SweepRow& row) { return row.middle.loads.right_rear; }
double inside_of(const SweepRow& row) { return row.middle.loads.left_rear; }

constexpr std::array kCurves{Curve{"outside rear", "middle/loads/rr", "is", outside_of},
                             Curve{"inside rear", "middle/loads/rl", "mark", inside_of}};

struct SweepScale {
  double least = 0, most = 0;
  std::size_t rows = 0;
  double x(std::size_t i) const {
    return 56.0 + 208.0 * static_cast<double>(i) / std::max(1.0, static_cast<double>(rows) - 1.0);
  }
  double y(double load) const {
    return 128.0 - 104.0 * (load - least) / std::max(most - least, 1e-9);
  }
};

SweepScale scale_of(const Sweep& sweep) {
  SweepScale scale{.least = 0.0, .most = 0.0, .rows = sweep.rows.size()};
  for (const SweepRow& row : sweep.rows)
    for (const Curve& curve : kCurves) scale.most = std::max(scale.most, curve.load(row));
  return scale;
}

/// The loads of both rear wheels over the places, with the figures at both ends.
Picture sweep_picture(const Sweep& sweep, std::size_t index, System units) {
  const SweepScale scale = scale_of(sweep);
  Drawing drawing(162.0);
  std::string in_words = "Loads of the rear wheels in the middle of a left turn:";
  drawing.line({scale.x(0), scale.y(0.0)}, {scale.x(scale.rows - 1), scale.y(0.0)}, "axis");
  for (const Curve& curve : kCurves) {
    std::vector<Point> points;
    for (std::size_t i = 0; i < sweep.rows.size(); ++i)
      points.push_back({scale.x(i), scale.y(curve.load(sweep.rows[i]))});
    drawing.path(points, curve.style);
    drawing.words({160.0, points[points.size() / 2].y - 6.0}, curve.label, Anchor::middle, "small");
    const std::size_t last = sweep.rows.size() - 1;
    for (const std::size_t i : {std::size_t{0}, last}) {
      const std::string text = force_text(curve.load(sweep.rows[i]), units);
      drawing.figure({i == 0 ? 50.0 : 270.0, points[i].y + 4.0}, text,
                     fmt::format("/sweeps/{}/rows/{}/{}", index, i, curve.json),
                     i == 0 ? Anchor::end : Anchor::start);
      in_words += fmt::format(" {} {} at {};", curve.label, text,
                              print_value(sweep.rows[i].change, sweep.rows[i].change.to, units));
    }
  }
  const auto place = [&](std::size_t i) {
    return print_value(sweep.rows[i].change, sweep.rows[i].change.to, units);
  };
  drawing.words({scale.x(0), 146.0}, place(0), Anchor::middle, "soft");
  drawing.words({scale.x(scale.rows - 1), 146.0}, place(scale.rows - 1), Anchor::middle, "soft");
  in_words.back() = '.';
  return drawing.picture(in_words);
}

Markup sweep_rows(const Sweep& sweep, System units) {
  SheetTable table{.caption = {},
                   .head = {"place", "outside rear", "inside rear", "lets go, g", "hop index", ""},
                   .rows = {},
                   .figures = {false, true, true, true, true, false}};
  for (const SweepRow& row : sweep.rows) {
    table.rows.push_back(
        {words(print_value(row.change, row.change.to, units)),
         words(force_text(outside_of(row), units)), words(force_text(inside_of(row), units)),
         words(release_text(row.figures)),
         words(fmt::format("{:.2f}", std::max(row.figures.hop, 0.0))), words(marks_of(row))});
  }
  return table_of(table);
}

}  // namespace

std::string whatif_sheet(const WhatIf& what, const Kart& kart, const Pack& pack, System units) {
  Sheet sheet("On paper", kart.name);
  std::size_t loads = 0;
  std::size_t figures = 0;
  bool pictured = false;
  for (const PageSection& section :
       whatif_page(what, kart, pack, units, look_of_sheet()).sections()) {
    if (section.word == "LOADS" && !pictured) {
      for (std::size_t i = 0; i < what.paper.classes.size(); ++i)
        class_pictures(sheet, what, i, pack, units);
      pictured = true;
    }
    if (section.word == "LOADS") {
      const PaperClass& one = what.paper.classes[loads++];
      sheet.section("LOADS", table_with_notes(load_rows(one),
                                              pack.track(one.track)->label + ", left turn, N"));
    } else if (section.word == "FIGURES") {
      sheet.section("FIGURES", table_with_notes(figure_rows(what.paper.classes[figures++]), ""));
    } else {
      sheet.section(section);
    }
  }
  return sheet.html();
}

std::string sweep_sheet(const std::vector<Sweep>& sweeps, const Kart& kart, const Pack& pack,
                        System units) {
  Sheet sheet("Sweep", kart.name);
  std::size_t next = 0;
  for (const PageSection& section :
       sweep_page(sweeps, kart, pack, units, look_of_sheet()).sections()) {
    if (section.word == "LOADS") {
      for (std::size_t i = next; i < sweeps.size() && next == 0; ++i)
        sheet.picture(sweep_picture(sweeps[i], i, units),
                      corner_line(sweeps[i].track, sweeps[i].corner, pack) + ".");
      sheet.section(section.word, paragraphs_of(section, {sweep_rows(sweeps[next++], units)}));
    } else {
      sheet.section(section);
    }
  }
  return sheet.html();
}

}  // namespace kartwright::cli
