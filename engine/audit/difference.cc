#include "engine/audit/difference.h"

#include "engine/knowledge/built_in.h"
#include "engine/knowledge/load.h"

namespace kartwright {

NamedPack read_named_pack(const std::string& name) {
  if (name == "built-in") return {name, built_in_pack()};
  return {name, load_pack(built_in_rules(), read_rule_folder(name))};
}

PackDifference compare_packs(const NamedPack& before, const NamedPack& after,
                             const std::vector<ScenarioFile>& scenarios) {
  return {.before = before.name,
          .after = after.name,
          .rules = rules_apart(before.pack, after.pack),
          .scenarios = scenarios_apart(before.pack, after.pack, scenarios)};
}

}  // namespace kartwright
