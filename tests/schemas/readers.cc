#include "tests/schemas/readers.h"

#include <array>

#include "engine/audit/cases.h"
#include "engine/debrief/debrief_file.h"
#include "engine/knowledge/built_in.h"
#include "engine/knowledge/load.h"
#include "tests/scenarios/expectation.h"

namespace kartwright {
namespace {

void read_as(FileKind kind, const std::string& text, Findings& findings) {
  const Document document =
      parse_document(KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/tried.yaml", text);
  const Pack& pack = rules_of_schemas();
  switch (kind) {
    case FileKind::kart:
      read_kart(document, pack, findings);
      return;
    case FileKind::debrief:
      read_debrief(document, pack, findings);
      return;
    case FileKind::scenario:
      read_scenario(document, pack, findings);
      return;
    case FileKind::cases:
      read_cases(document, pack, findings);
      return;
    case FileKind::rule:
      load_pack(built_in_rules(), {document});
      return;
  }
}

}  // namespace

std::string name_of(FileKind kind) {
  constexpr std::array<const char*, 5> kNames{"kart", "debrief", "scenario", "cases", "rule"};
  return kNames.at(static_cast<std::size_t>(kind));
}

const Pack& rules_of_schemas() {
  static const Pack pack = built_in_pack();
  return pack;
}

std::vector<Diagnostic> loader_errors(FileKind kind, const std::string& text) {
  Findings findings;
  std::vector<Diagnostic> errors;
  try {
    read_as(kind, text, findings);
  } catch (const InputError& error) {
    errors = error.found();
  }
  for (const Diagnostic& each : findings.all()) errors.push_back(each);
  std::erase_if(errors, [](const Diagnostic& d) { return d.severity != Severity::error; });
  return errors;
}

}  // namespace kartwright
