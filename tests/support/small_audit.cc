#include "tests/support/small_audit.h"

#include <fmt/format.h>

#include "engine/knowledge/load.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

constexpr std::string_view kLists = R"(measures:
  - measure: front-share
    label: front share
    kind: ratio
    plausible: {from: 30 %, to: 60 %}
    band: {from: 41 %, to: 43 %}
symptoms:
  - {symptom: push, label: push, plain: it runs wide, phases: [entry, mid]}
)";

constexpr std::string_view kAuditedRearWidth = R"(adjustment: rear-width
label: rear width
measured: overall
directions: [wider, narrower]
phrases: [rear wider, rear narrower]
kind: length
reference-step: 10 mm
usual: {from: 1300 mm, to: 1400 mm, step: 5 mm}
typical: 1360 mm
most-at-once: 15 mm
minutes: 6
explain: wider frees the rear
plain: x
limits: x
watch: {wider: x, narrower: x}
back-out: {wider: x, narrower: x}
effects:
)";

constexpr std::string_view kAuditedAxle = R"(adjustment: axle
label: axle
measured: by its grade
directions: [stiffer, softer]
phrases: [stiffer axle, softer axle]
positions: [soft, medium, hard]
typical: medium
most-at-once: 1
minutes: 20
parts: yes
explain: it depends
plain: x
limits: x
effects: []
watch: {stiffer: x, softer: x}
back-out: {stiffer: x, softer: x}
)";

constexpr std::string_view kFault = R"(fault: bent-axle
label: bent axle
check: spin it
fix: a new axle
prior: -17
minutes: 2
loss: 3
provenance: {practice: common}
evidence:
)";

constexpr std::string_view kAuditedFacts = R"(facts:
  - {fact: hit, label: a knock, values: [yes, no]}
  - {fact: turn-in, label: turning in on, values: [brake, throttle]}
  - {fact: track, label: track, values: [cold, wet]}
)";

std::string section(const char* title, const std::string& items) {
  return items.empty() ? "" : std::string(title) + ":\n" + items;
}

}  // namespace

std::vector<Document> SmallAudit::documents() const {
  const std::string base = rule_text("wider-frees", "", "moves: {grip: -0.5 ± 0.2}");
  const std::string push =
      rule_text("push-may-be-the-axle", "report: push", "decibans: +5") +
      rule_text("braking-in-may-be-the-axle", "fact: {turn-in: brake}", "decibans: +1");
  std::vector<std::pair<std::string, std::string>> files{
      {"axes.yaml", axes_text({"grip"})},
      {"lists.yaml", std::string(kLists)},
      {"rear-width.yaml", std::string(kAuditedRearWidth) + base + effects},
      {"axle.yaml", std::string(kAuditedAxle)},
      {"bent-axle.yaml", std::string(kFault) + push + evidence},
      {"facts.yaml", std::string(kAuditedFacts) + facts},
      {"cold.yaml", "{track: cold, label: cold, plain: cold}\n"},
      {"wet.yaml", "{track: wet, label: wet, plain: wet}\n"},
      {"rules.yaml", section("readings", readings) + section("derive", derive)},
      {"more.yaml", lists}};
  std::vector<Document> out;
  for (auto& [name, text] : files) out.push_back(parse_document(name, text));
  return out;
}

Pack SmallAudit::pack() const { return load_pack(documents()); }

std::string rule_text(std::string_view id, std::string_view when, std::string_view says) {
  const std::string condition = when.empty() ? "" : fmt::format("when: {{{}}}, ", when);
  return fmt::format("  - {{id: {}, {}{}, {}}}\n", id, condition, says, kRuleTail);
}

std::string told(const AuditFindings& found) {
  std::string out;
  for (const AuditFinding& each : found) {
    const Severity level = each.diagnostic.severity;
    out += fmt::format("{} {} {}\n", code_name(each.diagnostic.code),
                       level == Severity::error     ? "error"
                       : level == Severity::warning ? "warning"
                                                    : "note",
                       fmt::join(each.rules, ", "));
  }
  return out;
}

}  // namespace kartwright
