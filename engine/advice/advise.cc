#include "engine/advice/advise.h"

#include <algorithm>
#include <iterator>
#include <limits>
#include <tuple>

#include "engine/advice/explain_change.h"
#include "engine/advice/groundwork.h"
#include "engine/advice/measure_next.h"
#include "engine/advice/next_wanted.h"
#include "engine/advice/reading_text.h"
#include "engine/advice/together.h"
#include "engine/inference/derive.h"
#include "engine/knowledge/engine_facts.h"

namespace kartwright {
namespace {

/// The order that readings, facts and the heard reports are told in.
void sort_reports(std::vector<Report>& reports) {
  std::stable_sort(reports.begin(), reports.end(), [](const Report& a, const Report& b) {
    return std::tie(a.symptom, a.phase, b.severity) < std::tie(b.symptom, b.phase, a.severity);
  });
}

void sort_facts(std::vector<StatedFact>& facts) {
  std::stable_sort(facts.begin(), facts.end(), [](const StatedFact& a, const StatedFact& b) {
    return std::tie(a.fact, a.value) < std::tie(b.fact, b.value);
  });
}

bool track_went_wet_or_dry(const Pack& pack, const Facts& facts, const std::string& track) {
  const auto was = std::find_if(facts.all.begin(), facts.all.end(), [](const Fact& fact) {
    return fact.id == engine_facts::kTrackWas;
  });
  const TrackState* now = pack.track(track);
  if (was == facts.all.end() || now == nullptr) return false;
  const TrackState* before = pack.track(was->value);
  return before != nullptr && before->wet != now->wet;
}

/// Where the clock says faster, also the beliefs with no complaint and with complaints at their
/// full weight.
Stakes stakes_of(const Advice& advice, const Situation& situation) {
  Stakes stakes{.mean = advice.belief.mean,
                .weights = advice.weights,
                .minutes_left = advice.debrief.minutes,
                .forecast = advice.forecast};
  if (!situation.facts.has(engine_facts::kLaps, "faster")) return stakes;
  std::vector<Reading> without;
  std::vector<Reading> with = advice.readings;
  for (Reading& reading : with) {
    if (!reading.complaint) without.push_back(reading);
    if (reading.complaint) reading.sd /= situation.pack.hearing.faster_factor;
  }
  stakes.without_complaints = update(advice.prior, without).mean;
  stakes.with_complaints = update(advice.prior, with).mean;
  return stakes;
}

void check_faults(const Situation& situation, Advice& advice) {
  advice.checks = faults_worth_a_look(situation);
  // A fault that must not be run stands on top where it is at least as likely as not.
  std::stable_partition(advice.checks.begin(), advice.checks.end(), [](const FaultOdds& odds) {
    return odds.fault->stop && odds.probability >= 0.5;
  });
  if (situation.facts.has(engine_facts::kHit, "yes")) advice.look_over = situation.pack.look_over;
  std::vector<std::string> ids;
  for (const FaultOdds& odds : advice.checks) {
    for (const std::string& id : odds.fault->cautions) {
      if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
    }
  }
  for (const std::string& id : ids)
    advice.check_cautions.emplace_back(situation.pack.caution(id)->text);
}

Verdict verdict_of(const Advice& advice, const Ranking& ranking, const Situation& situation) {
  HeadlineCase c;
  c.stop_fault = !advice.checks.empty() && advice.checks.front().fault->stop &&
                 advice.checks.front().probability >= 0.5;
  c.coherent = advice.coherence.coherent;
  c.complaint = std::any_of(advice.readings.begin(), advice.readings.end(),
                            [](const Reading& reading) { return reading.complaint; });
  c.wet_changed = track_went_wet_or_dry(situation.pack, situation.facts, advice.track);
  c.loss_of_nothing = advice.loss_none;
  c.best_score = -std::numeric_limits<double>::infinity();
  c.track_relief = advice.track_relief;
  c.best_without_room = c.best_score;
  for (const Candidate& candidate : ranking.candidates) {
    c.best_without_room =
        std::max(c.best_without_room, candidate.parts.score() - candidate.parts.room);
  }
  if (!ranking.candidates.empty()) {
    c.best_score = ranking.candidates.front().parts.score() - ranking.nothing;
    c.best_relief = ranking.candidates.front().relief;
    c.best_only_comfort = ranking.candidates.front().held_back();
  }
  return headline_of(c);
}

void note_assumptions(const Kart& kart, const Pack& pack, Advice& advice) {
  advice.no_settings = kart.settings.empty();
  if (kart.typical) advice.notes.emplace_back("no kart file was given");
  if (pack.track(advice.track) == nullptr) {
    advice.notes.emplace_back("say --track for a sharper answer");
  }
}

/// The share of the handling error that the next stage takes out by itself, at its weight.
double track_relief_of(const Stakes& stakes) {
  if (stakes.forecast.empty()) return 0.0;
  const Stage& next = stakes.forecast.front();
  Stakes then = stakes;
  then.mean += next.shift;
  return next.weight * relief_of(stakes, loss_of_nothing(then));
}

/// The changes that are offered, with their reasons.
void explain_changes(const Ranking& ranking, MovesUnderFacts& moves, const Situation& situation,
                     Advice& advice) {
  ChangeExplainer explainer(advice, situation);
  std::vector<Change> changes;
  changes.reserve(ranking.candidates.size());
  for (const Candidate& candidate : ranking.candidates) {
    const Option& option = candidate.option;
    const auto adjustment =
        static_cast<std::size_t>(option.setting->adjustment - situation.pack.adjustments.data());
    const Effect& effect = advice.effects[adjustment];
    const Grounds& grounds =
        moves.grounds.of(2 * adjustment + option.direction, {option.to, advice.units},
                         [&] { return grounds_of(option, effect, advice, situation); });
    changes.push_back(explainer.explain(candidate, effect, grounds));
  }
  advice.changes = std::move(changes);
}

void explain_refusals(const Ranking& ranking, MovesInTime& moves, const Situation& situation,
                      Advice& advice) {
  advice.not_now.reserve(ranking.refused.size());
  for (const Refused& refused : ranking.refused) {
    advice.not_now.push_back(moves.not_now.of(
        static_cast<std::size_t>(refused.way - advice.ways.data()),
        {refused.refusal, refused.worsens, refused.uncertain, advice.units},
        [&] { return explain_refusal(refused, situation, advice.units, advice.debrief.minutes); }));
  }
}

/// How often each change comes first, and doing nothing.
Draws draw_lots(const Stakes& stakes, const Ranking& ranking, Depth depth, const Advice& advice) {
  std::vector<Contender> contenders =
      contenders_of(ranking.candidates, advice.ways, advice.effects);
  for (Contender& each : contenders) each.fixed -= ranking.nothing;
  return draw(stakes, advice.belief.covariance, contenders,
              {.draws = depth.draws, .seed = depth.seed});
}

void rank_changes(Situation& situation, Groundwork& ground, Depth depth, Advice& advice) {
  MovesUnderFacts& moves = ground.under_facts(situation, advice.track);
  MovesInTime& in_time = ground.in_time(advice.debrief.minutes);
  advice.effects = moves.effects;
  advice.ways = in_time.ways;
  advice.forecast = forecast(situation.pack, advice.track, advice.debrief.hours);
  const Stakes stakes = stakes_of(advice, situation);
  advice.loss_none = loss_of_nothing(stakes);
  advice.track_relief = track_relief_of(stakes);
  advice.effort_rate = effort_rate(stakes.minutes_left);
  const Ranking ranking = rank(stakes, advice.ways, advice.effects);
  advice.score_of_nothing = ranking.nothing;
  advice.verdict = verdict_of(advice, ranking, situation);
  const bool change = advice.verdict.headline == Headline::change;
  advice.next =
      next_wanted(situation, stakes, advice, change ? &ranking.candidates.front() : nullptr);
  if (advice.verdict.headline != Headline::leave_alone)
    advice.bundles = bundles_of(stakes, ranking, advice, ground.jobs(), depth.together);
  if (depth.draws > 0) advice.draws = draw_lots(stakes, ranking, depth, advice);
  explain_changes(ranking, moves, situation, advice);
  explain_refusals(ranking, in_time, situation, advice);
}

}  // namespace

Advice advise(Groundwork& ground, const Debrief& debrief, System units, Depth depth,
              const History* history) {
  const Pack& pack = ground.pack();
  const Kart& kart = ground.kart();
  Advice advice;
  advice.kart = kart.name;
  advice.track = debrief.track;
  advice.debrief = debrief;
  advice.units = units;
  sort_reports(advice.debrief.heard.reports);
  sort_facts(advice.debrief.heard.facts);
  note_assumptions(kart, pack, advice);
  advice.weights = ground.weights();
  advice.prior = ground.prior();

  const std::vector<Report>& reports = advice.debrief.heard.reports;
  // What no rule looks at need not be searched through for every condition.
  std::vector<Fact> given = ground.room_matters() ? given_facts(pack, kart, advice.debrief)
                                                  : facts_without_room(pack, kart, advice.debrief);
  const Groundwork::Loads& loads = ground.loads(advice.track);
  Situation situation{.pack = pack,
                      .kart = kart,
                      .reports = reports,
                      .facts = settle_facts(pack, kart, reports, std::move(given)),
                      .loads = loads.measures};
  advice.loads = loads.today;
  advice.readings = take_readings(situation);
  advice.belief = update(advice.prior, advice.readings);
  advice.coherence = fit_together(advice.prior, advice.readings);
  check_faults(situation, advice);
  if (history != nullptr) advice.experience = experience_of(*history, effects_of(situation));
  if (history != nullptr) situation.experience = &advice.experience;
  rank_changes(situation, ground, depth, advice);
  if (depth.questions) {
    advice.questions = questions({.situation = situation,
                                  .prior = advice.prior,
                                  .belief = advice.belief,
                                  .weights = advice.weights,
                                  .ways = advice.ways,
                                  .effects = advice.effects});
  }
  if (depth.measure_next) advice.measure_next = measure_next(advice, situation);
  advice.facts = std::move(situation.facts);
  if (depth.room && !ground.room_matters()) add_room(kart, advice.facts);
  advice.text = reading_text(advice, pack);
  return advice;
}

Advice advise(const Pack& pack, const Kart& kart, const Debrief& debrief, System units, Depth depth,
              const History* history) {
  Groundwork ground(pack, kart);
  return advise(ground, debrief, units, depth, history);
}

}  // namespace kartwright
