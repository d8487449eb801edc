#include "engine/inference/derive.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <set>

#include "engine/inference/chain.h"
#include "engine/knowledge/engine_facts.h"
#include "engine/knowledge/names.h"

namespace kartwright {
namespace {

/// One conjunction of a condition: facts that must and must not hold. Tests that are not on facts
/// are settled before chaining, so they either vanish or rule the conjunction out.
struct Conjunction {
  std::set<std::string> needs, without;
};
using Alternatives = std::vector<Conjunction>;

Alternatives both(const Alternatives& a, const Alternatives& b) {
  Alternatives out;
  for (const Conjunction& x : a) {
    for (const Conjunction& y : b) {
      Conjunction joined = x;
      joined.needs.insert(y.needs.begin(), y.needs.end());
      joined.without.insert(y.without.begin(), y.without.end());
      out.push_back(std::move(joined));
    }
  }
  return out;
}

/// One alternative that asks for nothing, or none.
Alternatives free_or_none(bool free) { return Alternatives(free ? 1 : 0); }

/// The condition, or its denial, as a list of conjunctions.
Alternatives alternatives(const Condition& condition, bool wanted, const Situation& situation);

Alternatives of_test(const Test& test, bool wanted, const Situation& situation) {
  const auto* fact = std::get_if<FactTest>(&test);
  if (fact == nullptr) return free_or_none(holds(test, situation) == wanted);
  if (wanted) {
    Alternatives out;
    for (const std::string& value : fact->values) out.push_back({{fact->fact + ":" + value}, {}});
    return out;
  }
  Conjunction none;
  for (const std::string& value : fact->values) none.without.insert(fact->fact + ":" + value);
  return {none};
}

Alternatives alternatives(const Condition& condition, bool wanted, const Situation& situation) {
  using Op = Condition::Op;
  if (condition.op == Op::always) return free_or_none(wanted);
  if (condition.op == Op::test) return of_test(condition.test, wanted, situation);
  if (condition.op == Op::negated) return alternatives(condition.parts.front(), !wanted, situation);
  const bool conjoin = (condition.op == Op::all) == wanted;
  Alternatives out = free_or_none(conjoin);
  for (const Condition& part : condition.parts) {
    Alternatives more = alternatives(part, wanted, situation);
    if (conjoin) {
      out = both(out, more);
    } else {
      std::move(more.begin(), more.end(), std::back_inserter(out));
    }
  }
  return out;
}

/// A derivation in one of the ways that it may conclude.
struct Body {
  const DeriveRule* rule = nullptr;
  Conjunction when;
};

std::vector<Body> bodies_of(const Situation& situation) {
  std::vector<Body> bodies;
  for (const DeriveRule& rule : situation.pack.derives) {
    for (Conjunction& when : alternatives(rule.when, true, situation))
      bodies.push_back({&rule, std::move(when)});
  }
  return bodies;
}

/// Every fact that a derivation names, as text.
std::set<std::string, std::less<>> named_in(const std::vector<Body>& bodies) {
  std::set<std::string, std::less<>> named;
  for (const Body& body : bodies) {
    named.insert(body.rule->fact + ":" + body.rule->value);
    named.insert(body.when.needs.begin(), body.when.needs.end());
    named.insert(body.when.without.begin(), body.when.without.end());
  }
  return named;
}

/// The derivations as a ground program, with the names of its atoms. Facts that no derivation names
/// have none: nothing follows from them.
class Grounding {
 public:
  Grounding(const Situation& situation, const std::vector<Fact>& given) {
    const std::vector<Body> bodies = bodies_of(situation);
    const auto named = named_in(bodies);
    std::string text;
    for (const Fact& fact : given) {
      text.assign(fact.id).append(":").append(fact.value);
      if (named.contains(text)) given_.push_back(atom(text));
    }
    for (const Body& body : bodies) add(body);
    program_.atoms = static_cast<int>(names_.size());
  }

  const Program& program() const { return program_; }
  const std::vector<Atom>& given() const { return given_; }
  const std::string& name(Atom atom) const { return names_[static_cast<std::size_t>(atom)]; }
  const DeriveRule& rule(int clause) const { return *rules_[static_cast<std::size_t>(clause)]; }

 private:
  Atom atom(const std::string& name) {
    const auto [found, fresh] = numbers_.emplace(name, static_cast<Atom>(names_.size()));
    if (fresh) names_.push_back(name);
    return found->second;
  }

  void add(const Body& body) {
    Clause clause{.head = atom(body.rule->fact + ":" + body.rule->value)};
    for (const std::string& need : body.when.needs) clause.needs.push_back(atom(need));
    for (const std::string& absent : body.when.without) clause.without.push_back(atom(absent));
    program_.clauses.push_back(std::move(clause));
    rules_.push_back(body.rule);
  }

  Program program_;
  std::vector<Atom> given_;
  std::vector<const DeriveRule*> rules_;
  std::vector<std::string> names_;
  std::map<std::string, Atom> numbers_;
};

[[noreturn]] void refuse_cycle(const Grounding& grounding, const NegationCycle& cycle) {
  std::string text;
  for (const Atom atom : cycle) text += (text.empty() ? "" : " -> ") + grounding.name(atom);
  const auto& clauses = grounding.program().clauses;
  const auto guilty = std::find_if(clauses.begin(), clauses.end(), [&](const Clause& clause) {
    return clause.head == cycle[1] &&
           std::count(clause.without.begin(), clause.without.end(), cycle[0]) > 0;
  });
  const Source& source = grounding.rule(static_cast<int>(guilty - clauses.begin())).source;
  throw InputError({Diagnostic{.code = Code::negation_cycle,
                               .file = source.file,
                               .span = {.line = source.line, .column = 1},
                               .message = "a fact depends on its own absence: " + text,
                               .help = "break the cycle, or leave the `not` out"}});
}

void state(std::vector<Fact>& facts, Fact fact) {
  std::erase_if(facts, [&](const Fact& old) { return old.id == fact.id; });
  facts.push_back(std::move(fact));
}

void state_room(const Kart& kart, std::vector<Fact>& facts) {
  for (const auto& [id, of_kart] : kart.settings) {
    const Setting& setting = of_kart;
    for (std::size_t d = 0; d < 2; ++d) {
      const bool upward = (d == 0) == (setting.adjustment->reference_step > 0.0);
      const bool room = std::any_of(setting.travel.places.begin(), setting.travel.places.end(),
                                    [&](double place) {
                                      return (upward ? place > setting.now : place < setting.now) &&
                                             class_allows(setting, place);
                                    });
      facts.push_back({room_fact(id, setting.adjustment->directions.at(d)),
                       room ? "some" : "none",
                       "kart",
                       {}});
    }
  }
}

bool looks_at_room(const Condition& condition) {
  if (condition.op == Condition::Op::test) {
    const auto* fact = std::get_if<FactTest>(&condition.test);
    return fact != nullptr && is_room_fact(fact->fact);
  }
  return std::any_of(condition.parts.begin(), condition.parts.end(),
                     [](const Condition& part) { return looks_at_room(part); });
}

/// Where every complaint is of the same part of the run, that is a fact.
void state_part_of_run(const std::vector<Report>& reports, std::vector<Fact>& facts) {
  std::optional<When> when;
  std::vector<std::string> symptoms;
  for (const Report& report : reports) {
    if (report.denied()) continue;
    if (!report.when || (when && *when != *report.when)) return;
    when = report.when;
    symptoms.push_back(report.symptom);
  }
  if (!when) return;
  std::sort(symptoms.begin(), symptoms.end());
  symptoms.erase(std::unique(symptoms.begin(), symptoms.end()), symptoms.end());
  const std::string_view only =
      *when == When::early ? engine_facts::kOnlyEarly : engine_facts::kOnlyLate;
  state(facts, {std::string(only), "yes", "reports", std::move(symptoms)});
}

std::vector<Fact> entered_facts(const Pack& pack, const Kart& kart, const Debrief& debrief,
                                bool room) {
  std::vector<Fact> facts;
  if (pack.track(debrief.track) != nullptr) {
    facts.push_back({std::string(engine_facts::kTrack), debrief.track, "crew", {}});
  }
  if (room) state_room(kart, facts);
  state_part_of_run(debrief.heard.reports, facts);
  for (const auto& [id, value] : kart.facts) state(facts, {id, value, "kart", {}});
  for (const StatedFact& stated : debrief.heard.facts) {
    state(facts, {stated.fact, stated.value, "crew", {}});
  }
  return facts;
}

}  // namespace

std::vector<Fact> given_facts(const Pack& pack, const Kart& kart, const Debrief& debrief) {
  return entered_facts(pack, kart, debrief, true);
}

std::vector<Fact> facts_without_room(const Pack& pack, const Kart& kart, const Debrief& debrief) {
  return entered_facts(pack, kart, debrief, false);
}

void add_room(const Kart& kart, Facts& settled) {
  std::vector<Fact> room;
  state_room(kart, room);
  std::erase_if(room, [&](const Fact& fact) { return settled.stated(fact.id); });
  std::move(room.begin(), room.end(), std::back_inserter(settled.all));
  std::sort(settled.all.begin(), settled.all.end(), comes_before);
}

bool looks_at_room(const Pack& pack) {
  const auto looks = [](const auto& rules) {
    return std::any_of(rules.begin(), rules.end(),
                       [](const auto& rule) { return looks_at_room(rule.when); });
  };
  return looks(pack.derives) || looks(pack.readings) ||
         std::any_of(pack.adjustments.begin(), pack.adjustments.end(),
                     [&](const Adjustment& adjustment) { return looks(adjustment.effects); }) ||
         std::any_of(pack.faults.begin(), pack.faults.end(),
                     [&](const Fault& fault) { return looks(fault.evidence); }) ||
         std::any_of(pack.facts.begin(), pack.facts.end(),
                     [&](const FactDef& fact) { return looks(fact.priors); });
}

Facts settle_facts(const Pack& pack, const Kart& kart, const std::vector<Report>& reports,
                   std::vector<Fact> given) {
  std::sort(given.begin(), given.end(), comes_before);
  Situation situation{.pack = pack, .kart = kart, .reports = reports};
  const Grounding grounding(situation, given);
  const auto layers = stratify(grounding.program());
  if (const auto* cycle = std::get_if<NegationCycle>(&layers)) refuse_cycle(grounding, *cycle);
  const Model model =
      forward_chain(grounding.program(), std::get<Layers>(layers), grounding.given());

  Facts facts{.all = std::move(given)};
  for (Atom atom = 0; atom < grounding.program().atoms; ++atom) {
    const int maker = model.maker[static_cast<std::size_t>(atom)];
    if (maker < 0) continue;
    const DeriveRule& rule = grounding.rule(maker);
    const Clause& clause = grounding.program().clauses[static_cast<std::size_t>(maker)];
    Fact fact{rule.fact, rule.value, rule.id, {}};
    for (const Atom need : clause.needs) fact.premises.push_back(grounding.name(need));
    for (const Atom absent : clause.without)
      fact.premises.push_back("not " + grounding.name(absent));
    facts.all.push_back(std::move(fact));
  }
  std::sort(facts.all.begin(), facts.all.end(), comes_before);
  return facts;
}

}  // namespace kartwright
