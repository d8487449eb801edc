#include "engine/debrief/thoughts.h"

#include <algorithm>
#include <array>
#include <utility>

namespace kartwright {
namespace {

using Means = Phrase::Means;

/// What a negation before it has made of a piece.
enum class Mark { plain, denied, spent };

/// Severity words carry their number, 1 to 3, as id.
int amount_of(const Piece& piece) { return std::clamp(piece.phrase->id.front() - '0', 1, 3); }

bool is_idle(const Piece& piece) { return piece.is(Means::filler) || piece.is(Means::place); }

bool is_other(const Piece& piece) {
  return piece.is(Means::filler) && piece.phrase->id == "other-talk";
}

bool is_strange(const Piece& piece) { return piece.phrase == nullptr || is_other(piece); }

/// Ties a subject to what is said of it.
bool is_link(const Piece& piece) {
  constexpr std::array<std::string_view, 10> kLinks{"is",   "are",   "was",   "were", "feels",
                                                    "felt", "looks", "comes", "came", "got"};
  return std::find(kLinks.begin(), kLinks.end(), piece.text) != kLinks.end();
}

/// What a negation denies first, wherever it stands in the segment.
bool is_target(const Piece& piece) {
  return piece.is(Means::symptom) || piece.is(Means::praise) || piece.is(Means::fact) ||
         piece.is(Means::laps);
}

bool names_symptom(const SpokenClause& clause) {
  const auto symptom = [](const Piece& piece) { return piece.is(Means::symptom); };
  return std::any_of(clause.segments.begin(), clause.segments.end(), [&](const Segment& s) {
    return std::any_of(s.pieces.begin(), s.pieces.end(), symptom);
  });
}

/// Turns one segment into a thought. Each method reads one kind of piece.
class Reader {
 public:
  /// `aside`: what stood before it says that this is of another day or another kart.
  Reader(const SpokenClause& clause, const Segment& segment, bool excepting, bool aside)
      : pieces_(segment.pieces), aside_(aside), marks_(pieces_.size(), Mark::plain) {
    thought_.join = segment.join;
    thought_.comma = segment.comma;
    thought_.told = segment.told;
    thought_.at = cover(pieces_.front().at, pieces_.back().at);
    thought_.excepting = excepting;
    thought_.asked = clause.asked;
    thought_.loud = clause.loud;
  }

  Thought run() {
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      if (pieces_[i].is(Means::negation)) negate(i);
    }
    for (std::size_t i = 0; i < pieces_.size(); ++i) gather(i);
    if (side_of_facts_.said()) thought_.side = side_of_facts_;  // "only in the lefts" settles it
    share_amounts();
    change_by_manner();
    if (speaks_of_something_else() || is_other_talk()) return_all();
    gather_unknown();
    describe();
    return std::move(thought_);
  }

 private:
  /// First piece behind `from`, before the next negation, for which `wanted` holds; or the end.
  template <typename Wanted>
  std::size_t next(std::size_t from, Wanted wanted) const {
    for (std::size_t i = from + 1; i < pieces_.size(); ++i) {
      if (wanted(pieces_[i])) return i;
      if (pieces_[i].is(Means::negation)) break;
    }
    return pieces_.size();
  }

  /// Pieces [first, last] come back as said and mean nothing else.
  void leave(std::size_t first, std::size_t last) {
    Leftover left{cover(pieces_[first].at, pieces_[last].at)};
    for (std::size_t i = first; i <= last; ++i) {
      left.text += (i == first ? "" : " ") + pieces_[i].text;
      if (pieces_[i].phrase == nullptr) left.unknown.push_back(pieces_[i].text);
      marks_[i] = Mark::spent;
    }
    thought_.leftovers.push_back(std::move(left));
  }

  /// A negation denies what it stands before: symptoms first, else praise or a fact, else a phase.
  void negate(std::size_t at) {
    if (pieces_[at].phrase->id == "after") return deny_what_went(at);
    const std::size_t target = next(at, is_target);
    if (target == pieces_.size()) return negate_remark(at);
    if (pieces_[target].is(Means::symptom)) return deny_symptoms(target);
    if (!pieces_[target].is(Means::praise)) return leave(at, target);
    thought_.refused_praise.push_back(cover(pieces_[at].at, pieces_[target].at));
    for (std::size_t i = at; i <= target; ++i) {
      if (pieces_[i].phrase != nullptr)
        marks_[i] = Mark::spent;  // "not really great" is not really
    }
  }

  /// "The hop has gone", where "it has gone loose" denies nothing.
  void deny_what_went(std::size_t at) {
    const auto symptom = [](const Piece& piece) { return piece.is(Means::symptom); };
    if (next(at, symptom) == pieces_.size()) deny_before(at);
  }

  /// "doesn't push much" denies the much. "Not loose, really" and "no push at all" mean it.
  void deny_symptoms(std::size_t first) {
    const std::size_t behind = next(first, [](const Piece& piece) {
      return piece.is(Means::symptom) || (piece.is(Means::severity) && amount_of(piece) > 1);
    });
    const bool amount = behind < pieces_.size() && pieces_[behind].is(Means::severity);
    const bool stress =
        amount && (pieces_[behind].text == "really" || pieces_[behind].text == "at all");
    if (amount && !stress)
      marks_[behind] = Mark::denied;
    else
      deny_from(first, Means::symptom);
  }

  /// Stops at what another negation has denied already, which keeps the work linear.
  void deny_from(std::size_t first, Means means) {
    for (std::size_t i = first; i < pieces_.size() && marks_[i] == Mark::plain; ++i) {
      if (i > first && pieces_[i].says_no) return;  // "it doesn't push it just won't drive off"
      if (pieces_[i].is(means)) marks_[i] = Mark::denied;
    }
  }

  /// A negation of no symptom, praise or fact: "not in the middle", "not badly", "not the gearbox".
  void negate_remark(std::size_t at) {
    const std::size_t target =
        next(at, [](const Piece& piece) { return !is_idle(piece) && !piece.is(Means::negation); });
    if (target == pieces_.size()) return deny_before(at);
    const Piece& piece = pieces_[target];
    if (piece.phrase == nullptr) return leave(at, end_of_run(target));
    if (piece.is(Means::phase)) return deny_from(target, Means::phase);
    if (piece.is(Means::severity) && amount_of(piece) > 1)
      marks_[target] = Mark::denied;
    else
      leave(at, target);
  }

  /// "the hop is not there": a negation with nothing behind it denies the symptom before it. "Not
  /// the track" denies nothing that is known; a "no" alone is only a manner of speaking.
  void deny_before(std::size_t at) {
    for (std::size_t i = at; i-- > 0 && !pieces_[i].is(Means::negation);) {
      if (!pieces_[i].is(Means::symptom)) continue;
      marks_[i] = Mark::denied;
      return;
    }
    std::size_t first = at, last = at;
    while (first > 0 && is_idle(pieces_[first - 1])) --first;
    while (last + 1 < pieces_.size() && is_idle(pieces_[last + 1])) ++last;
    if (first != last) leave(first, last);
  }

  /// Files a piece by its meaning. An exception names where a symptom is not; sides and times have
  /// no such report, so they come back.
  void gather(std::size_t i) {
    const Piece& piece = pieces_[i];
    if (piece.phrase == nullptr || marks_[i] == Mark::spent) return;
    const std::string& id = piece.phrase->id;
    switch (piece.phrase->means) {
      case Means::symptom:
        return gather_symptom(i);
      case Means::phase:
        return gather_phase(i);
      case Means::severity:
        amounts_.push_back(i);
        return;
      case Means::side:
        if (thought_.excepting)
          leave(i, i);
        else if (const auto side = side_named(id))
          thought_.side.say(*side);
        return;
      case Means::when:
        if (thought_.excepting)
          leave(i, i);
        else if (const auto when = when_named(id))
          thought_.when.say(*when);
        return;
      case Means::confidence:
        if (const auto said = confidence_named(id)) {
          thought_.confidence = std::max(*said, thought_.confidence.value_or(*said));
        }
        return;
      case Means::fact:
      case Means::laps:
        thought_.facts.push_back({piece.phrase, piece.at});
        if (const auto side = side_named(id.substr(id.find('=') + 1))) side_of_facts_.say(*side);
        return;
      case Means::manner:
        manners_.push_back(&piece);
        return;
      case Means::praise:
        thought_.praise.push_back(piece.at);
        return;
      case Means::place:
        if (id == "corner") thought_.corners.push_back(piece.at);
        return;
      case Means::negation:
      case Means::aside:
      case Means::filler:
        return;
    }
  }

  /// "The rear lets go with no warning" is a snap. A manner that finds no symptom to change says
  /// nothing that matters.
  void change_by_manner() {
    for (const Piece* manner : manners_) {
      const std::string& id = manner->phrase->id;
      const std::size_t equals = id.find('=');
      for (Named& named : thought_.symptoms) {
        if (named.symptom == std::string_view(id).substr(0, equals) && !named.denied) {
          named.symptom = id.substr(equals + 1);
        }
      }
    }
  }

  void gather_symptom(std::size_t i) {
    const Piece& piece = pieces_[i];
    thought_.phases_lead =
        thought_.symptoms.empty() ? !thought_.phases.empty() : thought_.phases_lead;
    thought_.symptoms.push_back(
        {piece.phrase, piece.phrase->id,
         piece.denied || piece.phrase->severity == 0 || marks_[i] == Mark::denied,
         piece.capitals || is_stressed(i), piece.spells_phase});
    symptom_at_.push_back(i);
    if (piece.side) thought_.side.say(*piece.side);
  }

  /// "it is SO loose".
  bool is_stressed(std::size_t i) const {
    const bool before = i > 0 && pieces_[i - 1].capitals && pieces_[i - 1].is(Means::filler);
    const bool behind = i + 1 < pieces_.size() && pieces_[i + 1].capitals &&
                        pieces_[i + 1].is(Means::filler) &&
                        pieces_[i + 1].at.from < pieces_[i].at.to;
    return before || behind;
  }

  /// A phase behind a symptom ends the chance that phases lead.
  void gather_phase(std::size_t i) {
    const auto phase = phase_named(pieces_[i].phrase->id);
    if (!phase) return;
    const bool denied = marks_[i] == Mark::denied || thought_.excepting;
    const auto same = [&](const Where& w) { return w.phase == *phase && w.denied == denied; };
    auto& phases = thought_.phases;
    if (std::none_of(phases.begin(), phases.end(), same)) phases.push_back({*phase, denied});
    if (!thought_.symptoms.empty()) thought_.phases_lead = false;
  }

  /// What a word of amount says. "not badly" is slightly.
  int amount_at(std::size_t i) const {
    return marks_[i] == Mark::denied ? 1 : amount_of(pieces_[i]);
  }

  /// "really slight" is slight: a strong word right before a weak one only strengthens that.
  bool gives_way(std::size_t k) const {
    const std::size_t i = amounts_[k];
    return k + 1 < amounts_.size() && amounts_[k + 1] == i + 1 && amount_at(i + 1) < amount_at(i);
  }

  /// Each word of amount goes to the symptom nearest to it; a symptom without one of its own takes
  /// the strongest of the segment, but never another's weak one.
  void share_amounts() {
    std::optional<int> strongest;
    std::size_t symptom = 0;
    for (std::size_t k = 0; k < amounts_.size(); ++k) {
      if (gives_way(k)) continue;
      const int amount = amount_at(amounts_[k]);
      strongest = std::max(amount, strongest.value_or(amount));
      if (symptom_at_.empty()) continue;
      while (symptom + 1 < symptom_at_.size() && is_nearer(symptom + 1, symptom, amounts_[k]))
        ++symptom;
      auto& own = thought_.symptoms[symptom].severity;
      own = std::max(amount, own.value_or(amount));
    }
    if (symptom_at_.empty()) thought_.severity = strongest;
    if (strongest.value_or(0) < 2) return;
    for (Named& named : thought_.symptoms) named.severity = named.severity.value_or(*strongest);
  }

  /// Of two symptoms as far away, the one that follows is meant.
  bool is_nearer(std::size_t later, std::size_t earlier, std::size_t from) const {
    const auto distance = [&](std::size_t symptom) {
      const std::size_t at = symptom_at_[symptom];
      return at > from ? at - from : from - at;
    };
    return distance(later) <= distance(earlier);
  }

  /// "It was pushing yesterday", "the other kart hops", "my visor is great".
  bool speaks_of_something_else() const {
    if (!thought_.facts.empty()) return false;
    const auto is_aside = [](const Piece& piece) { return piece.is(Means::aside); };
    const bool aside = aside_ || std::any_of(pieces_.begin(), pieces_.end(), is_aside);
    if (aside) return !thought_.symptoms.empty() || !thought_.praise.empty();
    return has_another_subject();
  }

  /// "My visor is great", "the helmet is loose": an unknown word with "is" or the like behind it,
  /// or before praise, is what the segment speaks of.
  bool has_another_subject() const {
    const auto head = std::find_if(pieces_.begin(), pieces_.end(), [](const Piece& piece) {
      return piece.is(Means::symptom) || piece.is(Means::praise);
    });
    if (head == pieces_.end()) return false;
    bool linked = head->is(Means::praise);
    for (auto piece = head; piece != pieces_.begin();) {
      --piece;
      if (is_strange(*piece)) return linked;
      if (!piece->is(Means::filler) && !piece->is(Means::severity)) return false;
      linked = linked || is_link(*piece);
    }
    return false;
  }

  /// Talk of other things, in words that would be small ones beside a complaint: "when do we eat".
  bool is_other_talk() const {
    const bool heads =
        !thought_.symptoms.empty() || !thought_.facts.empty() || !thought_.praise.empty();
    return !heads && std::any_of(pieces_.begin(), pieces_.end(), is_other);
  }

  /// All of the segment comes back as said.
  void return_all() {
    Thought all;
    std::swap(all, thought_);
    thought_.join = all.join;
    thought_.comma = all.comma;
    thought_.told = all.told;
    thought_.at = all.at;
    leave(0, pieces_.size() - 1);
  }

  /// Runs of unknown words, with the filler between them.
  void gather_unknown() {
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      if (pieces_[i].phrase != nullptr || marks_[i] == Mark::spent) continue;
      if (is_simile(i))
        marks_[i] = Mark::spent;
      else
        leave(i, end_of_run(i));
    }
  }

  /// "hops like a mad rabbit": of a symptom, what it is like says no more.
  bool is_simile(std::size_t i) const {
    constexpr std::size_t kFar = 3;
    if (thought_.symptoms.empty()) return false;
    for (std::size_t back = 1; back <= std::min(kFar, i); ++back) {
      const Piece& piece = pieces_[i - back];
      if (piece.is(Means::filler) && piece.phrase->id == "simile") return true;
      if (piece.is(Means::symptom) && piece.text.ends_with(" like")) return true;
      if (piece.phrase != nullptr && !is_idle(piece)) return false;
    }
    return false;
  }

  /// The last unknown word of the run that begins with the unknown word `first`.
  std::size_t end_of_run(std::size_t first) const {
    std::size_t last = first;
    for (std::size_t i = first; i < pieces_.size(); ++i) {
      const bool unknown = pieces_[i].phrase == nullptr;
      if (marks_[i] == Mark::spent || !(unknown || pieces_[i].is(Means::filler))) break;
      if (unknown) last = i;
    }
    return last;
  }

  /// What sort of segment it is, by the pieces alone; lists of denials need to know.
  void describe() {
    std::size_t symptoms = 0, negations = 0, fillers = 0;
    for (const Piece& piece : pieces_) {
      symptoms += piece.is(Means::symptom);
      negations += piece.is(Means::negation);
      fillers += piece.is(Means::filler);
    }
    thought_.bare = symptoms == pieces_.size();
    thought_.finite = thought_.bare && pieces_.front().finite;
    thought_.only_no = negations > 0 && negations + fillers == pieces_.size();
    thought_.only_gone =
        thought_.only_no && std::any_of(pieces_.begin(), pieces_.end(), [](const Piece& piece) {
          return piece.is(Means::negation) && piece.phrase->id == "after";
        });
    std::size_t asides = 0;
    for (const Piece& piece : pieces_) asides += piece.is(Means::aside);
    thought_.aside = asides > 0 && asides + fillers == pieces_.size();
  }

  const std::vector<Piece>& pieces_;
  bool aside_ = false;
  std::vector<Mark> marks_;
  std::vector<std::size_t> symptom_at_, amounts_;
  std::vector<const Piece*> manners_;
  Remark<Side> side_of_facts_;
  Thought thought_;
};

}  // namespace

// Facts and praise keep the phase or side said with them: "hit the kerb going in".
bool Thought::modifies() const {
  return symptoms.empty() && praise.empty() && facts.empty() &&
         (!phases.empty() || severity || side.said() || when.said() || confidence ||
          !corners.empty());
}

bool Thought::is_idle() const {
  return symptoms.empty() && praise.empty() && facts.empty() && refused_praise.empty() &&
         leftovers.empty() && !only_no && !modifies();
}

std::vector<Thought> thoughts_of(const std::vector<SpokenClause>& clauses) {
  std::vector<Thought> thoughts;
  std::size_t number = 0;
  for (const SpokenClause& clause : clauses) {
    const std::size_t before = thoughts.size();
    const bool excepting = clause.exception && !names_symptom(clause);
    bool aside = false;
    for (const Segment& segment : clause.segments) {
      Thought thought = Reader(clause, segment, excepting, aside).run();
      thought.clause = number;
      aside = thought.aside;
      if (!thought.is_idle()) thoughts.push_back(std::move(thought));
    }
    if (thoughts.size() > before) ++number;
  }
  return thoughts;
}

}  // namespace kartwright
