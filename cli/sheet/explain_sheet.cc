#include "cli/sheet/explain_sheet.h"

#include "cli/explain_text.h"
#include "cli/sheet/sheet.h"

namespace kartwright::cli {
namespace {

Markup effects_table(const EffectTable& table) {
  SheetTable out{.caption = table.caption, .head = {""}, .rows = {}};
  out.head.insert(out.head.end(), table.columns.begin(), table.columns.end());
  Markup without_phases;
  for (const EffectTable::Row& row : table.rows) {
    if (row.cells.size() == 1) {
      without_phases += element("p", words(row.label + ": " + row.cells.front()));
      continue;
    }
    std::vector<Markup> cells{words(row.label)};
    for (const std::string& cell : row.cells) cells.push_back(words(cell));
    out.rows.push_back(std::move(cells));
  }
  return {table_of(out), without_phases};
}

Markup inside_of(const ExplainedPart& part) {
  Markup out;
  if (part.table) out += effects_table(*part.table);
  for (const std::string& paragraph : part.paragraphs) {
    out += part.stands.empty() ? element("p", words(paragraph))
                               : element("pre", words_in_lines(paragraph));
  }
  return out;
}

}  // namespace

std::string explanation_sheet(const Explanation& explanation) {
  Sheet sheet("Explained: " + explanation.kind, explanation.title);
  if (explanation.id != explanation.title) sheet.section("", element("p", words(explanation.id)));
  for (const ExplainedPart& part : explanation.sections) {
    const std::string stands = part.stands.empty() ? "" : ", " + part.stands;
    sheet.section(part.heading + stands, inside_of(part));
  }
  return sheet.html();
}

std::string topics_sheet(const Pack& pack) {
  Sheet sheet("Explained", "what there is");
  for (const PageSection& section : topics_page(pack, look_of_sheet()).sections())
    sheet.section(section);
  return sheet.html();
}

}  // namespace kartwright::cli
