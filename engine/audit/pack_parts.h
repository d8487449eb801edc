// pack_parts.h - a rule pack as a flat list of parts with named fields in words, so that two packs
// can be laid beside each other.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/knowledge/pack.h"

namespace kartwright {

/// What a field of a part says.
enum class FieldKind { condition, numbers, texts, status };
std::string_view name_of(FieldKind kind);

struct PartField {
  std::string name;  ///< "when", "rear-grip.mid", "because"
  FieldKind kind = FieldKind::texts;
  std::string value;  ///< numbers with every figure that they have
};

/// A rule, or anything else that a pack defines.
struct PackPart {
  std::string kind;  ///< "effect rule", "adjustment", "axis", "words"
  std::string id;    ///< of its own among the parts of one kind
  Source source = {};
  std::vector<PartField> fields = {};
};

/// Every part of a pack, rules first, then by kind. What a pack holds and what is in the parts is
/// the same: two packs with equal parts give the same advice.
std::vector<PackPart> parts_of(const Pack& pack);

}  // namespace kartwright
