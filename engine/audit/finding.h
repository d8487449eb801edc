// finding.h - what the audit of a rule pack found, one value a cause.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/audit/witness.h"
#include "engine/document/diagnostic.h"

namespace kartwright {

struct AuditFinding {
  Diagnostic diagnostic;
  std::vector<std::string> rules = {};  ///< ids of the rules it is about
  std::optional<Witness> witness = {};  ///< a case that shows it
};

using AuditFindings = std::vector<AuditFinding>;

/// A finding at a place in the rule files; its column and line are filled in later.
AuditFinding finding_at(const Source& source, Code code, Severity severity, std::string message,
                        std::string help = {});
/// The same at a rule, which it is then about.
AuditFinding finding_of(const Rule& rule, Code code, Severity severity, std::string message,
                        std::string help = {});
/// The same at the later of two rules, about both. `help` names where the other stands.
AuditFinding finding_of(const Rule& a, const Rule& b, Code code, Severity severity,
                        std::string message);

/// A condition, or two taken together, that was not taken apart.
AuditFinding too_tangled(const Rule& rule);
AuditFinding too_tangled(const Rule& a, const Rule& b);

}  // namespace kartwright
