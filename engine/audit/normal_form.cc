#include "engine/audit/normal_form.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>

#include "engine/knowledge/engine_facts.h"
#include "engine/knowledge/names.h"

namespace kartwright {
namespace {

using Values = std::vector<std::string>;

bool contains(const Values& values, const std::string& value) {
  return std::find(values.begin(), values.end(), value) != values.end();
}

bool is_room(std::string_view fact, const Pack& pack) {
  return std::any_of(pack.adjustments.begin(), pack.adjustments.end(), [&](const Adjustment& a) {
    return fact == room_fact(a.id, a.directions[0]) || fact == room_fact(a.id, a.directions[1]);
  });
}

/// The literals of two conjunctions together.
Conjunction merged(const Conjunction& a, const Conjunction& b) {
  Conjunction out;
  std::set_union(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(out));
  return out;
}

/// A fact was stated with one value at most, and a test cannot hold and not hold.
bool contradicts_itself(const Conjunction& all) {
  std::map<std::string_view, Values> open;  // what each fact can still be, where it must be stated
  for (const Literal& literal : all) {
    const auto* fact = std::get_if<FactTest>(&literal.test);
    if (fact == nullptr) {
      const Literal denied{literal.test, !literal.wanted};
      if (std::binary_search(all.begin(), all.end(), denied)) return true;
    } else if (literal.wanted) {
      auto& values = open.try_emplace(fact->fact, fact->values).first->second;
      std::erase_if(values, [&](const std::string& v) { return !contains(fact->values, v); });
    }
  }
  for (const Literal& literal : all) {
    const auto* fact = std::get_if<FactTest>(&literal.test);
    if (fact == nullptr || literal.wanted || !open.contains(fact->fact)) continue;
    std::erase_if(open[fact->fact],
                  [&](const std::string& v) { return contains(fact->values, v); });
  }
  return std::any_of(open.begin(), open.end(),
                     [](const auto& each) { return each.second.empty(); });
}

/// True without a test, or never.
NormalForm always_or_never(bool always) { return NormalForm(always ? 1 : 0); }

class Unfolding {
 public:
  Unfolding(const Pack& pack, FactsAs facts) : pack_(pack), facts_(facts) {}

  bool too_large() const { return too_large_; }

  NormalForm form(const Condition& condition, bool wanted) {
    using Op = Condition::Op;
    if (too_large_) return {};
    if (condition.op == Op::always) return always_or_never(wanted);
    if (condition.op == Op::test) return of_test(condition.test, wanted);
    if (condition.op == Op::negated) return form(condition.parts.front(), !wanted);
    const bool conjoin = (condition.op == Op::all) == wanted;
    NormalForm out = always_or_never(conjoin);
    for (const Condition& part : condition.parts) {
      const NormalForm more = form(part, wanted);
      out = conjoin ? both(out, more) : either(std::move(out), more);
    }
    return out;
  }

 private:
  NormalForm both(const NormalForm& a, const NormalForm& b) {
    NormalForm out;
    for (const Conjunction& x : a) {
      for (const Conjunction& y : b) {
        if (++steps_ > kMostSteps) too_large_ = true;
        if (too_large_) return {};
        Conjunction all = merged(x, y);
        if (facts_ == FactsAs::named || !contradicts_itself(all)) out.push_back(std::move(all));
      }
    }
    return bounded(std::move(out));
  }

  NormalForm either(NormalForm a, const NormalForm& b) {
    a.insert(a.end(), b.begin(), b.end());
    return bounded(std::move(a));
  }

  NormalForm bounded(NormalForm form) {
    std::sort(form.begin(), form.end());
    form.erase(std::unique(form.begin(), form.end()), form.end());
    if (form.size() > kMostAlternatives) too_large_ = true;
    return too_large_ ? NormalForm{} : form;
  }

  NormalForm of_test(const Test& test, bool wanted) {
    const auto* fact = std::get_if<FactTest>(&test);
    if (fact == nullptr) return {{Literal{test, wanted}}};
    return facts_ == FactsAs::named ? named(*fact, wanted) : written_out(*fact, wanted);
  }

  /// A value a literal, since each is a fact of its own to the rules.
  static NormalForm named(const FactTest& test, bool wanted) {
    NormalForm out;
    Conjunction none;
    for (const std::string& value : test.values) {
      const Literal literal{FactTest{test.fact, {value}}, wanted};
      out.push_back({literal});
      none = merged(none, {literal});
    }
    return wanted ? out : NormalForm{none};
  }

  /// Stated, or concluded by a rule. What a conclusion stands on cannot be the conclusion itself.
  NormalForm written_out(const FactTest& test, bool wanted) {
    NormalForm out = stated(test, wanted);
    for (const DeriveRule& rule : pack_.derives) {
      if (rule.fact != test.fact || !contains(test.values, rule.value) || too_large_) continue;
      const auto [place, fresh] = below_.emplace(rule.fact, rule.value);
      if (!fresh) continue;
      too_large_ = ++steps_ > kMostSteps || below_.size() > kDeepestChain;
      const NormalForm concluded = form(rule.when, wanted);
      below_.erase(place);
      out = wanted ? either(std::move(out), concluded) : both(out, concluded);
    }
    return out;
  }

  NormalForm stated(const FactTest& test, bool wanted) const {
    FactTest possible{test.fact, {}};
    const Values outside = outside_of(test.fact);
    for (const std::string& value : test.values) {
      if (contains(outside, value)) possible.values.push_back(value);
    }
    std::sort(possible.values.begin(), possible.values.end());
    if (!possible.values.empty()) return {{Literal{possible, wanted}}};
    return always_or_never(!wanted);
  }

  Values outside_of(const std::string& fact) const {
    Values values = values_from_outside(fact, pack_);
    const FactDef* def = pack_.fact(fact);
    if (facts_ == FactsAs::any_value && def != nullptr) {
      values.insert(values.end(), def->values.begin(), def->values.end());
    }
    return values;
  }

  static constexpr std::size_t kMostSteps = 50 * kMostAlternatives;
  static constexpr std::size_t kDeepestChain = 100;  // of one conclusion standing on another
  const Pack& pack_;
  FactsAs facts_;
  std::set<std::pair<std::string, std::string>> below_;  // facts being written out, and the value
  std::size_t steps_ = 0;
  bool too_large_ = false;
};

}  // namespace

std::vector<std::string> values_from_outside(std::string_view fact, const Pack& pack) {
  Values values;
  const FactDef* def = pack.fact(fact);
  if (def != nullptr && def->entered) values = def->values;
  if (fact == engine_facts::kTrack) {
    for (const TrackState& track : pack.tracks) {
      if (!contains(values, track.id)) values.push_back(track.id);
    }
  }
  const auto& stated = engine_facts::kStated;
  if (std::find(stated.begin(), stated.end(), fact) != stated.end() && !contains(values, "yes")) {
    values.emplace_back("yes");
  }
  if (is_room(fact, pack)) values = {"none", "some"};
  return values;
}

std::optional<NormalForm> normal_form(const Condition& condition, const Pack& pack, FactsAs facts) {
  Unfolding unfolding(pack, facts);
  NormalForm form = unfolding.form(condition, true);
  if (unfolding.too_large()) return std::nullopt;
  return form;
}

}  // namespace kartwright
