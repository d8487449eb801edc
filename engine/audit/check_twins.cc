#include <algorithm>
#include <tuple>

#include "engine/audit/checks.h"
#include "engine/audit/judge.h"

namespace kartwright {
namespace {

bool same_row(const std::vector<RowTerm>& a, const std::vector<RowTerm>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const RowTerm& x, const RowTerm& y) {
    return std::tie(x.axis, x.factor) == std::tie(y.axis, y.factor);
  });
}

bool same_cells(const std::vector<Cell>& a, const std::vector<Cell>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Cell& x, const Cell& y) {
    return std::tie(x.axis, x.mean, x.sd) == std::tie(y.axis, y.mean, y.sd);
  });
}

bool same(const ReadingRule& a, const ReadingRule& b) {
  return same_row(a.row, b.row) && std::tie(a.value, a.sd, a.per_measure, a.per_amount) ==
                                       std::tie(b.value, b.sd, b.per_measure, b.per_amount);
}

/// An effect without a condition is replaced, not repeated, by one with a condition.
bool same(const EffectRule& a, const EffectRule& b) {
  const auto base = [](const EffectRule& r) { return r.when.op == Condition::Op::always; };
  return base(a) == base(b) && same_cells(a.cells, b.cells);
}

bool same(const EvidenceRule& a, const EvidenceRule& b) { return a.decibans == b.decibans; }

bool same(const DeriveRule& a, const DeriveRule& b) {
  return std::tie(a.fact, a.value) == std::tie(b.fact, b.value);
}

template <typename R>
const R& as(const RuleRef& rule) {
  return static_cast<const R&>(*rule.rule);
}

/// One kind, one target, and the same words for it.
bool say_the_same(const RuleRef& a, const RuleRef& b) {
  if (a.kind != b.kind || a.adjustment != b.adjustment || a.fault != b.fault) return false;
  switch (a.kind) {
    case RuleKind::reading:
      return same(as<ReadingRule>(a), as<ReadingRule>(b));
    case RuleKind::effect:
      return same(as<EffectRule>(a), as<EffectRule>(b));
    case RuleKind::evidence:
      return same(as<EvidenceRule>(a), as<EvidenceRule>(b));
    case RuleKind::derive:
      return same(as<DeriveRule>(a), as<DeriveRule>(b));
    case RuleKind::symptom:
      break;  // one a symptom, each with a report of its own
  }
  return false;
}

void judge_twins(const RuleRef& a, const RuleRef& b, const Pack& pack, AuditFindings& out) {
  const std::optional<bool> a_in_b = implies(*a.when, *b.when, pack);
  const std::optional<bool> b_in_a = implies(*b.when, *a.when, pack);
  const Rule& x = *a.rule;
  const Rule& y = *b.rule;
  if (!a_in_b || !b_in_a) {
    out.push_back(too_tangled(x, y));
  } else if (*a_in_b && *b_in_a) {
    out.push_back(finding_of(x, y, Code::same_rule_twice, Severity::warning,
                             "`" + x.id + "` and `" + y.id + "` say the same in the same cases"));
  } else if (*a_in_b || *b_in_a) {
    const Rule& narrow = *a_in_b ? x : y;
    const Rule& wide = *a_in_b ? y : x;
    AuditFinding found =
        finding_of(narrow, Code::subsumed_rule, Severity::warning,
                   "`" + narrow.id + "` only says what `" + wide.id + "` says in more cases",
                   "`" + wide.id + "` stands at " + wide.source.text());
    found.rules.push_back(wide.id);
    out.push_back(std::move(found));
  }
}

}  // namespace

AuditFindings check_twins(const Pack& pack) {
  AuditFindings out;
  std::vector<RuleRef> rules = every_rule(pack);
  std::erase_if(rules, [&](const RuleRef& rule) {  // what never speaks implies everything
    return rule.when == nullptr || search(*rule.when, pack).impossible();
  });
  for (std::size_t i = 0; i < rules.size(); ++i) {
    for (std::size_t j = i + 1; j < rules.size(); ++j) {
      if (say_the_same(rules[i], rules[j])) judge_twins(rules[i], rules[j], pack, out);
    }
  }
  return out;
}

}  // namespace kartwright
