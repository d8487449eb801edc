// A symptom: what it is, how it is told from its neighbours, what may be behind it, what is asked,
// and which changes move it most.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/advice/cause_words.h"
#include "engine/advice/explain_parts.h"
#include "engine/inference/situation.h"

namespace kartwright {
namespace {

std::string symptom_name(const std::string& id, const Pack& pack) {
  const Symptom* symptom = pack.symptom(id);
  if (symptom == nullptr || symptom->label == id) return id;
  return symptom->label + " (" + id + ")";
}

/// Its own neighbours, and those that name it where it does not name them.
ExplainedPart told_apart(const Symptom& s, const Pack& pack) {
  ExplainedPart part{.heading = "told from its neighbours", .paragraphs = {}};
  const auto names = [&](const std::string& id) {
    return std::any_of(s.neighbours.begin(), s.neighbours.end(),
                       [&](const Neighbour& each) { return each.symptom == id; });
  };
  for (const Neighbour& each : s.neighbours) {
    part.paragraphs.push_back(symptom_name(each.symptom, pack) + ": " + each.tell);
  }
  for (const Symptom& other : pack.symptoms) {
    for (const Neighbour& each : other.neighbours) {
      if (each.symptom != s.id || names(other.id)) continue;
      part.paragraphs.push_back(symptom_name(other.id, pack) + ": " + each.tell);
    }
  }
  return part;
}

/// The axis of a term: of a family the one at the phase taken where none is said.
const Axis* axis_of(const RowTerm& term, const SymptomReading& reading, const Pack& pack) {
  for (const Axis& axis : pack.axes) {
    if (axis.id == term.axis) return &axis;
    if (axis.family == term.axis &&
        (!axis.phase || axis.phase == reading.unsaid.value_or(Phase::mid)))
      return &axis;
  }
  return nullptr;
}

std::vector<std::string> axes_behind(const Symptom& s, const Pack& pack) {
  std::vector<std::string> out;
  if (!s.reading) return out;
  for (const RowTerm& term : s.reading->row) {
    const Axis* axis = axis_of(term, *s.reading, pack);
    if (axis == nullptr) continue;
    const bool high = term.factor * s.reading->value > 0.0;
    const std::string& name = axis->id == term.axis ? axis->label : family_label(*axis, pack);
    out.push_back(fmt::format("too {} {}: {}", high ? "much" : "little", name,
                              high ? axis->high : axis->low));
  }
  return out;
}

/// True where a condition can only be helped by a report of the symptom.
bool listens(const Condition& condition, const std::string& id) {
  if (condition.op == Condition::Op::negated) return false;
  if (condition.op == Condition::Op::test) {
    const auto* report = std::get_if<ReportTest>(&condition.test);
    return report != nullptr && report->symptom == id && report->at_least > 0;
  }
  return std::any_of(condition.parts.begin(), condition.parts.end(),
                     [&](const Condition& part) { return listens(part, id); });
}

struct SuspectFault {
  const Fault* fault = nullptr;
  const EvidenceRule* rule = nullptr;
};

/// Faults that a report of it speaks for, the strongest evidence first.
std::vector<SuspectFault> suspects_of(const Symptom& s, const Pack& pack) {
  std::vector<SuspectFault> out;
  for (const Fault& fault : pack.faults) {
    for (const EvidenceRule& rule : fault.evidence) {
      if (rule.decibans > 0.0 && listens(rule.when, s.id)) out.push_back({&fault, &rule});
    }
  }
  std::stable_sort(out.begin(), out.end(), [](const SuspectFault& a, const SuspectFault& b) {
    return a.rule->decibans > b.rule->decibans;
  });
  return out;
}

std::string suspect_text(const SuspectFault& suspect, const Pack& pack) {
  const Condition& when = suspect.rule->when;
  const std::string with = when.op == Condition::Op::test ? "" : ", when " + describe(when, pack);
  return fmt::format("{} ({}), {:+g} dB{}: {}", suspect.fault->label, suspect.fault->id,
                     suspect.rule->decibans, with, suspect.rule->because);
}

ExplainedPart behind_it(const Symptom& s, const Pack& pack) {
  ExplainedPart part{.heading = "what may be behind it", .paragraphs = axes_behind(s, pack)};
  for (const SuspectFault& suspect : suspects_of(s, pack)) {
    part.paragraphs.push_back(suspect_text(suspect, pack));
  }
  if (part.paragraphs.empty()) part.paragraphs.emplace_back("no rule listens to it");
  return part;
}

ExplainedPart asked(const Symptom& s, const Pack& pack) {
  ExplainedPart part{.heading = "what is asked", .paragraphs = {}};
  if (!s.question.empty()) part.paragraphs.push_back(s.question);
  for (const Symptom& other : pack.symptoms) {
    if (other.against != s.id || other.question.empty()) continue;
    part.paragraphs.push_back("in one question with " + other.label + ": " + other.question);
  }
  if (part.paragraphs.empty())
    part.paragraphs.emplace_back("nothing; it is heard where it is said");
  return part;
}

std::string mover_text(const SymptomMove& move, const Pack& pack) {
  const Adjustment& a = *move.adjustment;
  const std::string& phrase = a.phrases.at(move.notches < 0.0 ? 0 : 1);
  const std::string where = move.phase == Phase::any ? "" : " " + phase_label(move.phase, pack);
  return fmt::format("{}: {:.1f} less{} for {}, {:g} minutes{}", phrase, std::abs(move.notches),
                     where, each_step(a), a.minutes, move.contested ? "; contested" : "");
}

ExplainedPart what_moves_it(const Symptom& s, const Pack& pack) {
  constexpr std::size_t kMost = 6;
  ExplainedPart part{.heading = "what moves it most", .paragraphs = {}};
  std::vector<SymptomMove> moves = movers_of(s, pack);
  if (moves.size() > kMost) moves.resize(kMost);
  for (const SymptomMove& move : moves) part.paragraphs.push_back(mover_text(move, pack));
  if (!s.reading) {
    part.paragraphs.emplace_back("no setting is moved for it: it speaks to faults, so look first");
  } else if (moves.empty()) {
    part.paragraphs.emplace_back("on an ordinary day no change moves it enough to be worth naming");
  } else {
    part.paragraphs.emplace_back(
        "in notches of severity on an ordinary day; the other direction feeds it as much");
  }
  return part;
}

std::string said_as(const Symptom& s, const Pack& pack) {
  std::string said;
  for (const Phrase& phrase : pack.phrases) {
    if (phrase.means != Phrase::Means::symptom || phrase.id != s.id) continue;
    for (const std::string_view words : wordings_of(phrase))
      said.append(said.empty() ? "" : ", ").append(words);
  }
  return said;
}

}  // namespace

Explanation explain_symptom(const Symptom& s, const Pack& pack) {
  Explanation out{"symptom", s.id, s.label, {}};
  out.sections.push_back({"what it is", {s.plain}});
  ExplainedPart apart = told_apart(s, pack);
  if (!apart.paragraphs.empty()) out.sections.push_back(std::move(apart));
  out.sections.push_back(behind_it(s, pack));
  out.sections.push_back(asked(s, pack));
  out.sections.push_back(what_moves_it(s, pack));
  if (s.reading) {
    out.sections.push_back(
        {"reads",
         {fmt::format("{} = {:+g} a notch of severity", row_text(s.reading->row), s.reading->value),
          rule_line(*s.reading)}});
  }
  const std::string said = said_as(s, pack);
  if (!said.empty()) out.sections.push_back({"said as", {said}});
  return out;
}

}  // namespace kartwright
