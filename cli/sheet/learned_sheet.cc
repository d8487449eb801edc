#include "cli/sheet/learned_sheet.h"

#include <fmt/format.h>

#include "cli/learned_text.h"
#include "cli/sheet/learned_picture.h"
#include "cli/sheet/sheet.h"

namespace kartwright::cli {
namespace {

Markup learned_table(const Learned& learned, const Pack& pack) {
  if (learned.adjustments.empty()) return {};
  SheetTable table{.caption = {},
                   .head = {"a step of, told by", "by the rules", "with the log", "runs"},
                   .rows = {},
                   .figures = {false, true, true, true}};
  for (const LearnedAdjustment& each : learned.adjustments) {
    const LearnedRow row = learned_row_of(each, pack);
    table.rows.push_back({words(row.move + ", " + row.axis + ": " + row.agreement), words(row.rule),
                          words(row.learned), words(row.runs)});
  }
  return table_of(table);
}

void pictures_of_learned(Sheet& sheet, const Learned& learned, const Pack& pack) {
  if (!learned.adjustments.empty()) {
    std::string caption =
        "What a step does, in notches: the grey box is the rule, its middle marked, the dot with "
        "its line what the log says, one standard deviation either way.";
    if (learned.adjustments.size() > kLearnedInPicture)
      caption += fmt::format(" The first {}.", kLearnedInPicture);
    sheet.picture(learned_picture(learned, pack), caption);
  }
  if (learned.calibration && has_promises(*learned.calibration)) {
    sheet.picture(promises_picture(*learned.calibration),
                  "What was promised: the upright mark is how often a difference should have come "
                  "within what was foretold, the bar how often it did.");
  }
}

}  // namespace

std::string learned_sheet(const Learned& learned, const Pack& pack) {
  Sheet sheet("Learned", learned.kart);
  const Page page = learned_page(learned, pack, look_of_sheet());
  for (const PageSection& section : page.sections()) {
    if (section.word != "LEARNED") {
      sheet.section(section);
      continue;
    }
    sheet.section(section.word, paragraphs_of(section, {learned_table(learned, pack)}));
    pictures_of_learned(sheet, learned, pack);
  }
  return sheet.html();
}

}  // namespace kartwright::cli
