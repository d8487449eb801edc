#include "engine/knowledge/built_in.h"

#include "engine/document/frozen.h"
#include "engine/knowledge/frozen_pack.h"

namespace kartwright {

// Written by the build from rules/, see engine/knowledge/freeze.
extern const unsigned char kFrozenPack[];
extern const std::size_t kFrozenPackSize;
extern const unsigned char kFrozenRules[];
extern const std::size_t kFrozenRulesSize;
extern const unsigned char kFrozenCases[];
extern const std::size_t kFrozenCasesSize;

std::vector<Document> built_in_rules() {
  return thaw({reinterpret_cast<const char*>(kFrozenRules), kFrozenRulesSize});
}

std::vector<Document> built_in_cases() {
  return thaw({reinterpret_cast<const char*>(kFrozenCases), kFrozenCasesSize});
}

Pack built_in_pack() {
  return thaw_pack({reinterpret_cast<const char*>(kFrozenPack), kFrozenPackSize});
}

}  // namespace kartwright
