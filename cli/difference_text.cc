#include "cli/difference_text.h"

#include <algorithm>

#include <fmt/format.h>

namespace kartwright::cli {
namespace {

std::string or_nothing(const std::string& value) { return value.empty() ? "nothing" : value; }

/// A paragraph that stands `indent` columns in, and what does not fit on its first line two more.
void indented(std::string_view text, std::size_t indent, Page& page) {
  std::size_t by = indent;
  for (const std::string& line : wrap(spelled(text, page.look()), page.room() - indent - 2)) {
    page.row(std::string(by, ' ') + line);
    by = indent + 2;
  }
}

/// A line of a table where it fits; else a paragraph, so that nothing is cut off.
void table_line(std::string_view text, std::size_t indent, Page& page) {
  if (columns(text) + indent > page.room()) return indented(text, indent, page);
  page.row(std::string(indent, ' ') + std::string(text));
}

std::string counted(std::size_t n, const char* one, const char* many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

std::size_t count_of(const PackDifference& difference, Happened happened) {
  return static_cast<std::size_t>(
      std::count_if(difference.rules.begin(), difference.rules.end(),
                    [&](const PartDifference& each) { return each.happened == happened; }));
}

std::string place_of(const PartDifference& part) {
  const std::optional<Source>& source = part.after ? part.after : part.before;
  return source && source->line > 0 ? source->text() : "";
}

/// Long texts stand under each other, numbers beside each other.
void show_field(const FieldDifference& field, Page& page) {
  const std::string text =
      fmt::format("  {}: {} -> {}", field.field, or_nothing(field.before), or_nothing(field.after));
  if (columns(text) + 2 <= page.room() || field.kind != FieldKind::texts) {
    return indented(text, 2, page);
  }
  indented(field.field + ":", 2, page);
  indented("before: " + or_nothing(field.before), 4, page);
  indented("after: " + or_nothing(field.after), 4, page);
}

void show_part(const PartDifference& part, Page& page) {
  const std::string of = part.of.empty() ? "" : " of " + part.of;
  page.paragraph(fmt::format("{}: {} {}{}", name_of(part.happened), part.kind, part.id, of), 2);
  const std::string place = place_of(part);
  if (!place.empty()) indented(place, 2, page);
  for (const FieldDifference& field : part.fields) show_field(field, page);
}

void show_rules(const PackDifference& difference, Page& page) {
  page.section("RULES");
  if (difference.rules.empty()) {
    page.paragraph("nothing differs");
    return;
  }
  page.paragraph(
      fmt::format("{} changed, {} added, {} removed", count_of(difference, Happened::changed),
                  count_of(difference, Happened::added), count_of(difference, Happened::removed)));
  for (const PartDifference& part : difference.rules) {
    page.section("");
    show_part(part, page);
  }
}

std::string lead_text(const std::optional<LeadingChange>& lead) {
  if (!lead) return "no change offered";
  return fmt::format("{}, {} to {}", lead->phrase, lead->from, lead->to);
}

std::string rank_text(std::size_t rank) {
  return rank == 0 ? "not offered" : fmt::format("{}", rank);
}

template <typename Shift>
std::size_t widest_move(const std::vector<Shift>& shifts) {
  std::size_t width = 0;
  for (const Shift& each : shifts) {
    width = std::max(width, columns(each.adjustment) + 1 + columns(each.direction));
  }
  return width;
}

void show_ranks(const ScenarioDifference& scenario, Page& page) {
  if (scenario.ranks.empty()) return;
  indented("rank", 2, page);
  const std::size_t width = widest_move(scenario.ranks);
  for (const RankShift& each : scenario.ranks) {
    table_line(fmt::format("{}  {} -> {}", left(each.adjustment + " " + each.direction, width),
                           rank_text(each.before), rank_text(each.after)),
               4, page);
  }
}

void show_scores(const ScenarioDifference& scenario, Page& page) {
  if (scenario.scores.empty()) return;
  indented("score, points", 2, page);
  const std::size_t width = widest_move(scenario.scores);
  for (const ScoreShift& each : scenario.scores) {
    table_line(fmt::format("{}  {:6.1f} -> {:6.1f}  ({:+.1f})",
                           left(each.adjustment + " " + each.direction, width), each.before,
                           each.after, each.after - each.before),
               4, page);
  }
}

void show_checks(const ScenarioDifference& scenario, Page& page) {
  if (!scenario.checks_came.empty()) {
    indented(fmt::format("checks that came: {}", fmt::join(scenario.checks_came, ", ")), 2, page);
  }
  if (!scenario.checks_went.empty()) {
    indented(fmt::format("checks that went: {}", fmt::join(scenario.checks_went, ", ")), 2, page);
  }
}

void show_scenario(const ScenarioDifference& scenario, Page& page) {
  page.paragraph(scenario.scenario, 2);
  if (!scenario.title.empty()) indented(scenario.title, 2, page);
  if (scenario.headline_differs()) {
    indented(fmt::format("headline: {} -> {}", name_of(scenario.headline_before),
                         name_of(scenario.headline_after)),
             2, page);
  }
  if (scenario.first_differs) {
    indented(fmt::format("first: {} -> {}", lead_text(scenario.first_before),
                         lead_text(scenario.first_after)),
             2, page);
  }
  show_ranks(scenario, page);
  show_scores(scenario, page);
  show_checks(scenario, page);
}

void show_scenarios(const ScenariosApart& scenarios, Page& page) {
  if (scenarios.asked == 0) return;
  page.section("SCENARIOS");
  page.paragraph(fmt::format(
      "{} of {} answered otherwise",
      scenarios.differing.empty() ? "none" : fmt::format("{}", scenarios.differing.size()),
      scenarios.asked));
  for (const ScenarioDifference& each : scenarios.differing) {
    page.section("");
    show_scenario(each, page);
  }
}

void show_errors(const std::vector<Diagnostic>& errors, const std::string& pack, Page& page) {
  if (errors.empty()) return;
  indented("under " + pack, 2, page);
  for (const Diagnostic& each : errors) {
    indented(fmt::format("{}:{}:{}: {}: {}", each.file, each.span.line, each.span.column,
                         code_name(each.code), each.message),
             4, page);
  }
}

void show_unread(const PackDifference& difference, Page& page) {
  const std::vector<UnreadScenario>& unread = difference.scenarios.unread;
  if (unread.empty()) return;
  page.section("NOT ASKED");
  page.paragraph(counted(unread.size(), "scenario", "scenarios") + " that cannot be read");
  for (const UnreadScenario& each : unread) {
    page.section("");
    page.paragraph(each.scenario, 2);
    show_errors(each.before, difference.before, page);
    show_errors(each.after, difference.after, page);
  }
}

}  // namespace

std::string difference_text(const PackDifference& difference, Look look) {
  Page page(look);
  page.section("PACKS");
  page.paragraph(difference.before + " -> " + difference.after, 2);
  show_rules(difference, page);
  show_scenarios(difference.scenarios, page);
  show_unread(difference, page);
  return page.text();
}

}  // namespace kartwright::cli
