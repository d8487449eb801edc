#include "cli/sheet/run_sheet.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/change_table.h"
#include "cli/run_text.h"
#include "cli/sheet/run_picture.h"
#include "cli/sheet/sheet.h"

namespace kartwright::cli {
namespace {

Markup changed_table(const Run& run, const Pack& pack) {
  if (run.changes.empty()) return {};
  SheetTable table{.caption = {}, .head = {"change", "from → to", "whose idea"}, .rows = {}};
  for (const RunChange& change : run.changes) {
    table.rows.push_back({words(move_phrase(change, pack)), words(from_to(change.from, change.to)),
                          words(idea_behind(change))});
  }
  return table_of(table);
}

std::string name_of_adjustment(const std::string& id, const Pack& pack) {
  const Adjustment* const adjustment = pack.adjustment(id);
  return adjustment == nullptr ? id : adjustment->label;
}

/// In two halves that stand side by side.
std::vector<Markup> setup_tables(const Run& run, const Pack& pack) {
  const std::size_t half = (run.settings.size() + 1) / 2;
  std::vector<Markup> out;
  for (std::size_t start = 0; start < run.settings.size(); start += half) {
    SheetTable table{.caption = {}, .head = {"adjustment", "setting"}, .rows = {}};
    for (std::size_t i = start; i < std::min(start + half, run.settings.size()); ++i) {
      const RunSetting& setting = run.settings[i];
      table.rows.push_back(
          {words(name_of_adjustment(setting.adjustment, pack)), words(setting.value)});
    }
    out.push_back(table_of(table));
  }
  return out;
}

void lap_picture(Sheet& sheet, const Run& run) {
  if (run.laps.empty()) return;
  sheet.picture(run_picture(run),
                "Lap time against lap number; the scale is that of the laps that count. An arrow: "
                "off the scale.");
}

}  // namespace

std::string run_sheet(const Run& run, const Pack& pack) {
  Sheet sheet(fmt::format("Run {}", run.id), run.kart);
  const Page page = run_page(run, pack, run.settings.empty(), {}, look_of_sheet());
  for (const PageSection& section : page.sections()) {
    if (section.word == "HEARD") sheet.droppable_from_here();
    if (section.word == "CHANGED") {
      sheet.section(section.word, changed_table(run, pack));
    } else {
      sheet.section(section);
    }
    if (section.word == "LAPS") lap_picture(sheet, run);
  }
  sheet.wide("SETUP", "As the kart was driven.", setup_tables(run, pack));
  return sheet.html();
}

}  // namespace kartwright::cli
