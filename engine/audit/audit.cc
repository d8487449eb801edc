#include "engine/audit/audit.h"

#include <algorithm>
#include <iterator>
#include <set>
#include <tuple>

#include "engine/audit/cases.h"
#include "engine/audit/checks.h"
#include "engine/audit/properties.h"
#include "engine/knowledge/load.h"

namespace kartwright {
namespace {

/// The span of the first map that begins on a line, as rules do.
const Node* map_on(const Node& node, int line) {
  if (node.type == Node::Type::map && node.span.line == line) return &node;
  for (const Node& item : node.items) {
    if (const Node* found = map_on(item, line)) return found;
  }
  for (const Entry& entry : node.entries) {
    if (const Node* found = map_on(entry.value, line)) return found;
  }
  return nullptr;
}

/// The column, and the line of the file where the document has its text. A finding that has them
/// keeps them.
void place(Diagnostic& diagnostic, const std::vector<Document>& documents) {
  if (!diagnostic.source.empty()) return;
  const auto found = std::find_if(documents.begin(), documents.end(), [&](const Document& each) {
    return each.name == diagnostic.file;
  });
  if (found == documents.end()) return;
  const Node* node = map_on(found->root, diagnostic.span.line);
  if (node != nullptr) diagnostic.span.column = node->span.column;
  const std::string line = found->line(diagnostic.span.line);
  if (!line.empty()) show_source(diagnostic, line);
}

/// What was found by a check that knows nothing of audits.
void add(const std::vector<Diagnostic>& found, AuditFindings& out) {
  for (const Diagnostic& each : found) out.push_back({.diagnostic = each});
}

std::set<std::string> names_of(const std::vector<Document>& documents) {
  std::set<std::string> names;
  for (const Document& document : documents) names.insert(document.name);
  return names;
}

bool found_before(const AuditFinding& a, const AuditFinding& b) {
  const auto key = [](const Diagnostic& d) {
    return std::tuple(d.severity, std::string_view(d.file), d.span.line, d.code,
                      std::string_view(d.message));
  };
  return key(a.diagnostic) < key(b.diagnostic);
}

}  // namespace

std::size_t Audit::count(Severity severity) const {
  return static_cast<std::size_t>(std::count_if(
      findings.begin(), findings.end(),
      [&](const AuditFinding& found) { return found.diagnostic.severity == severity; }));
}

AuditFindings audit_pack(const Pack& pack) {
  AuditFindings out;
  for (const auto& check : {check_prior, check_cycles, check_conditions, check_facts, check_twins,
                            check_opposites, check_reach}) {
    AuditFindings found = check(pack);
    std::move(found.begin(), found.end(), std::back_inserter(out));
  }
  return out;
}

Audit audit(const std::vector<Document>& base, const std::vector<Document>& own,
            const std::optional<std::vector<Document>>& cases) {
  Audit out{.findings = {}, .files = base.size() + own.size()};
  try {
    const Pack pack = load_pack(base, own);
    out.rules = every_rule(pack).size();
    out.findings = audit_pack(pack);
    if (out.count(Severity::error) == 0) add(check_properties(pack), out.findings);
    if (cases) add(check_cases(pack, *cases, names_of(own)), out.findings);
  } catch (const InputError& error) {
    add(error.found(), out.findings);
  }
  for (AuditFinding& found : out.findings) {
    place(found.diagnostic, own);
    place(found.diagnostic, base);
  }
  std::stable_sort(out.findings.begin(), out.findings.end(), found_before);
  return out;
}

}  // namespace kartwright
