#include "engine/inference/near_miss.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <numeric>
#include <set>

#include "engine/inference/firing.h"
#include "engine/inference/mend.h"

namespace kartwright {
namespace {

constexpr std::size_t kMostAlternatives = 8;

EnteredCase changed(const Situation& situation, const std::vector<Lack>& lacks) {
  EnteredCase entered = case_of(situation);
  for (const Lack& lack : lacks) make(lack.change, situation.pack, entered);
  return entered;
}

bool made_true(const RuleRef& rule, const Situation& situation, const std::vector<Lack>& lacks) {
  const EnteredCase entered = changed(situation, lacks);
  return fires(rule, settled(situation.pack, entered));
}

/// The nearest changes, subject by subject.
Lacks mend_all(const Requirements& way, const Situation& situation) {
  std::map<std::string, Requirements> subjects;
  for (const Requirement& one : way) subjects[subject_of(one, situation.pack)].push_back(one);
  std::vector<Lack> all;
  for (const auto& [subject, asked] : subjects) {
    Lacks lacks = mend(asked, situation);
    if (!lacks) return std::nullopt;
    std::move(lacks->begin(), lacks->end(), std::back_inserter(all));
  }
  return all;
}

/// Facts that were so by themselves, as `only-late` is by the reports, and are no longer so after
/// the changes, have to be stated as well.
void hold_on_to(const Requirements& way, const Situation& situation, std::vector<Lack>& lacks) {
  const EnteredCase entered = changed(situation, lacks);
  const Situation after = settled(situation.pack, entered);
  Requirements lost;
  for (Requirement one : way) {
    if (!std::holds_alternative<FactTest>(one.ask) || !one.met || is_met(one, after)) continue;
    one.met = false;
    lost.push_back(std::move(one));
  }
  const Lacks more = mend_all(lost, situation);
  if (more) lacks.insert(lacks.end(), more->begin(), more->end());
}

/// Takes out what turns out not to be needed.
void drop_what_is_idle(const RuleRef& rule, const Situation& situation, std::vector<Lack>& lacks) {
  for (std::size_t i = 0; i < lacks.size();) {
    std::vector<Lack> without = lacks;
    without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
    if (made_true(rule, situation, without)) {
      lacks = std::move(without);
      i = 0;
    } else {
      ++i;
    }
  }
}

std::optional<Alternative> tried(const RuleRef& rule, const Requirements& way,
                                 const Situation& situation) {
  Lacks lacks = mend_all(way, situation);
  if (!lacks) return std::nullopt;
  if (!made_true(rule, situation, *lacks)) {
    hold_on_to(way, situation, *lacks);
    if (!made_true(rule, situation, *lacks)) return std::nullopt;
  }
  drop_what_is_idle(rule, situation, *lacks);
  std::stable_sort(lacks->begin(), lacks->end(),
                   [](const Lack& a, const Lack& b) { return a.distance < b.distance; });
  return Alternative{std::move(*lacks)};
}

/// The changes of an alternative, to tell two of them apart.
std::string key_of(const Alternative& alternative, const Pack& pack) {
  std::set<std::string> texts;
  for (const Lack& lack : alternative.lacks) {
    texts.insert(subject_of(lack.asked, pack) + ": " + in_words(lack, pack, System::metric));
  }
  return std::accumulate(texts.begin(), texts.end(), std::string());
}

bool nearer(const Alternative& a, const Alternative& b) {
  if (a.lacks.size() != b.lacks.size()) return a.lacks.size() < b.lacks.size();
  return a.distance() < b.distance();
}

std::vector<Alternative> alternatives(const RuleRef& rule, const Situation& situation) {
  std::vector<Alternative> out;
  std::set<std::string> told;
  for (const Requirements& way : ways_to_fire(rule, situation)) {
    std::optional<Alternative> one = tried(rule, way, situation);
    if (one && told.insert(key_of(*one, situation.pack)).second) out.push_back(std::move(*one));
  }
  std::stable_sort(out.begin(), out.end(), nearer);
  out.resize(std::min(out.size(), kMostAlternatives));
  return out;
}

std::vector<TakenCell> taken_cells(const RuleRef& rule, const Situation& situation) {
  std::vector<TakenCell> out;
  if (rule.kind != RuleKind::effect || rule.when->op != Condition::Op::always) return out;
  for (const Cell& cell : static_cast<const EffectRule*>(rule.rule)->cells) {
    for (const EffectRule& other : rule.adjustment->effects) {
      const bool names = std::any_of(other.cells.begin(), other.cells.end(),
                                     [&](const Cell& each) { return each.axis == cell.axis; });
      if (other.when.op == Condition::Op::always || !names) continue;
      if (holds(other.when, situation)) out.push_back({cell.axis, &other});
    }
  }
  return out;
}

void collect_open(const Condition& condition, const Situation& situation,
                  std::set<std::string>& out) {
  if (condition.op == Condition::Op::test) {
    const auto* fact = std::get_if<FactTest>(&condition.test);
    const FactDef* def = fact == nullptr ? nullptr : situation.pack.fact(fact->fact);
    if (def != nullptr && !def->priors.empty() && !situation.facts.stated(def->id))
      out.insert(def->id);
  }
  for (const Condition& part : condition.parts) collect_open(part, situation, out);
}

/// True where the condition holds for some values of these facts and the prior rules none out.
bool could_hold(const Condition& condition, Situation& situation,
                const std::vector<std::string>& open, std::size_t next) {
  if (next == open.size()) return holds(condition, situation);
  for (const std::string& value : situation.pack.fact(open[next])->values) {
    situation.supposed[open[next]] = value;
    if (could_hold(condition, situation, open, next + 1)) return true;
  }
  situation.supposed.erase(open[next]);
  return false;
}

std::vector<std::string> open_facts(const RuleRef& rule, const Situation& situation) {
  if (rule.when == nullptr) return {};
  std::set<std::string> asked;
  collect_open(*rule.when, situation, asked);
  std::vector<std::string> open(asked.begin(), asked.end());
  Situation supposing = situation;
  if (!could_hold(*rule.when, supposing, open, 0)) return {};
  return open;
}

}  // namespace

double Alternative::distance() const {
  return std::accumulate(lacks.begin(), lacks.end(), 0.0,
                         [](double sum, const Lack& lack) { return sum + lack.distance; });
}

NearMiss why_not(const RuleRef& rule, const Situation& situation) {
  NearMiss out{.fires = fires(rule, situation)};
  out.taken = taken_cells(rule, situation);
  if (out.fires) return out;
  out.alternatives = alternatives(rule, situation);
  out.open = open_facts(rule, situation);
  return out;
}

}  // namespace kartwright
