// A rule, what it says, and the lines that pages quote it by.

#include <cmath>

#include <fmt/format.h>

#include "engine/advice/explain_parts.h"
#include "engine/inference/situation.h"

namespace kartwright {

std::string row_text(const std::vector<RowTerm>& row) {
  std::string out;
  for (const RowTerm& term : row) {
    out += fmt::format("{}{:g} {}",
                       out.empty()       ? (term.factor < 0 ? "-" : "")
                       : term.factor < 0 ? " - "
                                         : " + ",
                       std::abs(term.factor), term.axis);
  }
  return out;
}

std::string rule_line(const Rule& rule) {
  return fmt::format("[{}] {} ({})", rule.id, rule.because, rule.provenance.text());
}

std::string cells_text(const EffectRule& rule, const Pack& pack) {
  std::string out;
  for (const Cell& cell : rule.cells) {
    out += fmt::format("{}{} {:+g} ± {:g}", out.empty() ? "" : "; ", pack.axes[cell.axis].id,
                       cell.mean, cell.sd);
  }
  return out;
}

std::vector<std::string> cautions_text(const std::vector<std::string>& ids, const Pack& pack) {
  std::vector<std::string> out;
  for (const std::string& id : ids) out.push_back(pack.caution(id)->text);
  return out;
}

std::string says(const RuleRef& rule, const Pack& pack) {
  switch (rule.kind) {
    case RuleKind::symptom: {
      const SymptomReading& reading = *rule.symptom->reading;
      return fmt::format("{}: {} = {:+g} a notch", rule.symptom->label, row_text(reading.row),
                         reading.value);
    }
    case RuleKind::reading: {
      const auto& reading = static_cast<const ReadingRule&>(*rule.rule);
      return fmt::format("{} = {:+g} ± {:g}", row_text(reading.row), reading.value, reading.sd);
    }
    case RuleKind::effect:
      return rule.adjustment->phrases[0] + ": " +
             cells_text(static_cast<const EffectRule&>(*rule.rule), pack);
    case RuleKind::evidence:
      return fmt::format("{}: {:+g} dB", rule.fault->label,
                         static_cast<const EvidenceRule&>(*rule.rule).decibans);
    case RuleKind::derive: {
      const auto& derive = static_cast<const DeriveRule&>(*rule.rule);
      return derive.fact + ":" + derive.value;
    }
  }
  return {};
}

Explanation explain_rule(const RuleRef& rule, const Pack& pack) {
  const Rule& one = *rule.rule;
  Explanation out{"rule", one.id, one.id, {}};
  out.sections.push_back({"because", {one.because}});
  out.sections.push_back(
      {"when", {describe(rule.when == nullptr ? Condition{} : *rule.when, pack)}});
  out.sections.push_back({"says", {says(rule, pack)}});
  out.sections.push_back({"from", {one.provenance.text(), one.source.text()}});
  return out;
}

}  // namespace kartwright
