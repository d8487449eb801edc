// Reading YAML, with every place checked and kept, beside yaml-cpp's own tree of nodes.

#include <fmt/format.h>
#include <yaml-cpp/yaml.h>

#include "engine/document/document.h"
#include "tests/bench/table_rows.h"

namespace kartwright {
namespace {

/// Rules as a crew writes them, six lines each.
std::string rules_text(int rules) {
  std::string text = "effects:\n";
  for (int i = 0; i < rules; ++i) {
    text += fmt::format(
        "  - id: rule-{0}\n    when: {{track: [cold, green], not: {{fact: raised-mass}}}}\n"
        "    moves:\n      rear-grip.mid: \"-0.{1} ± 0.2\"\n      response: 0.{1} ± 0.3\n"
        "    because: the farther out the tyre stands, the less goes down into it\n",
        i, i % 9 + 1);
  }
  return text;
}

/// The same values under the same keys, in the same order.
bool same(const Node& ours, const YAML::Node& theirs) {
  switch (ours.type) {
    case Node::Type::null:
      return theirs.IsNull();
    case Node::Type::scalar:
      return theirs.IsScalar() && theirs.Scalar() == ours.text;
    case Node::Type::list:
      break;
    case Node::Type::map: {
      if (!theirs.IsMap() || theirs.size() != ours.entries.size()) return false;
      auto entry = ours.entries.begin();
      for (const auto& one : theirs) {
        if (one.first.Scalar() != entry->key || !same(entry->value, one.second)) return false;
        ++entry;
      }
      return true;
    }
  }
  if (!theirs.IsSequence() || theirs.size() != ours.items.size()) return false;
  auto item = ours.items.begin();
  for (const auto& one : theirs) {
    if (!same(*item++, one)) return false;
  }
  return true;
}

}  // namespace

void time_yaml(Effort effort) {
  Group group("reading YAML", "yaml-cpp's nodes");
  for (const int rules : {4, 40, 400, 3'000}) {
    if (effort.quick && rules > 400) continue;
    const std::string text = rules_text(rules);
    agree(same(parse_document("rules.yaml", text).root, YAML::Load(text)), "what YAML says");
    std::size_t kept = 0;
    group.add(fmt::format("{:.3g} KiB", static_cast<double>(text.size()) / 1024.0),
              static_cast<double>(text.size()),
              pairs_of(
                  effort.quick ? 3 : 7,
                  [&] { kept += parse_document("rules.yaml", text).root.entries.size(); },
                  [&] { kept += YAML::Load(text).size(); }));
    agree(kept > 0, "nothing was read");
  }
  group.print();
}

}  // namespace kartwright
