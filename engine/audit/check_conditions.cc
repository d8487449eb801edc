#include <algorithm>

#include "engine/audit/checks.h"
#include "engine/audit/judge.h"
#include "engine/audit/takeover.h"
#include "engine/inference/situation.h"

namespace kartwright {
namespace {

std::vector<std::string> fitted_for(const RuleRef& rule) {
  if (rule.adjustment == nullptr) return {};
  return {rule.adjustment->id};
}

bool tests_what_cannot_be(const Condition& condition, const Pack& pack) {
  for (const FactTest& test : fact_tests(condition)) {
    for (const std::string& value : test.values) {
      const Condition alone{.op = Condition::Op::test, .test = FactTest{test.fact, {value}}};
      if (search(alone, pack).impossible()) return true;
    }
  }
  return false;
}

/// What cannot hold for want of a fact alone is not counted: that the fact cannot be is told of by
/// itself.
bool never(const Condition& condition, const RuleRef& rule, const Pack& pack) {
  if (!search(condition, pack, fitted_for(rule)).impossible()) return false;
  return search(condition, pack, fitted_for(rule), FactsAs::any_value).impossible() ||
         !tests_what_cannot_be(condition, pack);
}

/// The parts of an `all` that cannot be together: one alone, or two; in words, or empty.
std::string what_excludes(const RuleRef& rule, const Pack& pack) {
  const Condition& when = *rule.when;
  if (when.op != Condition::Op::all) return {};
  const auto words = [&](const Condition& part) { return "`" + describe(part, pack) + "`"; };
  for (std::size_t i = 0; i < when.parts.size(); ++i) {
    if (never(when.parts[i], rule, pack)) return words(when.parts[i]) + " cannot be";
    for (std::size_t j = 0; j < i; ++j) {
      if (!never(both_of(when.parts[j], when.parts[i]), rule, pack)) continue;
      return words(when.parts[j]) + " and " + words(when.parts[i]) + " exclude each other";
    }
  }
  return {};
}

void judge_speaking(const RuleRef& rule, const Pack& pack, AuditFindings& out) {
  const bool base = rule.adjustment != nullptr && rule.when->op == Condition::Op::always;
  const Condition speaks = base ? base_speaks(rule) : *rule.when;
  if (search(speaks, pack, fitted_for(rule)).too_large) out.push_back(too_tangled(*rule.rule));
  if (!never(speaks, rule, pack)) return;
  const std::string id = "`" + rule.rule->id + "`";
  if (base) {
    out.push_back(
        finding_of(*rule.rule, Code::never_speaks, Severity::error,
                   id + " can never speak: other effects take all its cells in any case"));
  } else {
    out.push_back(finding_of(*rule.rule, Code::never_speaks, Severity::error,
                             id + " can never speak: no case fits its condition",
                             what_excludes(rule, pack)));
  }
}

void judge_silence(const RuleRef& rule, const Pack& pack, AuditFindings& out) {
  if (rule.when->op == Condition::Op::always) return;
  if (!search(denial_of(*rule.when), pack, fitted_for(rule)).impossible()) return;
  out.push_back(finding_of(*rule.rule, Code::always_holds, Severity::warning,
                           "the condition of `" + rule.rule->id + "` holds whatever the case",
                           describe(*rule.when, pack)));
}

}  // namespace

AuditFindings check_conditions(const Pack& pack) {
  AuditFindings out;
  for (const RuleRef& rule : every_rule(pack)) {
    if (rule.when == nullptr) continue;
    judge_speaking(rule, pack, out);
    judge_silence(rule, pack, out);
  }
  return out;
}

}  // namespace kartwright
