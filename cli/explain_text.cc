#include "cli/explain_text.h"

#include <algorithm>

#include <fmt/format.h>

namespace kartwright::cli {
namespace {

std::string capitals(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c; });
  return text;
}

/// Columns that a table needs beside its row labels, each with two blanks before it.
std::vector<std::size_t> effect_widths(const EffectTable& table) {
  std::vector<std::size_t> widths;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    std::size_t width = columns(table.columns[i]);
    for (const EffectTable::Row& row : table.rows) {
      if (row.cells.size() > 1 && i < row.cells.size())
        width = std::max(width, columns(row.cells[i]));
    }
    widths.push_back(width + 2);
  }
  return widths;
}

/// A row of cells under their columns.
std::string aligned(const std::string& label, std::size_t label_width,
                    const std::vector<std::string>& cells, const std::vector<std::size_t>& widths) {
  std::string line = left(label, label_width);
  for (std::size_t i = 0; i < cells.size() && i < widths.size(); ++i) {
    line += "  " + left(cells[i], widths[i] - 2);
  }
  return line;
}

/// "rear grip: going in much less, in the middle much less, ..."
std::string in_a_line(const EffectTable::Row& row, const std::vector<std::string>& names) {
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    const bool named = row.cells.size() > 1 && i < names.size();
    parts.push_back(named ? names[i] + " " + row.cells[i] : row.cells[i]);
  }
  return row.label + ": " + joined(parts, ", ");
}

/// Under its columns where the page has room for them, else a line for each row.
void add_table(const EffectTable& table, Page& page) {
  std::size_t label = 0;
  for (const EffectTable::Row& row : table.rows) {
    if (row.cells.size() > 1) label = std::max(label, columns(row.label));
  }
  const std::vector<std::size_t> widths = effect_widths(table);
  std::size_t whole = label;
  for (const std::size_t width : widths) whole += width;
  const bool fits = whole <= page.room();
  page.paragraph(table.caption + ":", 2);
  if (fits) page.row(aligned("", label, table.columns, widths));
  for (const EffectTable::Row& row : table.rows) {
    if (fits && row.cells.size() > 1) {
      page.row(aligned(row.label, label, row.cells, widths));
    } else {
      page.paragraph(in_a_line(row, table.columns), 2);
    }
  }
}

}  // namespace

Page explanation_page(const Explanation& explanation, Look look) {
  Page page(look);
  page.section(capitals(explanation.kind));
  page.paragraph(explanation.id == explanation.title
                     ? explanation.id
                     : explanation.title + " (" + explanation.id + ")");
  for (const ExplainedPart& part : explanation.sections) {
    page.section("");
    const bool wrapped = part.stands.empty();
    page.paragraph(part.heading + (wrapped ? "" : ", " + part.stands) + ":");
    if (part.table) add_table(*part.table, page);
    for (const std::string& paragraph : part.paragraphs) {
      if (wrapped) page.paragraph("  " + paragraph, 2);
      if (!wrapped) page.as_written(paragraph, 2);
    }
  }
  return page;
}

std::string explanation_text(const Explanation& explanation, Look look) {
  return explanation_page(explanation, look).text();
}

Page topics_page(const Pack& pack, Look look) {
  Page page(look);
  for (const auto& [kind, ids] : explainable(pack)) {
    if (kind == "rules") continue;
    page.section(kind == "adjustments"  ? "ADJUST"
                 : kind == "quantities" ? "FIGURES"
                                        : capitals(kind));
    page.paragraph(fmt::format("{}", fmt::join(ids, ", ")));
  }
  page.section("");
  page.paragraph("and every rule named in an answer: `kartwright explain ID`");
  return page;
}

std::string topics_text(const Pack& pack, Look look) { return topics_page(pack, look).text(); }

}  // namespace kartwright::cli
