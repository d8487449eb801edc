#include "cli/check_text.h"

#include <fmt/format.h>

#include "engine/advice/explain_gauge.h"
#include "engine/advice/gauge_words.h"

namespace kartwright::cli {
namespace {

void leading(const VerdictFound& first, System units, Page& page) {
  page.section("VERDICT");
  page.paragraph(verdict_line(first, units), 2, first.verdict->ok ? Tint::good : Tint::stop);
  page.section("MEANS");
  page.paragraph(verdict_text(first, first.verdict->because, units), 2);
  page.section("DO");
  page.paragraph(verdict_text(first, first.verdict->to_do, units), 2);
}

void others(const GaugeCheck& check, System units, Page& page) {
  page.section("ALSO");
  for (std::size_t i = 1; i < check.verdicts.size(); ++i) {
    const VerdictFound& found = check.verdicts[i];
    page.paragraph(verdict_line(found, units), 2, found.verdict->ok ? Tint::none : Tint::stop);
    page.paragraph("  " + verdict_text(found, found.verdict->because, units), 4);
    if (found.verdict->ok) continue;
    page.paragraph("  do: " + verdict_text(found, found.verdict->to_do, units), 4);
  }
}

bool is_judged(const GaugeCheck& check, const FigureFound& figure) {
  for (const VerdictFound& found : check.verdicts) {
    if (found.found.figure == figure.figure) return true;
  }
  return false;
}

/// What was worked out and not judged.
void figures(const GaugeCheck& check, System units, Page& page) {
  page.section("FIGURES");
  for (const FigureFound& found : check.figures) {
    if (found.figure->inner || is_judged(check, found)) continue;
    page.paragraph(fmt::format("{} {}", found.figure->label, figure_text(found, units)), 2);
  }
  for (const std::string& id : check.assumed) {
    const GaugeReading& reading = *check.gauge->reading(id);
    page.paragraph(
        fmt::format("--{} was not given: the kart's {} stands in", id, reading.dimension), 2);
  }
}

/// The facts to state, and what each adds to the odds of a fault.
void tell(const GaugeCheck& check, const Pack& pack, System units, Page& page) {
  page.section("TELL");
  if (check.facts.empty()) return page.paragraph("nothing: this says neither yes nor no", 2);
  std::string words = "kartwright advise";
  for (const auto& [fact, value] : check.facts) words += fmt::format(" --fact {}={}", fact, value);
  page.paragraph(words, 2);
  for (const EvidenceFound& each : check.evidence) {
    page.paragraph(fmt::format("{}={}: odds of {} {} ({})", each.fact, each.value,
                               pack.fault(each.fault)->label, odds_text(each.decibans), each.rule),
                   2);
  }
  for (const auto& [measure, si] : check.measures) {
    page.paragraph(fmt::format("or in the kart file, to the same end: measured: {{{}: {}}}",
                               measure->id, print_quantity(si, measure->kind, units)),
                   2);
  }
}

void care(const std::vector<std::string>& cautions, Page& page) {
  page.section("CARE");
  for (const std::string& caution : cautions) page.paragraph(caution, 2);
}

}  // namespace

std::string gauge_list_text(const Pack& pack, Look look) {
  Page page(look);
  page.section("CHECKS");
  for (const Gauge& gauge : pack.gauges) {
    page.paragraph(gauge.label + ": `" + example_of(gauge) + "`", 2);
  }
  page.section("");
  page.paragraph("`kartwright check NAME` says how to measure");
  return page.text();
}

std::string gauge_how_text(const Gauge& gauge, const Pack& pack, System units, Look look) {
  Page page(look);
  page.section("CHECK");
  page.paragraph(gauge.label + ": " + gauge.plain);
  page.section("HOW");
  for (std::size_t i = 0; i < gauge.steps.size(); ++i) {
    page.paragraph(fmt::format("{}. {}", i + 1, gauge.steps[i]), 3);
  }
  page.section("GIVE");
  page.paragraph(example_of(gauge), 2);
  for (const std::string& option : options_text(gauge, units)) page.paragraph(option, 2);
  page.section("LIMITS");
  for (const GaugeVerdict& verdict : gauge.verdicts) {
    if (verdict.quiet) continue;
    page.paragraph(
        holds_where(verdict, gauge, units) + ": " + verdict_text(verdict.says, "one tyre"), 2);
  }
  std::vector<std::string> cautions;
  for (const std::string& id : gauge.cautions) cautions.push_back(pack.caution(id)->text);
  care(cautions, page);
  return page.text();
}

std::string gauge_check_text(const GaugeCheck& check, const Pack& pack, System units, Look look) {
  Page page(look);
  if (!check.verdicts.empty()) leading(check.verdicts.front(), units, page);
  others(check, units, page);
  figures(check, units, page);
  tell(check, pack, units, page);
  care(check.cautions, page);
  return page.text();
}

}  // namespace kartwright::cli
