#include "tests/mutants/rule_jury.h"

#include <algorithm>
#include <optional>

#include "engine/advice/advise.h"
#include "engine/audit/audit.h"
#include "engine/audit/cases.h"
#include "engine/audit/properties.h"
#include "engine/knowledge/load.h"
#include "tests/scenarios/claim.h"
#include "tests/scenarios/verdict.h"
#include "tests/support/scenario_files.h"

namespace kartwright {
namespace {

constexpr std::array<std::string_view, kJurors> kJurorNames{
    "nobody", "loader", "case", "claim", "scenario", "audit", "property"};

bool keeps_claims(const std::vector<Document>& documents, const Pack& pack) {
  return std::all_of(documents.begin(), documents.end(), [&](const Document& document) {
    Findings findings;
    const std::vector<Claim> claims = read_claims(document, pack, findings);
    return !findings.has_errors() &&
           std::all_of(claims.begin(), claims.end(),
                       [&](const Claim& claim) { return not_kept(claim, pack).empty(); });
  });
}

bool keeps_scenarios(const std::vector<Document>& documents, const Pack& pack) {
  return std::all_of(documents.begin(), documents.end(), [&](const Document& document) {
    Findings findings;
    const Scenario scenario = read_scenario(document, pack, findings);
    if (findings.has_errors()) return false;
    const Advice advice = advise(pack, scenario.kart, scenario.debrief, scenario.kart.units);
    return not_met(scenario.expect, advice, pack).empty();
  });
}

bool is_sound(const Pack& pack) {
  const AuditFindings found = audit_pack(pack);
  return std::all_of(found.begin(), found.end(), [](const AuditFinding& each) {
    return each.diagnostic.severity == Severity::note;
  });
}

}  // namespace

std::string_view name_of(Juror juror) { return kJurorNames.at(static_cast<std::size_t>(juror)); }

RuleJury::RuleJury(JurySize size) : size_(size) {
  if (size.claims) claims_ = claim_documents();
  if (size.last < Juror::scenario) return;
  for (const std::string& path : scenario_files()) scenarios_.push_back(read_document(path));
}

bool RuleJury::notices(Juror juror, const Pack& pack, const RuleFiles& files) const {
  switch (juror) {
    case Juror::witness_case:
      return !check_cases(pack, files.cases).empty();
    case Juror::claim:
      return !keeps_claims(claims_, pack);
    case Juror::scenario:
      return !keeps_scenarios(scenarios_, pack);
    case Juror::audit:
      return !is_sound(pack);
    case Juror::property:
      return !check_properties(pack).empty();
    case Juror::nobody:
    case Juror::loader:
      break;
  }
  return false;
}

Juror RuleJury::first_to_notice(const RuleFiles& files) const {
  std::optional<Pack> pack;
  try {
    pack = load_pack(files.rules);
  } catch (const InputError&) {
    return Juror::loader;
  }
  for (int i = static_cast<int>(Juror::witness_case); i <= static_cast<int>(size_.last); ++i) {
    const auto juror = static_cast<Juror>(i);
    try {
      if (notices(juror, *pack, files)) return juror;
    } catch (const InputError&) {
      return juror;  // the pack cannot be used at all
    }
  }
  return Juror::nobody;
}

}  // namespace kartwright
