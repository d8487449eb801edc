// audit.h - is a rule pack sound? Everything that is wrong with it, before a driver meets it.

#pragma once

#include <optional>
#include <vector>

#include "engine/audit/finding.h"

namespace kartwright {

struct Audit {
  AuditFindings findings;  ///< errors first, then warnings, then notes; each by file and line
  std::size_t files = 0;
  std::size_t rules = 0;  ///< 0 where the pack does not load
  std::size_t count(Severity severity) const;
};

/// Loads the pack of these documents, as load_pack does, and checks it. What keeps it from loading
/// is then all that is found; what it claims of its advice is tried where nothing else is an error.
/// Where `cases` are given, every rule of `own` (of `base` where `own`
/// is empty) needs one where it fires and one where it stays silent. Never throws InputError.
Audit audit(const std::vector<Document>& base, const std::vector<Document>& own = {},
            const std::optional<std::vector<Document>>& cases = {});

/// What is wrong with a pack that loads; places without columns.
AuditFindings audit_pack(const Pack& pack);

}  // namespace kartwright
