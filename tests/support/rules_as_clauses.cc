#include "tests/support/rules_as_clauses.h"

#include <algorithm>

namespace kartwright {

RulesAsClauses::RulesAsClauses(const Pack& pack) {
  for (const DeriveRule& rule : pack.derives) {
    add(fact(rule.fact + ":" + rule.value), {literal(rule.when)});
  }
  for (const RuleRef& rule : every_rule(pack)) {
    if (rule.when == nullptr) continue;
    rules_.push_back(rule);
    fired_.push_back(fresh());
    add(fired_.back(), {literal(*rule.when)});
  }
}

std::vector<Atom> RulesAsClauses::given(const std::vector<Fact>& facts,
                                        const Situation& situation) {
  std::vector<Atom> out;
  for (const Fact& each : facts) out.push_back(fact(each.text()));
  for (const auto& [test, atom] : tests_) {
    if (holds(*test, situation)) out.push_back(atom);
  }
  return out;
}

std::vector<std::string> RulesAsClauses::facts_among(const std::vector<Atom>& atoms) const {
  std::vector<std::string> out;
  for (const auto& [text, atom] : facts_) {
    if (std::binary_search(atoms.begin(), atoms.end(), atom)) out.push_back(text);
  }
  return out;
}

Atom RulesAsClauses::fact(const std::string& text) {
  const auto found = facts_.find(text);
  return found != facts_.end() ? found->second : facts_.emplace(text, fresh()).first->second;
}

void RulesAsClauses::add(Atom head, const std::vector<Literal>& body) {
  Clause clause{.head = head};
  for (const Literal& each : body) {
    (each.denied ? clause.without : clause.needs).push_back(each.atom);
  }
  program_.clauses.push_back(std::move(clause));
}

RulesAsClauses::Literal RulesAsClauses::literal(const Test& test) {
  const auto* const on_fact = std::get_if<FactTest>(&test);
  const Atom own = fresh();
  if (on_fact == nullptr) {
    tests_.emplace_back(&test, own);
    return {own};
  }
  for (const std::string& value : on_fact->values) add(own, {{fact(on_fact->fact + ":" + value)}});
  return {own};
}

RulesAsClauses::Literal RulesAsClauses::literal(const Condition& condition) {
  if (condition.op == Condition::Op::test) return literal(condition.test);
  std::vector<Literal> parts;
  for (const Condition& part : condition.parts) parts.push_back(literal(part));
  const Atom own = fresh();
  if (condition.op == Condition::Op::any) {
    for (const Literal& part : parts) add(own, {part});
    return {own};
  }
  if (condition.op == Condition::Op::negated) {
    for (Literal& part : parts) part.denied = !part.denied;
  }
  add(own, parts);
  return {own};
}

}  // namespace kartwright
