#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "engine/audit/checks.h"
#include "engine/audit/judge.h"
#include "engine/audit/takeover.h"

namespace kartwright {
namespace {

/// An axis on which two effects differ in sign.
struct Clash {
  std::size_t axis = 0;
  double a = 0.0, b = 0.0;
};

std::vector<Clash> clashes(const EffectRule& a, const EffectRule& b) {
  std::vector<Clash> out;
  for (const Cell& x : a.cells) {
    for (const Cell& y : b.cells) {
      if (x.axis == y.axis && x.mean * y.mean < 0.0) out.push_back({x.axis, x.mean, y.mean});
    }
  }
  return out;
}

std::string words_of(const std::vector<Clash>& clashes, const Pack& pack) {
  std::string out;
  for (const Clash& clash : clashes) {
    out += fmt::format("{}{} {:+g} and {:+g}", out.empty() ? "" : "; ", pack.axes[clash.axis].id,
                       clash.a, clash.b);
  }
  return out;
}

/// One that replaces the other does not pull against it: both have a condition, or neither.
bool may_meet(const EffectRule& a, const EffectRule& b) {
  return (a.when.op == Condition::Op::always) == (b.when.op == Condition::Op::always);
}

/// Looks for one case in which the two meet on an axis; keeps the axes on which they can.
class Meeting {
 public:
  Meeting(const RuleRef& a, const RuleRef& b, const Pack& pack) : a_(a), b_(b), pack_(pack) {}

  void look(AuditFindings& out) {
    const auto& x = static_cast<const EffectRule&>(*a_.rule);
    const auto& y = static_cast<const EffectRule&>(*b_.rule);
    if (!may_meet(x, y)) return;
    std::optional<Sample> sample;
    std::vector<Clash> met;
    for (const Clash& clash : clashes(x, y)) {
      const Search found = search(both_of(speaks_on(x, clash.axis, *a_.adjustment),
                                          speaks_on(y, clash.axis, *a_.adjustment)),
                                  pack_, {a_.adjustment->id});
      if (found.too_large) {
        out.push_back(too_tangled(x, y));
        return;
      }
      if (!found.sample) continue;
      met.push_back(clash);
      if (!sample) sample = found.sample;
    }
    if (sample) tell(x, y, met, *sample, out);
  }

 private:
  void tell(const EffectRule& x, const EffectRule& y, const std::vector<Clash>& met,
            const Sample& sample, AuditFindings& out) const {
    const std::string both = "`" + x.id + "` and `" + y.id + "`";
    const std::string axes = words_of(met, pack_);
    AuditFinding found = finding_of(x, y, Code::opposite_effects,
                                    x.contested && y.contested ? Severity::note : Severity::warning,
                                    both + " pull both ways where both hold: " + axes);
    found.witness = witness_of(sample, {a_, b_}, pack_,
                               both + " (" + a_.adjustment->id + ") both hold here: " + axes);
    out.push_back(std::move(found));
  }

  const RuleRef& a_;
  const RuleRef& b_;
  const Pack& pack_;
};

/// 1 where the rows are the same, -1 where one is the other turned round, else 0.
double likeness(const std::vector<RowTerm>& a, const std::vector<RowTerm>& b) {
  const auto like = [&](double sign) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [&](const RowTerm& x, const RowTerm& y) {
                        return x.axis == y.axis && x.factor == sign * y.factor;
                      });
  };
  return like(1.0) ? 1.0 : like(-1.0) ? -1.0 : 0.0;
}

/// A reading that grows with a measurement turns its sign with it, and is left out.
bool contradict(const ReadingRule& a, const ReadingRule& b) {
  return a.per_measure.empty() && b.per_measure.empty() &&
         a.value * b.value * likeness(a.row, b.row) < 0.0;
}

void judge_readings(const RuleRef& a, const RuleRef& b, const Pack& pack, AuditFindings& out) {
  const auto& x = static_cast<const ReadingRule&>(*a.rule);
  const auto& y = static_cast<const ReadingRule&>(*b.rule);
  if (!contradict(x, y)) return;
  const Search found = search(both_of(x.when, y.when), pack);
  if (found.too_large) out.push_back(too_tangled(x, y));
  if (!found.sample) return;
  const std::string both = "`" + x.id + "` and `" + y.id + "`";
  AuditFinding told = finding_of(x, y, Code::opposite_readings, Severity::note,
                                 both + " contradict each other where both hold");
  told.witness = witness_of(*found.sample, {a, b}, pack, both + " both hold here");
  out.push_back(std::move(told));
}

}  // namespace

AuditFindings check_opposites(const Pack& pack) {
  AuditFindings out;
  const std::vector<RuleRef> rules = every_rule(pack);
  for (std::size_t i = 0; i < rules.size(); ++i) {
    for (std::size_t j = i + 1; j < rules.size(); ++j) {
      const RuleRef& a = rules[i];
      const RuleRef& b = rules[j];
      if (a.kind != b.kind) break;  // they come by kind
      if (a.kind == RuleKind::reading) judge_readings(a, b, pack, out);
      if (a.kind == RuleKind::effect && a.adjustment == b.adjustment) Meeting(a, b, pack).look(out);
    }
  }
  return out;
}

}  // namespace kartwright
