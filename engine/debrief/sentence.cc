#include "engine/debrief/sentence.h"

#include <algorithm>
#include <optional>
#include <string>
#include <unordered_map>
#include <utility>

#include "engine/debrief/clauses.h"
#include "engine/debrief/joining.h"
#include "engine/debrief/nearest.h"
#include "engine/debrief/praise.h"
#include "engine/debrief/thoughts.h"
#include "engine/debrief/tokens.h"

namespace kartwright {
namespace {

constexpr int kUnsaidSeverity = 2;
constexpr int kWorst = 3;

/// Reports of one debrief, one for a symptom and a phase. Words are quoted last: a long clause may
/// make the same report a thousand times.
class Reports {
 public:
  /// `everywhere`: the phase is any because that was said.
  void add(Report report, Stretch at, bool everywhere) {
    const auto [entry, fresh] = index_.try_emplace(key_of(report), drafts_.size());
    if (fresh)
      drafts_.push_back({std::move(report), at, everywhere});
    else
      merge(drafts_[entry->second], {std::move(report), at, everywhere});
  }

  /// Somebody complained of the symptom, at whatever phase.
  bool complains_of(const std::string& symptom) const {
    return std::any_of(drafts_.begin(), drafts_.end(), [&](const Draft& draft) {
      return draft.report.symptom == symptom && !draft.report.denied();
    });
  }

  std::vector<Report> quoted(std::string_view said) {
    name_unsaid_phases();
    std::vector<Report> reports;
    for (const Draft& draft : drafts_) {
      reports.push_back(draft.report);
      reports.back().words = quote(said, draft.at);
    }
    return reports;
  }

 private:
  struct Draft {
    Report report;
    Stretch at;
    bool everywhere = false;
  };

  static std::string key_of(const Report& report) {
    return report.symptom + '@' + std::string(name_of(report.phase));
  }

  /// The severer stays. Complaints of both sides, or both early and late, are complaints of neither
  /// alone.
  static void merge(Draft& kept, Draft again) {
    const bool both = !kept.report.denied() && !again.report.denied();
    const bool side_differs = kept.report.side != again.report.side;
    const bool when_differs = kept.report.when != again.report.when;
    const bool everywhere = kept.everywhere || again.everywhere;
    std::vector<std::string> corners = std::move(kept.report.corners);
    for (const std::string& corner : again.report.corners) {
      if (std::find(corners.begin(), corners.end(), corner) == corners.end())
        corners.push_back(corner);
    }
    if (again.report.severity > kept.report.severity) kept = std::move(again);
    kept.report.corners = std::move(corners);
    kept.everywhere = everywhere;
    if (both && side_differs) kept.report.side.reset();
    if (both && when_differs) kept.report.when.reset();
  }

  /// "It pushes. Mostly going in": what names no phase says no more than what does, unless it said
  /// "everywhere".
  void name_unsaid_phases() {
    const auto elsewhere = [&](const Draft& vague) {
      return std::any_of(drafts_.begin(), drafts_.end(), [&](const Draft& draft) {
        return draft.report.symptom == vague.report.symptom && !draft.report.denied() &&
               draft.report.phase != Phase::any;
      });
    };
    const auto vague = [&](const Draft& draft) {
      return draft.report.phase == Phase::any && !draft.report.denied() && !draft.everywhere;
    };
    std::vector<Draft> kept;
    for (const Draft& draft : drafts_) {
      if (!vague(draft) || !elsewhere(draft)) kept.push_back(draft);
    }
    for (const Draft& draft : drafts_) {
      if (!vague(draft)) continue;
      for (Draft& named : kept) lend(draft.report, named.report);
    }
    drafts_ = std::move(kept);
    index_.clear();
    for (std::size_t i = 0; i < drafts_.size(); ++i) index_[key_of(drafts_[i].report)] = i;
  }

  /// What the vague one says of amount, side and time is said of those with a phase too.
  static void lend(const Report& vague, Report& named) {
    if (named.symptom != vague.symptom || named.denied() || named.phase == Phase::any) return;
    named.severity = std::max(named.severity, vague.severity);
    if (!named.side) named.side = vague.side;
    if (!named.when) named.when = vague.when;
  }

  std::vector<Draft> drafts_;
  std::unordered_map<std::string, std::size_t> index_;
};

int raised(int severity, bool raise) { return std::min(kWorst, severity + (raise ? 1 : 0)); }

/// "Entry, middle, exit, everywhere" is everywhere.
void leave_everywhere(std::vector<Where>& places) {
  const auto says = [&](Phase phase) {
    return std::any_of(places.begin(), places.end(),
                       [&](const Where& where) { return where.phase == phase && !where.denied; });
  };
  if (!says(Phase::any) || !says(Phase::entry) || !says(Phase::mid) || !says(Phase::exit)) return;
  std::erase_if(places, [](const Where& w) { return w.phase != Phase::any && !w.denied; });
}

/// The phases a symptom is reported at: the one its phrase spells and those said; else the one that
/// its phrase implies; else any.
std::vector<Where> places_of(const Named& named, const std::vector<Where>& said) {
  const auto plain = [](const Where& where) { return !where.denied && !where.added; };
  std::vector<Where> places;
  if (named.spells_phase || std::none_of(said.begin(), said.end(), plain)) {
    places.push_back({named.phrase->phase.value_or(Phase::any)});
  }
  places.insert(places.end(), said.begin(), said.end());
  leave_everywhere(places);
  return places;
}

/// Fills what was heard from finished thoughts.
class Listener {
 public:
  Listener(std::string_view said, const Pack& pack) : said_(said), pack_(pack) {}

  Heard listen(const std::vector<Thought>& thoughts) {
    for (const Thought& thought : thoughts) {
      report(thought);
      take_facts(thought);
      take_praise(thought);
      leftovers_.insert(leftovers_.end(), thought.leftovers.begin(), thought.leftovers.end());
    }
    take_refused_praise(thoughts);
    heard_.reports = reports_.quoted(said_);
    deny_by_praise();
    return_leftovers();
    return_all_if_nothing_heard();
    return std::move(heard_);
  }

 private:
  void report(const Thought& thought) {
    for (const Named& named : thought.symptoms) {
      for (const Where& where : places_of(named, thought.phases)) {
        Report report{named.symptom,
                      where.phase,
                      severity(thought, named, where),
                      thought.confidence.value_or(Confidence::fair),
                      thought.side.value(),
                      thought.when.value()};
        for (const Stretch at : thought.corners) report.corners.push_back(quote(said_, at));
        reports_.add(std::move(report), thought.at, says_everywhere(thought));
      }
    }
  }

  static bool says_everywhere(const Thought& thought) {
    return std::any_of(thought.phases.begin(), thought.phases.end(), [](const Where& where) {
      return where.phase == Phase::any && !where.denied;
    });
  }

  static int severity(const Thought& thought, const Named& named, const Where& where) {
    if (named.denied || where.denied) return 0;
    const int implied = named.phrase->severity.value_or(kUnsaidSeverity);
    const int said = where.severity.value_or(named.severity.value_or(implied));
    return raised(said, named.shouted || thought.loud);
  }

  void take_facts(const Thought& thought) {
    for (const StatedPhrase& stated : thought.facts) {
      const std::string& id = stated.phrase->id;
      const std::size_t equals = id.find('=');
      const bool laps = stated.phrase->means == Phrase::Means::laps;
      if (!laps && equals == std::string::npos) continue;
      StatedFact fact =
          laps ? StatedFact{"laps", id} : StatedFact{id.substr(0, equals), id.substr(equals + 1)};
      const auto same = [&](const StatedFact& f) {
        return f.fact == fact.fact && f.value == fact.value;
      };
      if (std::any_of(heard_.facts.begin(), heard_.facts.end(), same)) continue;
      fact.words = quote(said_, thought.at);
      heard_.facts.push_back(std::move(fact));
    }
  }

  /// Praise alone in its segment is quoted with what it says of where and when.
  void take_praise(const Thought& thought) {
    if (thought.praise.empty()) return;
    const bool alone = thought.symptoms.empty() && thought.facts.empty();
    std::vector<Phase> phases;
    if (alone) {
      heard_.praise.push_back(quote(said_, thought.at));
      for (const Where& where : thought.phases) {
        if (!where.denied) phases.push_back(where.phase);
      }
    } else {
      for (const Stretch at : thought.praise) heard_.praise.push_back(quote(said_, at));
    }
    const bool of_some_corners = thought.side.said() || !thought.corners.empty();
    if (!phases.empty() || !of_some_corners) praise_.add(phases);
  }

  /// "not great" says no more than the complaint that goes with it, and nothing without one.
  void take_refused_praise(const std::vector<Thought>& thoughts) {
    std::vector<bool> complains(thoughts.empty() ? 1 : thoughts.back().clause + 2);
    for (const Thought& thought : thoughts) {
      if (!thought.symptoms.empty()) complains[thought.clause] = true;
    }
    for (const Thought& thought : thoughts) {
      if (complains[thought.clause] || complains[thought.clause + 1]) continue;
      for (const Stretch at : thought.refused_praise) leftovers_.push_back({at});
    }
  }

  /// Praise denies the common complaints, weakly, and none that was made.
  void deny_by_praise() {
    if (heard_.praise.empty()) return;
    praise_.words = heard_.praise.front();
    for (Report& denial : denied_by(praise_, heard_.reports, pack_)) {
      heard_.reports.push_back(std::move(denial));
    }
  }

  void return_leftovers() {
    if (leftovers_.empty()) return;
    std::stable_sort(leftovers_.begin(), leftovers_.end(),
                     [](const Leftover& a, const Leftover& b) { return a.at.from < b.at.from; });
    Nearest nearest(pack_.phrases);
    for (const Leftover& left : leftovers_) {
      heard_.not_understood.push_back({quote(said_, left.at), nearest.to(left.text, left.unknown)});
    }
  }

  /// Small words alone are no debrief, but they were said.
  void return_all_if_nothing_heard() {
    const bool heard = !heard_.reports.empty() || !heard_.facts.empty() || !heard_.praise.empty() ||
                       !heard_.not_understood.empty();
    const std::vector<Token> tokens = heard ? std::vector<Token>{} : tokens_of(said_);
    if (tokens.empty()) return;
    const Stretch all = cover(tokens.front().at, tokens.back().at);
    heard_.not_understood.push_back({quote(said_, all), {}});
  }

  std::string_view said_;
  const Pack& pack_;
  Heard heard_;
  Reports reports_;
  Praise praise_;
  std::vector<Leftover> leftovers_;
};

}  // namespace

Ear::Ear(const Pack& pack)
    : pack_(pack),
      vocabulary_(pack.phrases, pack.word_classes, pack.light_words),
      spelling_(vocabulary_, pack.ordinary_words) {}

Heard Ear::hear(std::string_view said) {
  std::vector<Token> tokens = tokens_of(said);
  spelling_.mend(tokens);
  std::vector<Thought> thoughts = thoughts_of(clauses_of(tokens, vocabulary_));
  join_thoughts(thoughts);
  return Listener(said, pack_).listen(thoughts);
}

Heard hear(std::string_view said, const Pack& pack) { return Ear(pack).hear(said); }

}  // namespace kartwright
