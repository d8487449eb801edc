#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "engine/audit/checks.h"
#include "engine/audit/judge.h"
#include "engine/knowledge/engine_facts.h"

namespace kartwright {
namespace {

/// Who tests a value of a fact, first in the files first.
using Testers = std::map<std::pair<std::string, std::string>, std::vector<const Rule*>>;

Testers testers_of(const Pack& pack) {
  Testers out;
  for (const RuleRef& rule : every_rule(pack)) {
    if (rule.when == nullptr) continue;
    for (const FactTest& test : fact_tests(*rule.when)) {
      for (const std::string& value : test.values) {
        std::vector<const Rule*>& rules = out[{test.fact, value}];
        if (rules.empty() || rules.back() != rule.rule) rules.push_back(rule.rule);
      }
    }
  }
  for (auto& [value, rules] : out) {
    std::stable_sort(rules.begin(), rules.end(), [](const Rule* a, const Rule* b) {
      return std::tie(a->source.file, a->source.line) < std::tie(b->source.file, b->source.line);
    });
  }
  return out;
}

void judge_value(const std::string& fact, const std::string& value,
                 const std::vector<const Rule*>& testers, const Pack& pack, AuditFindings& out) {
  const Condition test{.op = Condition::Op::test, .test = FactTest{fact, {value}}};
  if (!search(test, pack).impossible()) return;
  const bool concluded =
      std::any_of(pack.derives.begin(), pack.derives.end(),
                  [&](const DeriveRule& rule) { return rule.fact == fact && rule.value == value; });
  AuditFinding found = finding_of(
      *testers.front(), Code::unreachable_fact, Severity::error,
      "`" + testers.front()->id + "` tests `" + fact + ":" + value + "`, which can never be",
      concluded ? "nobody can state it, and the rules that conclude it wait for what can never be"
                : "nobody can state it, and no rule concludes it");
  found.rules.clear();
  for (const Rule* rule : testers) found.rules.push_back(rule->id);
  out.push_back(std::move(found));
}

/// Facts that something looks at: a rule, a prior of a fact, or the engine itself.
std::set<std::string, std::less<>> facts_read(const Pack& pack) {
  std::set<std::string, std::less<>> out(engine_facts::kRead.begin(), engine_facts::kRead.end());
  const auto add = [&](const Condition& condition) {
    for (const FactTest& test : fact_tests(condition)) out.insert(test.fact);
  };
  for (const RuleRef& rule : every_rule(pack)) {
    if (rule.when != nullptr) add(*rule.when);
  }
  for (const FactDef& fact : pack.facts) {
    for (const FactDef::Prior& prior : fact.priors) add(prior.when);
  }
  return out;
}

}  // namespace

AuditFindings check_facts(const Pack& pack) {
  AuditFindings out;
  for (const auto& [value, testers] : testers_of(pack)) {
    judge_value(value.first, value.second, testers, pack, out);
  }
  const auto read = facts_read(pack);
  for (const FactDef& fact : pack.facts) {
    if (read.contains(fact.id)) continue;
    AuditFinding found = finding_at(
        fact.source, Code::dead_end_fact, Severity::warning, "nothing reads `" + fact.id + "`",
        fact.entered ? "whoever states it changes nothing" : "concluding it changes nothing");
    for (const DeriveRule& rule : pack.derives) {
      if (rule.fact == fact.id) found.rules.push_back(rule.id);
    }
    out.push_back(std::move(found));
  }
  return out;
}

}  // namespace kartwright
