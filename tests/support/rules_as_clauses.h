// rules_as_clauses.h - every condition of a rule pack as plain ground clauses, for a forward
// chainer that knows nothing of packs.
//
// A test on a fact is an atom `fact:value`; a test on reports, settings or measurements is an atom
// that is given where the test holds. What is inside a condition gets atoms of its own, one clause
// for each way it can come true; that is not how the engine does it.

#pragma once

#include <map>
#include <string>
#include <vector>

#include "engine/inference/chain.h"
#include "engine/inference/situation.h"
#include "engine/knowledge/every_rule.h"

namespace kartwright {

class RulesAsClauses {
 public:
  /// REQUIRES: the pack outlives it.
  explicit RulesAsClauses(const Pack& pack);

  const Program& program() const { return program_; }
  /// The rules that have a condition, and by the same index the atom that says that it holds.
  const std::vector<RuleRef>& rules() const { return rules_; }
  Atom fired(std::size_t rule) const { return fired_[rule]; }

  /// What a case starts from: facts that were given, and tests on what is not a fact that hold.
  std::vector<Atom> given(const std::vector<Fact>& facts, const Situation& situation);

  /// The facts among some atoms, as `fact:value`, sorted.
  std::vector<std::string> facts_among(const std::vector<Atom>& atoms) const;

 private:
  struct Literal {
    Atom atom = 0;
    bool denied = false;
  };
  Atom fresh() { return program_.atoms++; }
  Atom fact(const std::string& text);
  void add(Atom head, const std::vector<Literal>& body);
  Literal literal(const Condition& condition);
  Literal literal(const Test& test);

  Program program_;
  std::vector<RuleRef> rules_;
  std::vector<Atom> fired_;
  std::map<std::string, Atom> facts_;
  std::vector<std::pair<const Test*, Atom>> tests_;  ///< of what is not a fact
};

}  // namespace kartwright
