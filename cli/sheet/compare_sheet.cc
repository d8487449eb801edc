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

std::vector<Markup> effect_cells(const SettingEffect& effect) {
  return {words(fmt::format("{:+.3f} s", effect.seconds)),
          words(fmt::format("{:+.3f} to {:+.3f} s", effect.low, effect.high))};
}

std::vector<Markup> group_row(const LapComparison& all, const std::string& letters,
                              std::size_t at) {
  const ClockJudgement& judged = all.clock.judged[at];
  const DrivenGroup& group = all.groups[judged.setting];
  std::vector<Markup> row{words(fmt::format("{} {}", letters[judged.setting], group.name)),
                          words(std::to_string(group.laps))};
  for (Markup& cell : effect_cells(all.clock.fit.effects[at])) row.push_back(std::move(cell));
  row.push_back(words(judged.verdict == ClockVerdict::not_settled
                          ? "not settled"
                          : std::string(name_of(judged.verdict))));
  return row;
}

Markup effect_table(const LapComparison& all, const std::string& letters) {
  SheetTable table{.caption = "Against the first group, seconds a lap",
                   .head = {"group", "laps", "effect", "95 %", "verdict"},
                   .rows = {},
                   .figures = {false, true, true, true, false}};
  const DrivenGroup& first = all.groups.front();
  table.rows.push_back({words(letters.substr(0, 1) + " " + first.name),
                        words(std::to_string(first.laps)),
                        words("first"),
                        {},
                        {}});
  for (std::size_t at = 0; at < all.clock.fit.effects.size(); ++at) {
    table.rows.push_back(group_row(all, letters, at));
    if (!all.clock.fit_tame) continue;
    std::vector<Markup> row{words("without wild laps"), {}};
    for (Markup& cell : effect_cells(all.clock.fit_tame->effects[at])) row.push_back(cell);
    row.emplace_back();
    table.rows.push_back(std::move(row));
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
