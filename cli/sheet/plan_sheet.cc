#include "cli/sheet/plan_sheet.h"

#include <cmath>

#include <fmt/format.h>

#include "cli/plan_text.h"
#include "cli/sheet/plan_picture.h"
#include "cli/sheet/sheet.h"

namespace kartwright::cli {
namespace {

Markup error_cell(double share) {
  return words(fmt::format("{}\u00a0%", std::lround(100.0 * share)));
}

std::string stage_text(const Day& day, std::size_t stage) {
  const std::string& label = day.stops[stage].stage->label;
  return stages_are_named(day) ? label : stage_letters(day).substr(stage, 1) + " " + label;
}

/// A row a stage; a dot where a setting stays.
Markup table_of_day(const Day& day) {
  SheetTable table{.caption = {}, .head = {"stage"}, .rows = {}, .figures = {false}};
  std::vector<Markup> stands{words("as it stands")};
  for (std::size_t i = 0; i < day.movers.size(); ++i) {
    table.head.push_back(day.movers[i]->label);
    table.figures.push_back(false);
    stands.push_back(words(day.stands[i]));
  }
  table.head.insert(table.head.end(), {"as is", "plan"});
  table.figures.insert(table.figures.end(), {true, true});
  stands.resize(table.head.size());
  table.rows.push_back(std::move(stands));
  for (std::size_t k = 0; k < day.stops.size(); ++k) {
    std::vector<Markup> row{words(stage_text(day, k))};
    for (const std::string& setting : settings_told(day, k)) row.push_back(words(setting));
    row.push_back(error_cell(day.stops[k].untouched));
    row.push_back(error_cell(day.stops[k].left));
    table.rows.push_back(std::move(row));
  }
  return table_of(table);
}

std::string caption_of_day(const Day& day) {
  std::string text =
      day.movers.empty()
          ? "The bars are the handling error of each stage"
          : "The day: the band is how far each adjustment can go, ○ where it stands now, the "
            "line where it goes; it is written where it changes. A cross: there it runs out. "
            "Bars: the handling error";
  text += ", hollow as it is, solid by the plan.";
  if (!stages_are_named(day)) text += " The letters are those of the stages in the table.";
  return text;
}

bool may_be_left_out(std::string_view word) {
  return word == "AHEAD" || word == "EARLY" || word == "NEVER";
}

}  // namespace

std::string plan_sheet(const Day& day, const Debrief& debrief, const Pack& pack) {
  Sheet sheet("Plan", day.kart);
  const Page page = plan_page(day, debrief, pack, look_of_sheet());
  for (const PageSection& section : page.sections()) {
    if (may_be_left_out(section.word)) sheet.droppable_from_here();
    if (!may_be_left_out(section.word)) sheet.needed_from_here();
    if (section.word != "DAY") {
      sheet.section(section);
      continue;
    }
    sheet.section(section.word, paragraphs_of(section, {table_of_day(day)}));
    sheet.picture(plan_picture(day), caption_of_day(day));
  }
  return sheet.html();
}

}  // namespace kartwright::cli
