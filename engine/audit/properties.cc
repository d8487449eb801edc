#include "engine/audit/properties.h"

#include <fmt/format.h>

namespace kartwright {
namespace {

Code code_of(PropertyKind kind) {
  switch (kind) {
    case PropertyKind::opposite_moves:
      return Code::moves_not_opposite;
    case PropertyKind::left_and_right:
      return Code::sides_differ;
    case PropertyKind::inches_and_millimetres:
      return Code::units_differ;
    case PropertyKind::worse_reports:
      break;
  }
  return Code::worse_report_lowers;
}

std::vector<Counterexample> try_claim(const Property& claim, const Pack& pack,
                                      const TrialSize& size) {
  switch (claim.kind) {
    case PropertyKind::opposite_moves:
      return try_opposite_moves(claim, pack, size);
    case PropertyKind::left_and_right:
      return try_left_and_right(claim, pack, size);
    case PropertyKind::inches_and_millimetres:
      return try_inches_and_millimetres(claim, pack, size);
    case PropertyKind::worse_reports:
      break;
  }
  return try_worse_reports(claim, pack, size);
}

/// What else breaks it, and what can be done.
std::string help_for(const Property& claim, const std::vector<Counterexample>& broken) {
  std::vector<std::string> others;
  for (std::size_t i = 1; i < broken.size(); ++i) others.push_back("`" + broken[i].subject + "`");
  std::string help = others.empty() ? "" : fmt::format("so too with {}; ", fmt::join(others, ", "));
  if (claim.kind == PropertyKind::inches_and_millimetres) {
    return help + "look for an amount in a rule that is finer than a kart file can write";
  }
  return help + fmt::format("mend the rule, or name {} with a reason under `except`",
                            is_of_symptoms(claim.kind) ? "the symptom" : "the adjustment");
}

}  // namespace

std::vector<Diagnostic> check_properties(const Pack& pack, const TrialSize& size) {
  std::vector<Diagnostic> found;
  for (const Property& claim : pack.properties) {
    const std::vector<Counterexample> broken = try_claim(claim, pack, size);
    if (broken.empty()) continue;
    found.push_back({.code = code_of(claim.kind),
                     .file = claim.source.file,
                     .span = {.line = claim.source.line, .column = 1},
                     .message = fmt::format("`{}` does not hold: {}", claim.id, broken[0].text),
                     .help = help_for(claim, broken)});
  }
  return found;
}

}  // namespace kartwright
