// What a crew looks for, states or measures: faults, track states, facts, sizes and figures.

#include <fmt/format.h>

#include "engine/advice/explain_parts.h"
#include "engine/inference/situation.h"

namespace kartwright {

Explanation explain_fault(const Fault& f, const Pack& pack) {
  Explanation out{"fault", f.id, f.label, {}};
  out.sections.push_back(
      {"look", {f.check, fmt::format("{:g} minutes; can cost {:g} notches", f.minutes, f.loss)}});
  out.sections.push_back({"if so", {f.fix}});
  if (f.stop) out.sections.back().paragraphs.emplace_back("do not send the kart out with it");
  std::vector<std::string> evidence{fmt::format("{:+g} dB before anything is known", f.prior)};
  for (const EvidenceRule& rule : f.evidence) {
    evidence.push_back(fmt::format("{:+g} dB when {}: {} [{}]", rule.decibans,
                                   describe(rule.when, pack), rule.because, rule.id));
  }
  out.sections.push_back({"evidence", evidence});
  if (!f.cautions.empty()) out.sections.push_back({"care", cautions_text(f.cautions, pack)});
  return out;
}

Explanation explain_track(const TrackState& t, const Pack& pack) {
  Explanation out{"track", t.id, t.label, {}};
  out.sections.push_back({"what it is", {t.plain}});
  std::vector<std::string> reads;
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

Explanation explain_fact(const FactDef& f) {
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

Explanation explain_quantity(const QuantityPage& page) {
  return {"quantity",
          page.id,
          page.label,
          {{"what it is", {page.plain}},
           {"in words", {page.formula}},
           {"known from", {page.known_from}},
           {"cannot say", {page.limits}}}};
}

Explanation explain_size(const MeasureDef& size, std::string_view section) {
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

}  // namespace kartwright
