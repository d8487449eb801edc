#include "engine/advice/explain.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/advice/explain_gauge.h"
#include "engine/document/code_pages.h"
#include "engine/inference/situation.h"

namespace kartwright {
namespace {

using Paragraphs = std::vector<std::string>;

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

std::string range_text(const Adjustment& a) {
  if (a.listed()) {
    return fmt::format("positions {}; at most {:g} at once", fmt::join(a.positions, ", "),
                       a.most_at_once);
  }
  const auto print = [&](double si) { return print_quantity(si, a.kind, System::metric); };
  return fmt::format("usually {} to {} by {}; at most {} at once", print(a.from), print(a.to),
                     print(a.step), print(a.most_at_once));
}

Explanation of(const QuantityPage& page) {
  return {"quantity",
          page.id,
          page.label,
          {{"what it is", {page.plain}},
           {"in words", {page.formula}},
           {"known from", {page.known_from}},
           {"cannot say", {page.limits}}}};
}

Explanation of(const Symptom& s, const Pack& pack) {
  Explanation out{"symptom", s.id, s.label, {}};
  out.sections.push_back({"what it is", {s.plain}});
  if (!s.apart.empty()) out.sections.push_back({"told apart", {s.apart}});
  if (s.reading) {
    out.sections.push_back(
        {"reads",
         {fmt::format("{} = {:+g} a notch of severity", row_text(s.reading->row), s.reading->value),
          rule_line(*s.reading)}});
  }
  std::string said;
  for (const Phrase& phrase : pack.phrases) {
    if (phrase.means != Phrase::Means::symptom || phrase.id != s.id) continue;
    said += fmt::format("{}{}", said.empty() ? "" : ", ", fmt::join(phrase.words, " "));
  }
  if (!said.empty()) out.sections.push_back({"said as", Paragraphs{said}});
  return out;
}

Explanation of(const Adjustment& a, const Pack& pack) {
  Explanation out{"adjustment", a.id, a.label, {}};
  out.sections.push_back({"why it works", {a.explain}});
  out.sections.push_back(
      {"measured", {a.measured, range_text(a), fmt::format("{:g} minutes", a.minutes)}});
  const std::string step = a.listed()
                               ? "one position"
                               : print_quantity(std::abs(a.reference_step), a.kind, System::metric);
  for (const EffectRule& rule : a.effects) {
    Paragraphs lines{cells_text(rule, pack), rule_line(rule)};
    if (rule.contested) lines.emplace_back("contested: treat it as a test worth logging");
    const std::string when =
        rule.when.op == Condition::Op::always ? "" : ", when " + describe(rule.when, pack);
    out.sections.push_back({fmt::format("{}, {}{}", a.phrases[0], step, when), lines});
  }
  for (std::size_t d = 0; d < 2; ++d) {
    out.sections.push_back(
        {a.phrases.at(d), {"right: " + a.watch.at(d), "wrong: " + a.back_out.at(d)}});
  }
  Paragraphs care;
  for (const std::string& id : a.cautions) care.push_back(pack.caution(id)->text);
  out.sections.push_back({"care", care});
  return out;
}

Explanation of(const Fault& f, const Pack& pack) {
  Explanation out{"fault", f.id, f.label, {}};
  out.sections.push_back(
      {"look", {f.check, fmt::format("{:g} minutes; can cost {:g} notches", f.minutes, f.loss)}});
  out.sections.push_back({"if so", {f.fix}});
  if (f.stop) out.sections.back().paragraphs.emplace_back("do not send the kart out with it");
  Paragraphs evidence{fmt::format("{:+g} dB before anything is known", f.prior)};
  for (const EvidenceRule& rule : f.evidence) {
    evidence.push_back(fmt::format("{:+g} dB when {}: {} [{}]", rule.decibans,
                                   describe(rule.when, pack), rule.because, rule.id));
  }
  out.sections.push_back({"evidence", evidence});
  Paragraphs care;
  for (const std::string& id : f.cautions) care.push_back(pack.caution(id)->text);
  if (!care.empty()) out.sections.push_back({"care", care});
  return out;
}

Explanation of(const TrackState& t, const Pack& pack) {
  Explanation out{"track", t.id, t.label, {}};
  out.sections.push_back({"what it is", {t.plain}});
  Paragraphs reads;
  for (const ReadingRule& rule : pack.readings) {
    if (describe(rule.when, pack).find("track:" + t.id) == std::string::npos) continue;
    reads.push_back(fmt::format("{} = {:+g} ± {:g}", row_text(rule.row), rule.value, rule.sd));
    reads.push_back(rule_line(rule));
  }
  if (!reads.empty()) out.sections.push_back({"reads", reads});
  if (!t.ahead.empty()) {
    out.sections.push_back(
        {"what comes next",
         {fmt::format("{}: {}, notches at every phase", t.ahead, row_text(t.shift))}});
  }
  return out;
}

Explanation of(const FactDef& f, const Pack& /*pack*/) {
  Explanation out{"fact", f.id, f.label, {}};
  const std::string values = fmt::format("{}", fmt::join(f.values, ", "));
  if (f.entered) {
    out.sections.push_back({"state it", {fmt::format("--fact {}=VALUE, with {}", f.id, values)}});
  } else {
    out.sections.push_back({"worked out", {"by the program; values " + values}});
  }
  if (!f.question.empty()) out.sections.push_back({"ask", {f.question}});
  return out;
}

/// A measurement or a size, in the section of a kart file where it stands.
Explanation of(const MeasureDef& size, std::string_view section) {
  const auto print = [&](double si) { return print_quantity(si, size.kind, System::metric); };
  Explanation out{"size", size.id, size.label, {}};
  out.sections.push_back({"in the kart file", {fmt::format("{}: {{{}: ...}}", section, size.id)}});
  out.sections.push_back(
      {"plausible", {fmt::format("{} to {}", print(size.from), print(size.to))}});
  if (size.likely_from && size.likely_to) {
    out.sections.push_back(
        {"most karts",
         {fmt::format("{} to {}", print(*size.likely_from), print(*size.likely_to))}});
  }
  if (size.band_from && size.band_to) {
    out.sections.push_back({"wanted",
                            {fmt::format("{} to {}, unless the kart file's `bands` say otherwise",
                                         print(*size.band_from), print(*size.band_to))}});
  }
  if (size.assumed) {
    out.sections.push_back({"assumed",
                            {fmt::format("{}{}", print(*size.assumed),
                                         size.known_from.empty() ? "" : "; " + size.known_from)}});
  }
  return out;
}

/// A rule with the condition it waits for and what it says.
Explanation of_rule(const Rule& rule, const Condition& when, std::string says, const Pack& pack) {
  Explanation out{"rule", rule.id, rule.id, {}};
  out.sections.push_back({"because", {rule.because}});
  out.sections.push_back({"when", {describe(when, pack)}});
  out.sections.push_back({"says", {std::move(says)}});
  out.sections.push_back({"from", {rule.provenance.text(), rule.source.text()}});
  return out;
}

std::optional<Explanation> find_rule(std::string_view id, const Pack& pack) {
  for (const RuleRef& rule : every_rule(pack)) {
    if (rule.rule->id != id) continue;
    const Condition when = rule.when == nullptr ? Condition{} : *rule.when;
    return of_rule(*rule.rule, when, says(rule, pack), pack);
  }
  return std::nullopt;
}

std::string lowered(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  return text;
}

void add_page(const CodePage& page, Explanation& out) {
  const std::string stands(where(page.shown));
  out.sections.push_back({"what", {std::string(page.what)}});
  out.sections.push_back({"why", {std::string(page.why)}});
  out.sections.push_back({"avoid", {std::string(page.avoid)}, stands});
  out.sections.push_back({"prefer", {std::string(page.prefer)}, stands});
}

/// A diagnostic's code: `k003`, as it is looked for.
std::optional<Explanation> find_message(std::string_view id) {
  const auto* const found = std::find_if(kCodes.begin(), kCodes.end(), [&](const CodeText& each) {
    return lowered(std::string(each.name)) == id;
  });
  if (found == kCodes.end()) return std::nullopt;
  Explanation out{"message", std::string(found->name), std::string(found->meaning), {}};
  if (const CodePage* page = page_of(found->code)) add_page(*page, out);
  out.sections.push_back({"do", {std::string(found->mend)}});
  return out;
}

std::vector<std::string> message_ids() {
  std::vector<std::string> ids;
  for (const CodeText& each : kCodes) ids.emplace_back(each.name);
  return ids;
}

template <typename T>
std::vector<std::string> ids_of(const std::vector<T>& all) {
  std::vector<std::string> ids;
  for (const T& item : all) ids.push_back(item.id);
  return ids;
}

/// `check-toe`, since `toe` is an adjustment.
std::vector<std::string> check_ids(const Pack& pack) {
  std::vector<std::string> ids;
  for (const Gauge& gauge : pack.gauges) ids.push_back("check-" + gauge.id);
  return ids;
}

/// What a kart file may say of measurements and sizes; those of a check have the check's page.
std::vector<std::string> size_ids(const Pack& pack) {
  std::vector<std::string> ids;
  for (const auto* sizes : {&pack.measures, &pack.dimensions}) {
    for (const MeasureDef& size : *sizes) {
      const auto is_page = [&](const QuantityPage& page) { return page.id == size.id; };
      const bool has_page = std::any_of(pack.quantities.begin(), pack.quantities.end(), is_page);
      if (!has_page && gauge_named(size.id, pack) == nullptr) ids.push_back(size.id);
    }
  }
  return ids;
}

std::vector<std::string> rule_ids(const Pack& pack) {
  std::vector<std::string> ids;
  for (const RuleRef& rule : every_rule(pack)) ids.push_back(rule.rule->id);
  std::sort(ids.begin(), ids.end());
  return ids;
}

}  // namespace

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

std::optional<Explanation> explain(std::string_view id, const Pack& pack) {
  if (const Symptom* s = pack.symptom(id)) return of(*s, pack);
  if (const Adjustment* a = pack.adjustment(id)) return of(*a, pack);
  if (const Fault* f = pack.fault(id)) return of(*f, pack);
  if (const TrackState* t = pack.track(id)) return of(*t, pack);
  if (const FactDef* f = pack.fact(id)) return of(*f, pack);
  if (auto message = find_message(id)) return message;
  if (const Gauge* gauge = gauge_named(id, pack)) return explain_gauge(*gauge, pack);
  for (const QuantityPage& page : pack.quantities) {
    if (page.id == id) return of(page);
  }
  if (const MeasureDef* m = pack.measure(id)) return of(*m, "measured");
  if (const MeasureDef* d = pack.dimension(id)) return of(*d, "dimensions");
  return find_rule(id, pack);
}

std::vector<std::pair<std::string, std::vector<std::string>>> explainable(const Pack& pack) {
  return {{"symptoms", ids_of(pack.symptoms)},
          {"adjustments", ids_of(pack.adjustments)},
          {"faults", ids_of(pack.faults)},
          {"track", ids_of(pack.tracks)},
          {"facts", ids_of(pack.facts)},
          {"checks", check_ids(pack)},
          {"quantities", ids_of(pack.quantities)},
          {"sizes", size_ids(pack)},
          {"rules", rule_ids(pack)},
          {"messages", message_ids()}};
}

}  // namespace kartwright
