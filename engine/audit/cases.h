// cases.h - the cases beside a rule file: where each of its rules must fire, and where it must stay
// silent.
//
// X.cases.yaml stands beside X.yaml and speaks for the rules of that file alone. A case is a
// debrief in reports and facts, on a kart of its own or on the typical one.

#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "engine/debrief/debrief.h"
#include "engine/document/document.h"
#include "engine/kart/kart.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

/// A rule as a case names it, and where.
struct NamedRule {
  std::string id;
  Span span;
};

struct RuleCase {
  std::string name;  ///< in the trade's words
  Span span;         ///< where the name stands
  Debrief debrief;
  std::optional<Kart> kart = {};  ///< none: the typical kart
  std::vector<NamedRule> fires = {}, silent = {};
};

/// Reads a cases document, adding every mistake to `findings`. What cannot be read is left out, so
/// cases with errors are not to be run. REQUIRES: the pack outlives the cases.
std::vector<RuleCase> read_cases(const Document& document, const Pack& pack, Findings& findings);

/// The rule file that cases of this name stand beside: `x.yaml` of `x.cases.yaml`.
std::string rule_file_beside(std::string_view cases);

/// Runs all cases and gives what is wrong, in the order of the documents, then of the rules: cases
/// that cannot be read, a rule that does not do as its case says, a case that names a rule of
/// another file or none, and a rule without a case where it fires or one where it stays silent.
/// Every rule of the pack needs both; or, where `files` is not empty, every rule of those files: so
/// a crew's own rules can be checked on top of the built-in ones. Never throws InputError.
std::vector<Diagnostic> check_cases(const Pack& pack, const std::vector<Document>& documents,
                                    const std::set<std::string>& files = {});

}  // namespace kartwright
