#include "engine/debrief/joining.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>

namespace kartwright {
namespace {

using Thoughts = std::vector<Thought>;

bool same_clause(const Thought& a, const Thought& b) { return a.clause == b.clause; }

bool denies_symptom(const Thought& thought) {
  return !thought.symptoms.empty() && thought.symptoms.back().denied;
}

bool denies_phase(const Thought& thought) {
  return thought.symptoms.empty() && !thought.phases.empty() && thought.phases.back().denied;
}

/// "hop" or "hopping", where "hops" would begin a new statement.
bool is_list_item(const Thought& thought) { return thought.bare && !thought.finite; }

/// "no push, hop or slide": a list runs on to its "or". "not loose, tight" is no list but a
/// contrast, and "doesn't push, hops" goes on to something else.
bool list_goes_on(const Thoughts& thoughts, std::size_t i, bool in_list) {
  const Thought& thought = thoughts[i];
  if (thought.symptoms.empty()) return false;
  if (thought.join == Join::either) return true;
  if (!is_list_item(thought) || thought.join == Join::further) return false;
  if (thought.join == Join::along || in_list) return true;
  const bool last = i + 1 == thoughts.size() || !same_clause(thought, thoughts[i + 1]);
  if (last) return false;
  const Thought& next = thoughts[i + 1];
  return next.join == Join::either ? !next.symptoms.empty() : is_list_item(next);
}

void deny_symptoms(Thought& thought) {
  for (Named& named : thought.symptoms) named.denied = true;
}

/// "push: none" denies the push, "push or hop? no" all that was asked.
void take_answer(Thoughts& thoughts, std::size_t answer) {
  if (answer == 0 || !thoughts[answer].only_no) return;
  const Thought& before = thoughts[answer - 1];
  const bool asked = before.asked && !same_clause(before, thoughts[answer]);
  const bool gone = thoughts[answer].only_gone && !before.symptoms.empty() &&
                    before.when.value() != When::early;  // it went away, as early ones do
  if (!asked && !thoughts[answer].told && !gone) return;
  deny_symptoms(thoughts[answer - 1]);
  for (std::size_t i = answer - 1; asked && i-- > 0 && same_clause(thoughts[i], before);) {
    deny_symptoms(thoughts[i]);
  }
  thoughts[answer].leftovers.clear();
}

/// One walk: each thought looks only at its neighbours, so a list may be of any length.
void carry_denials(Thoughts& thoughts) {
  bool in_list = false;
  for (std::size_t i = 1; i < thoughts.size(); ++i) {
    const Thought& before = thoughts[i - 1];
    Thought& thought = thoughts[i];
    take_answer(thoughts, i);
    if (!same_clause(before, thought)) {
      in_list = false;
      continue;
    }
    in_list = denies_symptom(before) && list_goes_on(thoughts, i, in_list);
    if (in_list) deny_symptoms(thought);
    const bool joined = thought.join == Join::along || thought.join == Join::either;
    if (joined && denies_phase(before) && thought.symptoms.empty()) {
      for (Where& where : thought.phases) where.denied = true;
    }
  }
}

/// It has a phase in so many words, not one that a phrase only implies.
bool has_phase(const Thought& thought) {
  return std::any_of(thought.symptoms.begin(), thought.symptoms.end(),
                     [](const Named& named) { return named.spells_phase; }) ||
         std::any_of(thought.phases.begin(), thought.phases.end(),
                     [](const Where& where) { return !where.denied; });
}

bool implies_phase(const Thought& thought) {
  return std::any_of(thought.symptoms.begin(), thought.symptoms.end(),
                     [](const Named& named) { return named.phrase->phase.has_value(); });
}

/// Two symptoms joined by "and" or "or" without a comma, both said to be there or both denied.
bool are_twins(const Thought& first, const Thought& second) {
  const bool joined = second.join == Join::along || second.join == Join::either;
  return joined && !second.comma && same_clause(first, second) && !first.symptoms.empty() &&
         !second.symptoms.empty() && denies_symptom(first) == denies_symptom(second);
}

/// The quote of the taker grows to the words that it takes its phase from.
void share(const Thought& giver, Thought& taker) {
  if (taker.corners.empty() && !has_phase(taker)) taker.corners = giver.corners;
  if (giver.phases.empty() || has_phase(taker) || implies_phase(taker)) return;
  taker.phases = giver.phases;
  taker.phases_lead = giver.phases_lead;
  taker.at = cover(taker.at, giver.at);
}

/// "pushes and hops in the middle", and "in the middle it pushes and hops": both in the middle.
void share_phases(Thoughts& thoughts) {
  for (std::size_t i = thoughts.size(); i-- > 1;) {
    const bool behind = !thoughts[i].phases_lead;
    if (behind && are_twins(thoughts[i - 1], thoughts[i])) share(thoughts[i], thoughts[i - 1]);
  }
  for (std::size_t i = 1; i < thoughts.size(); ++i) {
    const bool ahead = thoughts[i - 1].phases_lead;
    if (ahead && are_twins(thoughts[i - 1], thoughts[i])) share(thoughts[i - 1], thoughts[i]);
  }
}

/// Each phase once; of two amounts the greater.
void add_phase(std::vector<Where>& phases, const Where& added) {
  const auto same = [&](const Where& w) {
    return w.phase == added.phase && w.denied == added.denied;
  };
  const auto found = std::find_if(phases.begin(), phases.end(), same);
  if (found == phases.end())
    phases.push_back(added);
  else if (added.severity)
    found->severity = std::max(added.severity, found->severity);
}

/// A phase that comes besides one already said brings its own amount; else the amount is the
/// symptom's.
void absorb(Thought& host, const Thought& remark) {
  const bool listed = remark.join == Join::along || remark.join == Join::either;
  const bool adds = !remark.phases.empty() && (has_phase(host) || (listed && implies_phase(host)));
  for (Where where : remark.phases) {
    where.added = adds && !where.denied;
    if (where.added) where.severity = remark.severity;
    add_phase(host.phases, where);
  }
  if (!adds) {
    for (Named& named : host.symptoms) named.severity = std::max(named.severity, remark.severity);
  }
  host.corners.insert(host.corners.end(), remark.corners.begin(), remark.corners.end());
  if (const auto side = remark.side.value()) host.side.say(*side);
  if (const auto when = remark.when.value()) host.when.say(*when);
  if (!host.confidence) host.confidence = remark.confidence;
  host.at = cover(host.at, remark.at);
}

/// Finds the thought that a remark without symptom belongs to.
class Hosts {
 public:
  explicit Hosts(const Thoughts& thoughts)
      : thoughts_(thoughts), before_(thoughts.size(), kNone), after_(thoughts.size(), kNone) {
    for (std::size_t i = 1; i < thoughts.size(); ++i) {
      before_[i] = is_host(i - 1) ? i - 1 : before_[i - 1];
    }
    for (std::size_t i = thoughts.size(); i-- > 1;) {
      after_[i - 1] = is_host(i) ? i : after_[i];
    }
  }

  static constexpr std::size_t kNone = static_cast<std::size_t>(-1);

  /// Index of the host, or kNone: the one before in the same clause, else the one that follows;
  /// else the same in the clauses beside.
  std::size_t of(std::size_t remark) const {
    const std::size_t before = before_[remark], after = after_[remark];
    if (in_clause(before, remark) && !leads(remark)) return before;
    if (in_clause(after, remark)) return after;
    if (in_next_clause(before, remark)) return before;
    const bool may_wait = !thoughts_[remark].excepting;
    return may_wait && in_next_clause(after, remark) ? after : kNone;
  }

 private:
  /// Facts are no hosts: what stands beside a fact in its own segment is part of it already.
  bool is_host(std::size_t i) const {
    return !thoughts_[i].symptoms.empty() || !thoughts_[i].praise.empty();
  }

  bool in_clause(std::size_t host, std::size_t remark) const {
    return host != kNone && same_clause(thoughts_[host], thoughts_[remark]);
  }

  /// Praise of another sentence has no use for a remark.
  bool in_next_clause(std::size_t host, std::size_t remark) const {
    if (host == kNone || thoughts_[host].symptoms.empty()) return false;
    const std::size_t a = thoughts_[host].clause, b = thoughts_[remark].clause;
    return (a > b ? a - b : b - a) == 1;
  }

  /// "pushes going in, in the middle, hops": what came before has its phase, what follows has none.
  bool leads(std::size_t remark) const {
    const std::size_t after = remark + 1;
    const bool commas = thoughts_[remark].comma && thoughts_[remark].join == Join::none &&
                        after_[remark] == after && thoughts_[after].comma;
    return commas && in_clause(after, remark) && !thoughts_[remark].phases.empty() &&
           has_phase(thoughts_[before_[remark]]) && !has_phase(thoughts_[after]);
  }

  const Thoughts& thoughts_;
  std::vector<std::size_t> before_, after_;
};

/// The whole thought is returned as it was said, its unknown words and refused praise included.
void leave(Thought& thought) {
  Leftover all{thought.at};
  for (Leftover& part : thought.leftovers) {
    std::move(part.unknown.begin(), part.unknown.end(), std::back_inserter(all.unknown));
  }
  thought.leftovers = {std::move(all)};
  thought.refused_praise.clear();
}

/// "the gearing is short off the corner" speaks of something else than a symptom said before it,
/// and "not great in the middle" of something unsaid.
bool speaks_for_itself(const Thought& thought) {
  return !thought.leftovers.empty() || !thought.refused_praise.empty();
}

/// Praise takes a remark as part of its words; but "great, a bit in the middle" names a complaint.
bool takes(const Thought& host, const Thought& remark) {
  return !host.symptoms.empty() || remark.phases.empty() || !remark.severity;
}

/// "Loose mid corner, but only in the lefts": the fact has a side, and the complaint is of that
/// side.
void lend_side(const Thought& fact, Thoughts& thoughts, std::size_t host) {
  const auto side = fact.side.value();
  if (host == Hosts::kNone || !side || thoughts[host].side.said()) return;
  thoughts[host].side.say(*side);
}

/// Every remark ends up with a host or as a leftover; none is lost.
void join_remarks(Thoughts& thoughts) {
  const Hosts hosts(thoughts);
  for (std::size_t i = 0; i < thoughts.size(); ++i) {
    Thought& remark = thoughts[i];
    if (remark.symptoms.empty() && !remark.facts.empty()) lend_side(remark, thoughts, hosts.of(i));
    if (!remark.modifies()) continue;
    const std::size_t host = speaks_for_itself(remark) ? Hosts::kNone : hosts.of(i);
    if (host == Hosts::kNone || !takes(thoughts[host], remark))
      leave(remark);
    else
      absorb(thoughts[host], remark);
  }
}

/// What the clause says of side, time and doubt, for those of its symptoms that say nothing
/// themselves.
void fall_back(Thoughts& thoughts, std::size_t first, std::size_t last) {
  Remark<Side> side;
  Remark<When> when;
  std::optional<Confidence> confidence;
  for (std::size_t i = first; i < last; ++i) {
    if (thoughts[i].symptoms.empty()) continue;
    if (const auto said = thoughts[i].side.value()) side.say(*said);
    if (const auto said = thoughts[i].when.value()) when.say(*said);
    confidence = std::max(confidence, thoughts[i].confidence);  // the more doubtful
  }
  bool later = false;  // "early it pushes, and then it is loose"
  for (std::size_t i = first; i < last; ++i) {
    later = later || (i > first && thoughts[i].join == Join::further);
    if (!thoughts[i].side.said()) thoughts[i].side = side;
    if (!thoughts[i].when.said() && !later) thoughts[i].when = when;
    if (!thoughts[i].confidence) thoughts[i].confidence = confidence;
  }
}

void fall_back_on_clauses(Thoughts& thoughts) {
  for (std::size_t first = 0; first < thoughts.size();) {
    std::size_t last = first;
    while (last < thoughts.size() && same_clause(thoughts[first], thoughts[last])) ++last;
    fall_back(thoughts, first, last);
    first = last;
  }
}

}  // namespace

void join_thoughts(Thoughts& thoughts) {
  carry_denials(thoughts);
  share_phases(thoughts);
  join_remarks(thoughts);
  fall_back_on_clauses(thoughts);
}

}  // namespace kartwright
