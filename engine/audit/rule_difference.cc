#include "engine/audit/rule_difference.h"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

namespace kartwright {
namespace {

const std::string* value_in(const PackPart& part, const std::string& field) {
  const auto found = std::find_if(part.fields.begin(), part.fields.end(),
                                  [&](const PartField& each) { return each.name == field; });
  return found == part.fields.end() ? nullptr : &found->value;
}

std::string value_or_none(const PackPart& part, const std::string& field) {
  const std::string* const value = value_in(part, field);
  return value == nullptr ? "" : *value;
}

std::vector<FieldDifference> fields_apart(const PackPart& before, const PackPart& after) {
  std::vector<FieldDifference> apart;
  for (const PartField& old : before.fields) {
    const std::string now = value_or_none(after, old.name);
    if (now != old.value) apart.push_back({old.name, old.kind, old.value, now});
  }
  for (const PartField& fresh : after.fields) {
    if (value_in(before, fresh.name) == nullptr && !fresh.value.empty()) {
      apart.push_back({fresh.name, fresh.kind, "", fresh.value});
    }
  }
  return apart;
}

using Key = std::pair<std::string_view, std::string_view>;

std::map<Key, const PackPart*> by_key(const std::vector<PackPart>& parts) {
  std::map<Key, const PackPart*> all;
  for (const PackPart& part : parts) all[{part.kind, part.id}] = &part;
  return all;
}

PartDifference difference_of(Happened happened, const PackPart& part) {
  return {.happened = happened, .kind = part.kind, .id = part.id, .of = value_or_none(part, "of")};
}

/// The place of each kind among the parts of both packs, rules first as they come.
std::vector<std::string_view> kinds_in_order(const std::vector<PackPart>& before,
                                             const std::vector<PackPart>& after) {
  std::vector<std::string_view> kinds;
  for (const auto* const parts : {&before, &after}) {
    for (const PackPart& part : *parts) {
      const bool seen = std::find(kinds.begin(), kinds.end(), part.kind) != kinds.end();
      if (!seen) kinds.push_back(part.kind);
    }
  }
  std::stable_partition(kinds.begin(), kinds.end(),
                        [](std::string_view kind) { return kind.ends_with(" rule"); });
  return kinds;
}

}  // namespace

std::string_view name_of(Happened happened) {
  static constexpr std::array<std::string_view, 3> kNames{"added", "removed", "changed"};
  return kNames.at(static_cast<std::size_t>(happened));
}

std::vector<PartDifference> rules_apart(const Pack& before, const Pack& after) {
  const std::vector<PackPart> old_parts = parts_of(before), new_parts = parts_of(after);
  const auto old_by_key = by_key(old_parts), new_by_key = by_key(new_parts);
  std::vector<PartDifference> apart;
  for (const PackPart& old : old_parts) {
    const auto now = new_by_key.find({old.kind, old.id});
    const bool gone = now == new_by_key.end();
    PartDifference one = difference_of(gone ? Happened::removed : Happened::changed, old);
    one.before = old.source;
    if (!gone) one.after = now->second->source;
    if (!gone) one.fields = fields_apart(old, *now->second);
    if (gone || !one.fields.empty()) apart.push_back(std::move(one));
  }
  for (const PackPart& fresh : new_parts) {
    if (old_by_key.contains({fresh.kind, fresh.id})) continue;
    apart.push_back(difference_of(Happened::added, fresh));
    apart.back().after = fresh.source;
  }
  const std::vector<std::string_view> kinds = kinds_in_order(old_parts, new_parts);
  const auto place = [&](const PartDifference& each) {
    return std::find(kinds.begin(), kinds.end(), each.kind) - kinds.begin();
  };
  std::stable_sort(apart.begin(), apart.end(),
                   [&](const auto& a, const auto& b) { return place(a) < place(b); });
  return apart;
}

}  // namespace kartwright
