// rule_mutation.h - rule files with one slip of the pen in them, as a crew might make it.
//
// A mutant is made in the documents, before they are loaded, so that the loader may refuse it. What
// is mutated: every rule with an id (symptoms, readings, effects, evidence, derivations, verdicts
// of checks), and beside them what the track brings, correlations, priors, and what stops a kart.

#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/document/document.h"

namespace kartwright {

/// Which slip. `forgotten` is a rule removed together with what its cases say of it, so that they
/// cannot miss it by its name.
enum class RuleSlip { removed, forgotten, flipped, negated, halved, doubled };
inline constexpr std::size_t kSlips = 6;
std::string_view name_of(RuleSlip slip);

struct RuleFiles {
  std::vector<Document> rules, cases;
};

struct RuleMutant {
  RuleSlip slip = RuleSlip::removed;
  std::string sort;   ///< effect, reading, evidence ...
  std::string rule;   ///< its id, or a name made of what it is about
  std::string place;  ///< of several numbers, the one that was flipped: `rear-grip.mid`; or empty
  std::size_t document = 0;         ///< the one it changes, of RuleFiles::rules
  std::function<void(Node&)> edit;  ///< of that document's root

  /// "more-is-less flipped at rear-grip.mid".
  std::string text() const;
};

/// All mutants, in the order of the files. Nothing of them is made yet.
std::vector<RuleMutant> rule_mutants(const std::vector<Document>& rules);

/// Makes a mutant in the files for as long as it lives.
class MutantAtWork {
 public:
  MutantAtWork(const RuleMutant& mutant, RuleFiles& files);
  ~MutantAtWork();
  MutantAtWork(const MutantAtWork&) = delete;
  MutantAtWork& operator=(const MutantAtWork&) = delete;

 private:
  RuleFiles& files_;
  std::size_t document_;
  Document before_;
  std::vector<Document> cases_before_ = {};  ///< where they were changed too
};

/// "-0.5 ± 0.2" with its first number times a factor: "-1 ± 0.2"; "3/4 in" halved is "0.375 in".
std::string scaled_text(std::string_view text, double factor);
/// The number that a text begins with; 0 where it begins with none.
double leading_number(std::string_view text);

}  // namespace kartwright
