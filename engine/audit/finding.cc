#include "engine/audit/finding.h"

#include <algorithm>
#include <tuple>

namespace kartwright {
namespace {

bool earlier(const Rule& a, const Rule& b) {
  return std::tie(a.source.file, a.source.line) < std::tie(b.source.file, b.source.line);
}

}  // namespace

AuditFinding finding_at(const Source& source, Code code, Severity severity, std::string message,
                        std::string help) {
  return {.diagnostic = {.code = code,
                         .severity = severity,
                         .file = source.file,
                         .span = {.line = source.line, .column = 1},
                         .message = std::move(message),
                         .help = std::move(help)}};
}

AuditFinding finding_of(const Rule& rule, Code code, Severity severity, std::string message,
                        std::string help) {
  AuditFinding out = finding_at(rule.source, code, severity, std::move(message), std::move(help));
  out.rules = {rule.id};
  return out;
}

AuditFinding finding_of(const Rule& a, const Rule& b, Code code, Severity severity,
                        std::string message) {
  const Rule& first = earlier(a, b) ? a : b;
  const Rule& later = earlier(a, b) ? b : a;
  AuditFinding out = finding_of(later, code, severity, std::move(message),
                                "`" + first.id + "` stands at " + first.source.text());
  out.rules = {a.id, b.id};
  std::sort(out.rules.begin(), out.rules.end());
  return out;
}

AuditFinding too_tangled(const Rule& rule) {
  return finding_of(rule, Code::too_tangled, Severity::note,
                    "the condition of `" + rule.id + "` is too large to be judged");
}

AuditFinding too_tangled(const Rule& a, const Rule& b) {
  return finding_of(
      a, b, Code::too_tangled, Severity::note,
      "the conditions of `" + a.id + "` and `" + b.id + "` are too large to be judged together");
}

}  // namespace kartwright
