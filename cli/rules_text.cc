#include "cli/rules_text.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/diagnostics.h"

namespace kartwright::cli {
namespace {

std::string counted(std::size_t n, const std::string& what) {
  if (n == 0) return "no " + what + "s";
  return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

std::string summary(const Audit& audit) {
  std::string out = counted(audit.files, "file");
  if (audit.rules > 0) out += ", " + counted(audit.rules, "rule");
  out += ": ";
  for (const Severity severity : {Severity::error, Severity::warning, Severity::note}) {
    out += (severity == Severity::error ? "" : ", ") +
           counted(audit.count(severity), std::string(word_of(severity)));
  }
  return out + "\n";
}

std::size_t without_path(const Audit& audit, const std::vector<std::string>& paths) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < paths.size(); ++i) {
    if (audit.findings[i].witness && paths[i].empty()) ++count;
  }
  return count;
}

std::vector<std::string> columns_of(const RuleLine& line) {
  return {line.id, line.kind, line.of, line.status, line.source.text()};
}

std::vector<std::size_t> widths_of(const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows) {
    widths.resize(row.size());
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], columns(row[i]));
  }
  return widths;
}

std::string table(const std::vector<std::vector<std::string>>& rows,
                  const std::vector<std::size_t>& widths) {
  std::string out;
  for (const auto& row : rows) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i) line += left(row[i], widths[i]) + "  ";
    out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
  }
  return out;
}

/// The id on a line of its own, the rest hanging under it.
std::string two_lines(const std::vector<std::vector<std::string>>& rows, Look look) {
  std::string out;
  for (const auto& row : rows) {
    if (&row == rows.data()) continue;  // the headings
    for (const std::string& piece : wrap(row[0], look.width)) out += piece + "\n";
    const std::string rest = fmt::format("{} of {}, {}, {}", row[1], row[2], row[3], row[4]);
    for (const std::string& piece : wrap(rest, look.width - 2)) out += "  " + piece + "\n";
  }
  return out;
}

void show_taken(Page& page, std::string_view word, const std::vector<CellsTaken>& all) {
  page.section(word);
  for (const CellsTaken& taken : all) {
    page.paragraph(fmt::format("{}: {}", taken.rule, fmt::join(taken.axes, ", ")), 2);
  }
}

void show_cases(Page& page, std::string_view word, const std::vector<std::string>& names) {
  page.section(word);
  for (const std::string& name : names) page.paragraph(name, 2);
}

}  // namespace

std::string check_text(const Audit& audit, const std::vector<std::string>& paths, bool errors_only,
                       Look look) {
  std::string out;
  for (std::size_t i = 0; i < audit.findings.size(); ++i) {
    const Diagnostic& diagnostic = audit.findings[i].diagnostic;
    if (errors_only && diagnostic.severity != Severity::error) continue;
    out += render(diagnostic, look);
    if (!paths[i].empty()) out += spelled("shown by: " + paths[i], look) + "\n";
  }
  const std::size_t more = without_path(audit, paths);
  if (more > 0 && !errors_only) {
    out += fmt::format("--witness DIR writes {} that show{} what was found\n",
                       counted(more, "case"), more == 1 ? "s" : "");
  }
  return out + summary(audit);
}

std::string list_text(const std::vector<RuleLine>& lines, Look look) {
  std::vector<std::vector<std::string>> rows{{"rule", "kind", "of", "status", "where"}};
  for (const RuleLine& line : lines) rows.push_back(columns_of(line));
  for (auto& row : rows) {
    for (std::string& cell : row) cell = spelled(cell, look);
  }
  const std::vector<std::size_t> widths = widths_of(rows);
  std::size_t wide = 2 * (widths.size() - 1);
  for (const std::size_t width : widths) wide += width;
  return wide <= look.width ? table(rows, widths) : two_lines(rows, look);
}

std::string show_text(const RulePage& rule, Look look) {
  Page page(look);
  page.section("RULE");
  page.paragraph(rule.line.id);
  page.paragraph(rule.line.kind + " of " + rule.line.of, 2);
  page.section("WHERE");
  page.paragraph(rule.line.source.text());
  page.section("WHEN");
  page.paragraph(rule.when, 2);
  page.section("SAYS");
  page.paragraph(rule.says, 2);
  page.section("BECAUSE");
  page.paragraph(rule.because);
  page.section("FROM");
  page.paragraph(rule.provenance);
  page.section("STATUS");
  page.paragraph(rule.line.status +
                 (rule.contested ? "; contested: treat it as a test worth logging" : ""));
  show_taken(page, "REPLACES", rule.replaces);
  show_taken(page, "GIVES WAY", rule.replaced_by);
  show_cases(page, "FIRES", rule.fires_on);
  show_cases(page, "SILENT", rule.silent_on);
  return page.text();
}

}  // namespace kartwright::cli
