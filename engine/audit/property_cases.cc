#include "engine/audit/property_cases.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/debrief/debrief_file.h"
#include "engine/inference/derive.h"

namespace kartwright {
namespace {

bool one_throw_in(Dice& dice, std::size_t n) { return throw_below(dice, n) == 0; }

Report any_report_of(Dice& dice, const Symptom& symptom) {
  const std::vector<Phase> phases = phases_to_try(symptom);
  Report report{.symptom = symptom.id, .phase = phases[throw_below(dice, phases.size())]};
  report.severity = static_cast<int>(throw_below(dice, 4));
  report.confidence = static_cast<Confidence>(throw_below(dice, 3));
  if (one_throw_in(dice, 3)) report.side = static_cast<Side>(throw_below(dice, 2));
  if (one_throw_in(dice, 5)) report.when = static_cast<When>(throw_below(dice, 2));
  return report;
}

}  // namespace

std::size_t throw_below(Dice& dice, std::size_t end) { return dice() % end; }

std::vector<std::string> every_track(const Pack& pack) {
  std::vector<std::string> tracks{"unknown"};
  for (const TrackState& track : pack.tracks) tracks.push_back(track.id);
  return tracks;
}

std::vector<Phase> phases_to_try(const Symptom& symptom) {
  std::vector<Phase> phases = symptom.phases;
  if (std::find(phases.begin(), phases.end(), Phase::any) == phases.end()) {
    phases.push_back(Phase::any);
  }
  return phases;
}

std::vector<const Symptom*> symptoms_of(const Property& property, const Pack& pack) {
  std::vector<const Symptom*> claimed;
  for (const Symptom& symptom : pack.symptoms) {
    if (property.claimed_of(symptom.id)) claimed.push_back(&symptom);
  }
  return claimed;
}

Debrief one_report(const std::string& track, Report report) {
  Debrief debrief{.heard = {}, .track = track};
  debrief.heard.reports.push_back(std::move(report));
  return debrief;
}

Debrief any_mix(Dice& dice, const Pack& pack, const std::vector<const Symptom*>& symptoms) {
  constexpr std::size_t kMostReports = 2;
  constexpr std::size_t kFactsApart = 12;  // one in so many is stated
  const std::vector<std::string> tracks = every_track(pack);
  Debrief mix{.heard = {}, .track = tracks[throw_below(dice, tracks.size())]};
  for (std::size_t n = throw_below(dice, kMostReports + 1); n > 0; --n) {
    const Symptom& symptom = *symptoms[throw_below(dice, symptoms.size())];
    mix.heard.reports.push_back(any_report_of(dice, symptom));
  }
  settle_reports(mix.heard.reports);
  for (const FactDef& fact : pack.facts) {
    if (!fact.entered || fact.id == "track" || !one_throw_in(dice, kFactsApart)) continue;
    const std::string& value = fact.values[throw_below(dice, fact.values.size())];
    mix.heard.facts.push_back({.fact = fact.id, .value = value});
  }
  return mix;
}

Debrief least_of(Debrief debrief, std::size_t kept,
                 const std::function<bool(const Debrief&)>& breaks) {
  const auto leave_out = [&](auto list, std::size_t at) {
    Debrief less = debrief;
    auto& items = less.heard.*list;
    items.erase(items.begin() + static_cast<std::ptrdiff_t>(at));
    if (breaks(less)) debrief = std::move(less);
  };
  for (std::size_t i = debrief.heard.facts.size(); i > 0; --i) leave_out(&Heard::facts, i - 1);
  for (std::size_t i = debrief.heard.reports.size(); i > kept; --i) {
    leave_out(&Heard::reports, i - 1);
  }
  return debrief;
}

std::string as_option(const Report& report) {
  std::string text = report.symptom;
  if (report.phase != Phase::any) text += fmt::format("@{}", name_of(report.phase));
  text += fmt::format("={}", report.severity);
  if (report.side) text += fmt::format(",{}", name_of(*report.side));
  if (report.when) text += fmt::format(",{}", name_of(*report.when));
  if (report.confidence != Confidence::fair) text += fmt::format(",{}", name_of(report.confidence));
  return text;
}

std::string case_in_words(const Debrief& debrief) {
  std::vector<std::string> said;
  for (const Report& report : debrief.heard.reports) said.push_back("`" + as_option(report) + "`");
  for (const StatedFact& fact : debrief.heard.facts) {
    said.push_back("`" + fact.fact + "=" + fact.value + "`");
  }
  return fmt::format("with the track {} and {}", debrief.track,
                     said.empty() ? "nothing said" : fmt::format("{}", fmt::join(said, ", ")));
}

Situation settled_case(const Pack& pack, const Kart& kart, const Debrief& debrief) {
  const std::vector<Report>& reports = debrief.heard.reports;
  return {.pack = pack,
          .kart = kart,
          .reports = reports,
          .facts = settle_facts(pack, kart, reports, given_facts(pack, kart, debrief))};
}

}  // namespace kartwright
