#include "tests/support/page_examples.h"

#include <sstream>
#include <stdexcept>

#include "engine/audit/audit.h"
#include "engine/audit/cases.h"
#include "engine/audit/properties.h"
#include "engine/debrief/debrief_file.h"
#include "engine/inference/belief.h"
#include "engine/inference/derive.h"
#include "engine/kart/kart.h"
#include "engine/knowledge/built_in.h"
#include "engine/knowledge/load.h"
#include "engine/records/lap_comparison.h"

namespace kartwright {
namespace {

const Pack& rules_of_the_program() {
  static const Pack pack = built_in_pack();
  return pack;
}

void use(const Pack& pack) {
  make_prior(pack);
  const Kart kart = typical_kart(pack);
  settle_facts(pack, kart, {}, {});
}

/// What the audit finds in the example itself.
std::vector<Diagnostic> found_in_audit(const Document& example) {
  std::vector<Diagnostic> found;
  // What the rules claim of their advice is tried by tests of its own.
  for (const AuditFinding& each : audit_pack(load_pack(built_in_rules(), {example}))) {
    if (each.diagnostic.file == example.name) found.push_back(each.diagnostic);
  }
  return found;
}

/// Cases stand beside the file that their first line names, and are asked for its rules only.
std::vector<Diagnostic> found_in_cases(std::string_view text) {
  constexpr std::string_view kBegin = "# ";
  const std::size_t end = text.find('\n');
  const std::string name(text.substr(kBegin.size(), end - kBegin.size()));
  return check_cases(rules_of_the_program(), {parse_document(name, std::string(text) + "\n")},
                     {rule_file_beside(name)});
}

/// Only what the example claims, on the cases that are always tried.
std::vector<Diagnostic> found_in_claims(const Document& document) {
  Pack pack = load_pack(built_in_rules(), {document});
  std::erase_if(pack.properties,
                [&](const Property& each) { return each.source.file != document.name; });
  return check_properties(pack, {.mixes = 0});
}

std::vector<Diagnostic> found_in_laps(std::string_view text) {
  Findings findings;
  std::istringstream stream{std::string(text)};
  const LapFile laps = read_lap_file(stream, "laps.csv", {.needs_group = true}, findings);
  findings.throw_if_errors();
  compare_laps(laps, 0.1, findings);
  return findings.all();
}

void read_as(Shown shown, const Document& document, Findings& findings) {
  switch (shown) {
    case Shown::kart:
      read_kart(document, rules_of_the_program(), findings);
      return;
    case Shown::debrief:
      read_debrief(document, rules_of_the_program(), findings);
      return;
    case Shown::rules:
      return use(load_pack(built_in_rules(), {document}));
    case Shown::rules_alone:
      return use(load_pack({document}));
    case Shown::apart:
    case Shown::command_line:
    case Shown::audited:
    case Shown::cases:
    case Shown::claims:
    case Shown::laps:
      throw std::logic_error("this example is not read so");
  }
}

}  // namespace

std::vector<Diagnostic> found_in_example(Shown shown, std::string_view text) {
  Findings findings;
  try {
    if (shown == Shown::cases) return found_in_cases(text);
    if (shown == Shown::laps) return found_in_laps(text);
    const Document example = parse_document("example.yaml", std::string(text) + "\n");
    if (shown == Shown::audited) return found_in_audit(example);
    if (shown == Shown::claims) return found_in_claims(example);
    read_as(shown, example, findings);
  } catch (const InputError& error) {
    return error.found();
  }
  return findings.all();
}

}  // namespace kartwright
