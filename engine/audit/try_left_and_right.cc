// Every case and its mirror image.

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "engine/audit/property_cases.h"
#include "engine/audit/property_trials.h"
#include "engine/audit/same_answer.h"
#include "engine/inference/belief.h"

namespace kartwright {
namespace {

bool has_value(const FactDef& fact, std::string_view value) {
  return std::find(fact.values.begin(), fact.values.end(), value) != fact.values.end();
}

/// A fact that can be `left` as well as `right`; the right of right and wrong is another.
bool has_sides(const FactDef& fact) { return has_value(fact, "left") && has_value(fact, "right"); }

Debrief mirrored(Debrief debrief, const Pack& pack) {
  for (Report& report : debrief.heard.reports) {
    if (report.side) report.side = *report.side == Side::left ? Side::right : Side::left;
  }
  for (StatedFact& fact : debrief.heard.facts) {
    if (!has_sides(*pack.fact(fact.fact))) continue;
    if (const std::optional<Side> side = side_named(fact.value)) {
      fact.value = name_of(*side == Side::left ? Side::right : Side::left);
    }
  }
  return debrief;
}

/// Facts with a side, stated as the left one.
std::vector<StatedFact> left_facts(const Pack& pack) {
  std::vector<StatedFact> facts;
  for (const FactDef& fact : pack.facts) {
    if (fact.entered && has_sides(fact)) facts.push_back({.fact = fact.id, .value = "left"});
  }
  return facts;
}

/// A case, and whether the whole advice is looked at or only what is believed.
struct SidedCase {
  Debrief debrief;
  bool whole = true;
};

/// Every phase and severity. The whole advice at one of them: another with each track and symptom.
void add_reports_of(const Symptom& symptom, const std::string& track, std::size_t turn,
                    std::vector<SidedCase>& cases) {
  const std::vector<Phase> phases = phases_to_try(symptom);
  const std::size_t first = cases.size();
  for (const Phase phase : phases) {
    for (int severity = 1; severity <= 3; ++severity) {
      const Report report{
          .symptom = symptom.id, .phase = phase, .severity = severity, .side = Side::left};
      cases.push_back({one_report(track, report), false});
    }
  }
  cases[first + turn % (cases.size() - first)].whole = true;
}

void add_facts(const StatedFact& fact, const std::vector<const Symptom*>& symptoms,
               const std::string& track, std::vector<SidedCase>& cases) {
  cases.push_back({{.heard = {}, .track = track}});
  cases.back().debrief.heard.facts.push_back(fact);
  for (const Symptom* symptom : symptoms) {
    cases.push_back({one_report(track, {.symptom = symptom->id})});
    cases.back().debrief.heard.facts.push_back(fact);
  }
}

std::vector<SidedCase> cases_with_sides(const Property& claim, const Pack& pack,
                                        const TrialSize& size) {
  const std::vector<const Symptom*> symptoms = symptoms_of(claim, pack);
  std::vector<SidedCase> cases;
  std::size_t turn = 0;
  for (const std::string& track : every_track(pack)) {
    for (const StatedFact& fact : left_facts(pack)) add_facts(fact, symptoms, track, cases);
    for (const Symptom* symptom : symptoms) add_reports_of(*symptom, track, turn++, cases);
  }
  Dice dice(size.seed);
  for (int i = 0; i < size.mixes && !symptoms.empty(); ++i) {
    cases.push_back({any_mix(dice, pack, symptoms)});
  }
  return cases;
}

class SidesTrial {
 public:
  explicit SidesTrial(const Pack& pack)
      : pack_(pack), kart_(typical_kart(pack)), prior_(make_prior(pack)) {}

  /// Where a case and its mirror image part; empty where they do not.
  std::string apart(const Debrief& debrief, bool whole) const {
    const Debrief mirror = mirrored(debrief, pack_);
    if (!whole) return where_beliefs_apart(beliefs(debrief), beliefs(mirror), pack_);
    return where_apart(answer_in_full(pack_, kart_, debrief, kart_.units),
                       answer_in_full(pack_, kart_, mirror, kart_.units), pack_);
  }

 private:
  Beliefs beliefs(const Debrief& debrief) const {
    return believe(settled_case(pack_, kart_, debrief), prior_);
  }

  const Pack& pack_;
  Kart kart_;
  Prior prior_;
};

/// The symptom that a case is about, else its fact; nothing where nothing is said.
std::string subject_of(const Debrief& debrief) {
  const Heard& heard = debrief.heard;
  if (!heard.reports.empty()) return heard.reports.front().symptom;
  return heard.facts.empty() ? "" : heard.facts.front().fact;
}

}  // namespace

std::vector<Counterexample> try_left_and_right(const Property& claim, const Pack& pack,
                                               const TrialSize& size) {
  const SidesTrial trial(pack);
  std::vector<Counterexample> broken;
  for (const auto& [debrief, whole] : cases_with_sides(claim, pack, size)) {
    if (trial.apart(debrief, whole).empty()) continue;
    const bool all = whole;
    const Debrief least =
        least_of(debrief, 0, [&](const Debrief& less) { return !trial.apart(less, all).empty(); });
    const std::string subject = subject_of(least);
    const bool told = std::any_of(broken.begin(), broken.end(), [&](const Counterexample& each) {
      return each.subject == subject;
    });
    if (told) continue;
    broken.push_back({subject, fmt::format("{}, {} with left and right exchanged",
                                           case_in_words(least), trial.apart(least, all))});
  }
  return broken;
}

}  // namespace kartwright
