// rule_jury.h - everything that can notice a slip in the rules, asked in the order of what it
// costs, until the first one does.

#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "engine/knowledge/pack.h"
#include "tests/mutants/rule_mutation.h"

namespace kartwright {

/// Who noticed. A loader that refuses the files; a case beside the rules; a claim of the trade; a
/// scenario; an error or a warning of the audit; a property that the rules state of themselves.
enum class Juror { nobody, loader, witness_case, claim, scenario, audit, property };
inline constexpr std::size_t kJurors = 7;
std::string_view name_of(Juror juror);

/// Who of them is asked, the loader always: a quick jury leaves the last ones out.
struct JurySize {
  bool claims = true;
  Juror last = Juror::property;
};

class RuleJury {
 public:
  explicit RuleJury(JurySize size = {});

  /// The first that notices something wrong with these files.
  Juror first_to_notice(const RuleFiles& files) const;

 private:
  bool notices(Juror juror, const Pack& pack, const RuleFiles& files) const;

  JurySize size_;
  std::vector<Document> claims_, scenarios_;
};

}  // namespace kartwright
