// The same report, worse and worse: is the symptom, or a fault behind it, ever believed in less?

#include <algorithm>
#include <array>
#include <map>
#include <optional>

#include <fmt/format.h>

#include "engine/audit/property_cases.h"
#include "engine/audit/property_trials.h"
#include "engine/inference/belief.h"
#include "engine/inference/fault_odds.h"

namespace kartwright {
namespace {

constexpr double kNothingLower = 1e-9;  // notches, or decibans

/// True where a condition needs a report of the symptom to hold, somewhere outside a `not`.
bool asks_for(const Condition& condition, const std::string& symptom, bool wanted = true) {
  if (condition.op == Condition::Op::test) {
    const auto* report = std::get_if<ReportTest>(&condition.test);
    return wanted && report != nullptr && report->symptom == symptom && report->at_least > 0;
  }
  const bool inside = (condition.op == Condition::Op::negated) != wanted;
  return std::any_of(condition.parts.begin(), condition.parts.end(),
                     [&](const Condition& part) { return asks_for(part, symptom, inside); });
}

/// The faults that a symptom is evidence for.
std::vector<const Fault*> faults_behind(const std::string& symptom, const Pack& pack) {
  std::vector<const Fault*> faults;
  for (const Fault& fault : pack.faults) {
    const bool speaks =
        std::any_of(fault.evidence.begin(), fault.evidence.end(), [&](const EvidenceRule& rule) {
          return rule.decibans > 0.0 && asks_for(rule.when, symptom);
        });
    if (speaks) faults.push_back(&fault);
  }
  return faults;
}

/// What is believed of one symptom at one severity.
struct Believed {
  std::optional<double> there;          ///< notches; nothing where the report gives no reading
  std::map<const Fault*, double> odds;  ///< decibans
};

class WorseTrial {
 public:
  WorseTrial(const Symptom& symptom, const Pack& pack)
      : symptom_(symptom),
        pack_(pack),
        kart_(typical_kart(pack)),
        prior_(make_prior(pack)),
        faults_(faults_behind(symptom.id, pack)) {}

  bool says_nothing() const { return !symptom_.reading && faults_.empty(); }

  const Symptom& symptom() const { return symptom_; }

  /// The first report of the debrief is the one that gets worse.
  std::optional<Counterexample> on(Debrief debrief) const {
    Believed milder = believed(debrief, 0);
    for (int severity = 1; severity <= 3; ++severity) {
      const Believed worse = believed(debrief, severity);
      auto broken = lower(milder, worse, debrief);
      if (broken) return broken;
      milder = worse;
    }
    return std::nullopt;
  }

 private:
  Believed believed(Debrief& debrief, int severity) const {
    debrief.heard.reports.front().severity = severity;
    const Situation situation = settled_case(pack_, kart_, debrief);
    Believed out{.there = belief_in(take_readings(situation)), .odds = {}};
    if (faults_.empty()) return out;
    for (const FaultOdds& odds : weigh_faults(situation)) out.odds[odds.fault] = odds.decibans;
    return out;
  }

  std::optional<double> belief_in(const std::vector<Reading>& readings) const {
    const auto own = std::find_if(readings.begin(), readings.end(),
                                  [](const Reading& reading) { return reading.report == 0; });
    if (own == readings.end()) return std::nullopt;
    const double sign = symptom_.reading->value < 0.0 ? -1.0 : 1.0;
    return sign * own->row.dot(update(prior_, readings).mean);
  }

  static bool falls(double was, double is) {
    return std::max(is, 0.0) < std::max(was, 0.0) - kNothingLower;
  }

  std::optional<Counterexample> lower(const Believed& milder, const Believed& worse,
                                      const Debrief& debrief) const {
    const std::string where = case_in_words(debrief);
    const int before = debrief.heard.reports.front().severity - 1;
    if (worse.there && milder.there && falls(*milder.there, *worse.there)) {
      return Counterexample{
          symptom_.id,
          fmt::format("{}, there is less `{}` ({:+.3g} notches) than with severity {} ({:+.3g})",
                      where, symptom_.id, *worse.there, before, *milder.there)};
    }
    for (const Fault* fault : faults_) {
      const double was = milder.odds.at(fault), is = worse.odds.at(fault);
      if (is >= was - kNothingLower) continue;
      return Counterexample{
          symptom_.id, fmt::format("{}, `{}` is less likely ({:+.3g} dB) than with severity {} "
                                   "({:+.3g} dB)",
                                   where, fault->id, is, before, was)};
    }
    return std::nullopt;
  }

  const Symptom& symptom_;
  const Pack& pack_;
  Kart kart_;
  Prior prior_;
  std::vector<const Fault*> faults_;
};

/// The symptom alone, on every track, at every phase, however sure the driver is; how sure weighs
/// nothing where the symptom speaks to faults only.
std::vector<Debrief> alone(const Symptom& symptom, const Pack& pack) {
  using enum Confidence;
  std::vector<Confidence> confidences{fair};
  if (symptom.reading) confidences = {sure, fair, unsure};
  std::vector<Debrief> cases;
  for (const std::string& track : every_track(pack)) {
    for (const Phase phase : phases_to_try(symptom)) {
      for (const Confidence confidence : confidences) {
        cases.push_back(
            one_report(track, {.symptom = symptom.id, .phase = phase, .confidence = confidence}));
      }
    }
  }
  return cases;
}

/// The symptom among other reports and facts.
Debrief among_others(Dice& dice, const Symptom& symptom, const Pack& pack) {
  std::vector<const Symptom*> all;
  for (const Symptom& each : pack.symptoms) all.push_back(&each);
  const std::vector<Phase> phases = phases_to_try(symptom);
  Debrief mix = any_mix(dice, pack, all);
  std::vector<Report>& reports = mix.heard.reports;
  std::erase_if(reports, [&](const Report& report) { return report.symptom == symptom.id; });
  const Report own{.symptom = symptom.id,
                   .phase = phases[throw_below(dice, phases.size())],
                   .confidence = static_cast<Confidence>(throw_below(dice, 3))};
  reports.insert(reports.begin(), own);
  return mix;
}

/// The first that breaks the claim, with the least that does.
std::optional<Counterexample> first_broken(const WorseTrial& trial,
                                           const std::vector<Debrief>& cases) {
  for (const Debrief& debrief : cases) {
    if (!trial.on(debrief)) continue;
    const Debrief least =
        least_of(debrief, 1, [&](const Debrief& less) { return trial.on(less).has_value(); });
    return trial.on(least);
  }
  return std::nullopt;
}

}  // namespace

std::vector<Counterexample> try_worse_reports(const Property& claim, const Pack& pack,
                                              const TrialSize& size) {
  std::vector<WorseTrial> trials;
  std::vector<std::vector<Debrief>> cases;
  for (const Symptom* symptom : symptoms_of(claim, pack)) {
    WorseTrial trial(*symptom, pack);
    if (trial.says_nothing()) continue;
    trials.push_back(std::move(trial));
    cases.push_back(alone(*symptom, pack));
  }
  Dice dice(size.seed);
  for (int i = 0; i < size.mixes && !trials.empty(); ++i) {
    const std::size_t which = throw_below(dice, trials.size());
    cases[which].push_back(among_others(dice, trials[which].symptom(), pack));
  }
  std::vector<Counterexample> broken;
  for (std::size_t i = 0; i < trials.size(); ++i) {
    const std::optional<Counterexample> found = first_broken(trials[i], cases[i]);
    if (found) broken.push_back(*found);
  }
  return broken;
}

}  // namespace kartwright
