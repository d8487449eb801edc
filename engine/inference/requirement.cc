#include "engine/inference/requirement.h"

#include <algorithm>
#include <iterator>

#include "engine/inference/readings.h"

namespace kartwright {
namespace {

using Ways = std::vector<Requirements>;

/// How the walk came to a condition.
struct Trail {
  std::vector<std::string> through = {};
  std::string silences = {};
  bool passed(const std::string& rule) const {
    return std::find(through.begin(), through.end(), rule) != through.end();
  }
};

bool entered(const Fact& fact) {
  return fact.rule == "crew" || fact.rule == "kart" || fact.rule == "reports";
}

bool asked_of(const FactTest& test, const Situation& situation) {
  return std::any_of(situation.facts.all.begin(), situation.facts.all.end(), [&](const Fact& fact) {
    return entered(fact) && fact.id == test.fact &&
           std::find(test.values.begin(), test.values.end(), fact.value) != test.values.end();
  });
}
bool asked_of(const FittedTest& test, const Situation& situation) {
  return situation.kart.setting(test.adjustment) != nullptr;
}
bool asked_of(const ReadTest& test, const Situation& situation) {
  const std::vector<Reading> readings = take_readings(situation);
  return std::any_of(readings.begin(), readings.end(), [&](const Reading& reading) {
    return reading.report >= 0 &&
           situation.reports[static_cast<std::size_t>(reading.report)].symptom == test.symptom;
  });
}
template <typename Plain>
bool asked_of(const Plain& test, const Situation& situation) {
  return holds(Test{test}, situation);
}

std::ptrdiff_t unmet(const Requirements& way) {
  return std::count_if(way.begin(), way.end(), [](const Requirement& one) { return !one.met; });
}

/// The nearest ways. A condition with many choices would have more than anybody wants to read.
void keep_nearest(Ways& ways) {
  constexpr std::size_t kMost = 64;
  std::stable_sort(ways.begin(), ways.end(), [](const Requirements& a, const Requirements& b) {
    return unmet(a) < unmet(b);
  });
  ways.resize(std::min(ways.size(), kMost));
}

Ways both(const Ways& a, const Ways& b) {
  Ways out;
  for (const Requirements& x : a) {
    for (const Requirements& y : b) {
      Requirements joined = x;
      joined.insert(joined.end(), y.begin(), y.end());
      out.push_back(std::move(joined));
    }
  }
  keep_nearest(out);
  return out;
}

void append(Ways& ways, Ways more) {
  std::move(more.begin(), more.end(), std::back_inserter(ways));
}

/// One way that asks for nothing, or none.
Ways way_or_none(bool way) { return Ways(way ? 1 : 0); }

class RequirementWalk {
 public:
  explicit RequirementWalk(const Situation& situation) : situation_(situation) {}

  Ways of(const Condition& condition, bool wanted, const Trail& trail) const {
    using Op = Condition::Op;
    if (condition.op == Op::always) return way_or_none(wanted);
    if (condition.op == Op::test) return of(condition.test, wanted, trail);
    if (condition.op == Op::negated) return of(condition.parts.front(), !wanted, trail);
    const bool conjoin = (condition.op == Op::all) == wanted;
    Ways out = way_or_none(conjoin);
    for (const Condition& part : condition.parts) {
      if (conjoin) {
        out = both(out, of(part, wanted, trail));
      } else {
        append(out, of(part, wanted, trail));
      }
    }
    keep_nearest(out);
    return out;
  }

  Ways one(Ask ask, bool wanted, const Trail& trail) const {
    Requirement requirement{.ask = std::move(ask),
                            .wanted = wanted,
                            .through = trail.through,
                            .silences = trail.silences};
    requirement.met = is_met(requirement, situation_);
    return {{std::move(requirement)}};
  }

  /// One of the cells is free: no rule with a condition that holds names it.
  Ways a_free_cell(const EffectRule& rule, const Adjustment& adjustment) const {
    Ways out;
    for (const Cell& cell : rule.cells) append(out, free(cell, adjustment));
    keep_nearest(out);
    return out;
  }

 private:
  Ways of(const Test& test, bool wanted, const Trail& trail) const {
    if (const auto* fact = std::get_if<FactTest>(&test)) return of_fact(*fact, wanted, trail);
    return std::visit([&](const auto& plain) { return one(Ask{plain}, wanted, trail); }, test);
  }

  /// A fact is entered, or some derivation concludes it; it is not so where nobody enters it and
  /// none does. A derivation that is on the trail already cannot be its own support.
  Ways of_fact(const FactTest& test, bool wanted, const Trail& trail) const {
    const FactDef* def = situation_.pack.fact(test.fact);
    const bool enterable = def == nullptr || def->entered;
    Ways out;
    if (!wanted || enterable) out = one(test, wanted, trail);
    for (const DeriveRule& rule : situation_.pack.derives) {
      const bool concludes =
          rule.fact == test.fact && std::count(test.values.begin(), test.values.end(), rule.value);
      if (!concludes || trail.passed(rule.id)) continue;
      Trail onward = trail;
      onward.through.push_back(rule.id);
      Ways more = of(rule.when, wanted, onward);
      if (wanted) {
        append(out, std::move(more));
      } else {
        out = both(out, more);
      }
    }
    keep_nearest(out);
    return out;
  }

  Ways free(const Cell& cell, const Adjustment& adjustment) const {
    Ways out{{}};
    for (const EffectRule& other : adjustment.effects) {
      const bool names = std::any_of(other.cells.begin(), other.cells.end(),
                                     [&](const Cell& each) { return each.axis == cell.axis; });
      if (other.when.op == Condition::Op::always || !names) continue;
      out = both(out, of(other.when, false, {.silences = other.id}));
    }
    return out;
  }

  const Situation& situation_;
};

}  // namespace

bool is_met(const Requirement& requirement, const Situation& situation) {
  return requirement.wanted ==
         std::visit([&](const auto& test) { return asked_of(test, situation); }, requirement.ask);
}

std::vector<Requirements> ways_to_fire(const RuleRef& rule, const Situation& situation) {
  const RequirementWalk walk(situation);
  if (rule.kind == RuleKind::symptom) return walk.one(ReadTest{rule.symptom->id}, true, {});
  Ways ways = walk.of(*rule.when, true, {});
  if (rule.kind != RuleKind::effect) return ways;
  ways = both(walk.one(FittedTest{rule.adjustment->id}, true, {}), ways);
  if (rule.when->op != Condition::Op::always) return ways;
  return both(ways, walk.a_free_cell(*static_cast<const EffectRule*>(rule.rule), *rule.adjustment));
}

}  // namespace kartwright
