#include "engine/audit/rule_page.h"

#include <algorithm>
#include <array>
#include <tuple>

#include "engine/advice/explain_gauge.h"
#include "engine/advice/gauge_words.h"
#include "engine/audit/cases.h"
#include "engine/inference/situation.h"

namespace kartwright {
namespace {

std::string status_name(Status status) {
  static constexpr std::array<std::string_view, 3> kNames{"experimental", "test", "stable"};
  return std::string(kNames.at(static_cast<std::size_t>(status)));
}

std::string axes_of_row(const std::vector<RowTerm>& row) {
  std::string out;
  for (const RowTerm& term : row) out += (out.empty() ? "" : ", ") + term.axis;
  return out;
}

std::string whose(const RuleRef& rule) {
  switch (rule.kind) {
    case RuleKind::symptom:
      return rule.symptom->id;
    case RuleKind::effect:
      return rule.adjustment->id;
    case RuleKind::evidence:
      return rule.fault->id;
    case RuleKind::reading:
      return axes_of_row(static_cast<const ReadingRule&>(*rule.rule).row);
    case RuleKind::derive:
      return static_cast<const DeriveRule&>(*rule.rule).fact;
  }
  return {};
}

RuleLine line_of(const RuleRef& rule) {
  return {.id = rule.rule->id,
          .kind = std::string(name_of(rule.kind)),
          .of = whose(rule),
          .status = status_name(rule.rule->status),
          .source = rule.rule->source};
}

bool has_condition(const EffectRule& rule) { return rule.when.op != Condition::Op::always; }

/// The other effects that take cells from this one, or lose them to it.
std::vector<CellsTaken> shared_cells(const EffectRule& rule, const Adjustment& adjustment,
                                     const Pack& pack) {
  std::vector<CellsTaken> out;
  for (const EffectRule& other : adjustment.effects) {
    if (has_condition(other) == has_condition(rule)) continue;
    CellsTaken taken{other.id, {}};
    for (const Cell& mine : rule.cells) {
      const bool shared = std::any_of(other.cells.begin(), other.cells.end(),
                                      [&](const Cell& theirs) { return theirs.axis == mine.axis; });
      if (shared) taken.axes.push_back(pack.axes[mine.axis].id);
    }
    if (!taken.axes.empty()) out.push_back(std::move(taken));
  }
  return out;
}

RulePage page_of_rule(const RuleRef& rule, const Pack& pack) {
  RulePage page{.line = line_of(rule),
                .when = "its symptom is reported",
                .says = says(rule, pack),
                .because = rule.rule->because,
                .provenance = rule.rule->provenance.text()};
  if (rule.when != nullptr) page.when = describe(*rule.when, pack);
  if (rule.kind == RuleKind::effect) {
    const auto& effect = static_cast<const EffectRule&>(*rule.rule);
    page.contested = effect.contested;
    (has_condition(effect) ? page.replaces : page.replaced_by) =
        shared_cells(effect, *rule.adjustment, pack);
  }
  return page;
}

RuleLine line_of(const GaugeVerdict& verdict, const Gauge& gauge) {
  return {.id = verdict.id,
          .kind = "verdict",
          .of = gauge.id,
          .status = status_name(verdict.status),
          .source = verdict.source};
}

/// A verdict's page: where it holds, and what it says.
std::optional<RulePage> page_of_verdict(std::string_view id, const Pack& pack) {
  for (const Gauge& gauge : pack.gauges) {
    for (const GaugeVerdict& verdict : gauge.verdicts) {
      if (verdict.id != id) continue;
      return RulePage{.line = line_of(verdict, gauge),
                      .when = holds_where(verdict, gauge, System::metric),
                      .says = gauge.label + ": " + verdict_text(verdict.says, "one tyre"),
                      .because = verdict_text(verdict.because, "that tyre"),
                      .provenance = verdict.provenance.text()};
    }
  }
  return std::nullopt;
}

bool names(const std::vector<NamedRule>& rules, const std::string& id) {
  return std::any_of(rules.begin(), rules.end(),
                     [&](const NamedRule& rule) { return rule.id == id; });
}

/// Mistakes in cases are for the check to tell.
void add_cases(RulePage& page, const Pack& pack, const std::vector<Document>& cases) {
  for (const Document& document : cases) {
    if (rule_file_beside(document.name) != page.line.source.file) continue;
    Findings findings;
    for (const RuleCase& one : read_cases(document, pack, findings)) {
      if (names(one.fires, page.line.id)) page.fires_on.push_back(one.name);
      if (names(one.silent, page.line.id)) page.silent_on.push_back(one.name);
    }
  }
}

}  // namespace

std::vector<RuleLine> rule_lines(const Pack& pack) {
  std::vector<RuleRef> rules = every_rule(pack);
  std::sort(rules.begin(), rules.end(), [](const RuleRef& a, const RuleRef& b) {
    return std::tuple(a.kind, whose(a), a.rule->id) < std::tuple(b.kind, whose(b), b.rule->id);
  });
  std::vector<RuleLine> lines;
  for (const RuleRef& rule : rules) lines.push_back(line_of(rule));
  for (const Gauge& gauge : pack.gauges) {
    for (const GaugeVerdict& verdict : gauge.verdicts) lines.push_back(line_of(verdict, gauge));
  }
  return lines;
}

std::optional<RulePage> rule_page(std::string_view id, const Pack& pack,
                                  const std::vector<Document>& cases) {
  for (const RuleRef& rule : every_rule(pack)) {
    if (rule.rule->id != id) continue;
    RulePage page = page_of_rule(rule, pack);
    add_cases(page, pack, cases);
    return page;
  }
  return page_of_verdict(id, pack);
}

}  // namespace kartwright
