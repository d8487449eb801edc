#include "cli/rules_json.h"

#include <nlohmann/json.hpp>

#include "cli/diagnostics.h"
#include "cli/safe_json.h"

namespace kartwright::cli {
namespace {

using Json = nlohmann::ordered_json;

Json of_finding(const AuditFinding& found, const std::string& path) {
  const Diagnostic& d = found.diagnostic;
  Json out{{"code", code_name(d.code)},
           {"level", word_of(d.severity)},
           {"file", d.file},
           {"line", d.span.line},
           {"column", d.span.column},
           {"message", d.message},
           {"help", d.help},
           {"rules", found.rules}};
  if (!path.empty()) out["witness"] = path;
  return out;
}

Json of_line(const RuleLine& line) {
  return {{"id", line.id},         {"kind", line.kind},        {"of", line.of},
          {"status", line.status}, {"file", line.source.file}, {"line", line.source.line}};
}

Json of_taken(const std::vector<CellsTaken>& all) {
  Json out = Json::array();
  for (const CellsTaken& taken : all) out.push_back({{"rule", taken.rule}, {"axes", taken.axes}});
  return out;
}

}  // namespace

std::string check_json(const Audit& audit, const std::vector<std::string>& paths) {
  Json findings = Json::array();
  for (std::size_t i = 0; i < audit.findings.size(); ++i) {
    findings.push_back(of_finding(audit.findings[i], paths[i]));
  }
  return json_line({{"schema", "kartwright/rules-check/1"},
                    {"files", audit.files},
                    {"rules", audit.rules},
                    {"errors", audit.count(Severity::error)},
                    {"warnings", audit.count(Severity::warning)},
                    {"notes", audit.count(Severity::note)},
                    {"findings", findings}});
}

std::string list_json(const std::vector<RuleLine>& lines) {
  Json rules = Json::array();
  for (const RuleLine& line : lines) rules.push_back(of_line(line));
  return json_line({{"schema", "kartwright/rules-list/1"}, {"rules", rules}});
}

std::string show_json(const RulePage& page) {
  Json out{{"schema", "kartwright/rules-show/1"}};
  out.update(of_line(page.line));
  out["when"] = page.when;
  out["says"] = page.says;
  out["because"] = page.because;
  out["provenance"] = page.provenance;
  out["contested"] = page.contested;
  out["replaces"] = of_taken(page.replaces);
  out["replaced_by"] = of_taken(page.replaced_by);
  out["fires_on"] = page.fires_on;
  out["silent_on"] = page.silent_on;
  return json_line(out);
}

}  // namespace kartwright::cli
