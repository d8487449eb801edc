// The engine refuses a cycle through a negation when a case runs into it; here it is found before,
// over all cases, taking every test that is not on a fact for one that may hold.

#include <algorithm>
#include <cassert>
#include <map>

#include "engine/audit/checks.h"
#include "engine/audit/normal_form.h"
#include "engine/inference/chain.h"

namespace kartwright {
namespace {

/// The derivations as one program for all cases.
class AnyCase {
 public:
  explicit AnyCase(const Pack& pack) {
    for (const DeriveRule& rule : pack.derives) add(rule, pack);
    program_.atoms = static_cast<int>(names_.size());
  }

  AuditFindings cycles() {
    AuditFindings out;
    while (true) {
      const auto layers = stratify(program_);
      const auto* cycle = std::get_if<NegationCycle>(&layers);
      if (cycle == nullptr) return out;
      out.push_back(told(*cycle));
    }
  }

 private:
  Atom atom(const FactTest& test) {
    const std::string name = test.fact + ":" + test.values.front();
    const auto [found, fresh] = numbers_.emplace(name, static_cast<Atom>(names_.size()));
    if (fresh) names_.push_back(name);
    return found->second;
  }

  /// Too many alternatives are told of elsewhere.
  void add(const DeriveRule& rule, const Pack& pack) {
    const auto form = normal_form(rule.when, pack, FactsAs::named);
    if (!form) return;
    for (const Conjunction& all : *form) {
      Clause clause{.head = atom({rule.fact, {rule.value}})};
      Conjunction rest;
      for (const Literal& literal : all) {
        const auto* fact = std::get_if<FactTest>(&literal.test);
        if (fact == nullptr) rest.push_back(literal);
        if (fact != nullptr)
          (literal.wanted ? clause.needs : clause.without).push_back(atom(*fact));
      }
      if (!sample_of(rest, pack)) continue;
      program_.clauses.push_back(std::move(clause));
      rules_.push_back(&rule);
    }
  }

  bool goes_round(std::size_t clause, const NegationCycle& cycle) const {
    const std::vector<Atom>& without = program_.clauses[clause].without;
    return program_.clauses[clause].head == cycle[1] &&
           std::find(without.begin(), without.end(), cycle[0]) != without.end();
  }

  /// Tells of a cycle and breaks it, so that the next one can be found.
  AuditFinding told(const NegationCycle& cycle) {
    std::string text;
    for (const Atom atom : cycle) {
      text += (text.empty() ? "" : " -> ") + names_[static_cast<std::size_t>(atom)];
    }
    const DeriveRule* guilty = nullptr;
    for (std::size_t i = program_.clauses.size(); i-- > 0;) {
      if (!goes_round(i, cycle)) continue;
      guilty = rules_[i];
      program_.clauses.erase(program_.clauses.begin() + static_cast<std::ptrdiff_t>(i));
      rules_.erase(rules_.begin() + static_cast<std::ptrdiff_t>(i));
    }
    assert(guilty != nullptr && "a cycle goes through a clause");
    return finding_of(*guilty, Code::negation_cycle, Severity::error,
                      "a fact depends on its own absence: " + text,
                      "break the cycle, or leave the `not` out");
  }

  Program program_;
  std::vector<const DeriveRule*> rules_;  // of each clause
  std::vector<std::string> names_;
  std::map<std::string, Atom> numbers_;
};

}  // namespace

AuditFindings check_cycles(const Pack& pack) { return AnyCase(pack).cycles(); }

}  // namespace kartwright
