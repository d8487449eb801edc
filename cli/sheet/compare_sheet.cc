#include "cli/sheet/compare_sheet.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/compare_text.h"
#include "cli/lap_plot.h"
#include "cli/sheet/compare_picture.h"
#include "cli/sheet/sheet.h"
#include "engine/records/lap_time.h"

namespace kartwright::cli {
namespace {

/// Whose laps, then the two figures.
std::vector<Markup> effect_row_of(const std::string& whose, const SettingEffect& effect) {
  return {words(whose), words(fmt::format("{:+.3f}", effect.seconds)),
          words(fmt::format("{:+.3f} to {:+.3f}", effect.low, effect.high))};
}

std::string group_text(const LapComparison& all, const std::string& letters, std::size_t group) {
  const DrivenGroup& it = all.groups[group];
  return fmt::format("{} {}, {} lap{}", letters[group], it.name, it.laps, it.laps == 1 ? "" : "s");
}

Markup effect_table(const LapComparison& all, const std::string& letters) {
  SheetTable table{.caption = "Seconds a lap against the first group; below zero is faster",
                   .head = {"group", "effect", "95 %"},
                   .rows = {},
                   .figures = {false, true, true}};
  table.rows.push_back({words(group_text(all, letters, 0)), words("first"), {}});
  for (std::size_t at = 0; at < all.clock.fit.effects.size(); ++at) {
    table.rows.push_back(effect_row_of(group_text(all, letters, all.clock.judged[at].setting),
                                       all.clock.fit.effects[at]));
    if (all.clock.fit_tame)
      table.rows.push_back(effect_row_of("without the wild laps", all.clock.fit_tame->effects[at]));
  }
  return table_of(table);
}

Markup wild_table(const LapComparison& all, const std::string& letters) {
  constexpr std::size_t kShown = 8;
  const std::vector<std::size_t>& wild = all.clock.wild;
  if (wild.empty()) return {};
  SheetTable table{.caption = "Wild laps, in rings in the picture",
                   .head = {"lap", "group", "time"},
                   .rows = {},
                   .figures = {false, false, true}};
  if (wild.size() > kShown) table.caption += fmt::format("; {} of {}", kShown, wild.size());
  for (std::size_t i = 0; i < std::min(kShown, wild.size()); ++i) {
    const FittedLap& lap = all.laps[wild[i]];
    table.rows.push_back({words(std::to_string(lap.number)),
                          words(fmt::format("{} {}", letters[lap.group],
                                            fitting(printable(all.groups[lap.group].name), 40))),
                          words(print_lap_time(lap.seconds) + " s")});
  }
  return table_of(table);
}

void compare_pictures(Sheet& sheet, const LapComparison& all, const std::string& letters) {
  std::string caption =
      "Lap time against lap number. Another sign for each group, its letter above; the line is "
      "the fit, its steps are the effects.";
  if (!all.clock.wild.empty())
    caption += " Laps in rings are far off the rest; an arrow: off the scale.";
  sheet.picture(laps_picture(all, letters), caption);
  caption = "The effect of each group: the dot is the best guess, 95 % lies within the line.";
  if (all.clock.fit_tame) caption += " Hollow and thin below it: without the wild laps.";
  sheet.picture(effects_picture(all, letters), caption);
}

}  // namespace

std::string compare_sheet(const LapComparison& compared, std::string_view whose) {
  Sheet sheet("Comparison", whose);
  const std::string letters = letters_of(compared.groups);
  const Page page = compare_page(compared, look_of_sheet(), LapsDrawn::elsewhere);
  for (const PageSection& section : page.sections()) {
    if (section.word == "DRIFT") compare_pictures(sheet, compared, letters);
    if (section.word == "EFFECT") {
      sheet.section(section.word, paragraphs_of(section, {effect_table(compared, letters)}));
    } else {
      sheet.section(section);
    }
  }
  sheet.droppable_from_here();
  sheet.section("WILD", wild_table(compared, letters));
  return sheet.html();
}

}  // namespace kartwright::cli
