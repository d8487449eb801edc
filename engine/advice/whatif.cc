#include "engine/advice/whatif.h"

#include <cmath>

#include "engine/advice/load_reason.h"
#include "engine/inference/derive.h"

namespace kartwright {

namespace {

std::size_t direction_of(const PaperChange& change) {
  return steps_between(*change.setting, change.from, change.to) >= 0.0 ? 0 : 1;
}

std::vector<std::pair<std::size_t, double>> moves_of(const Effect& effect, double steps) {
  std::vector<std::pair<std::size_t, double>> moves;
  for (Eigen::Index i = 0; i < effect.per_step.size(); ++i) {
    const double moved = steps * effect.per_step[i];
    if (moved != 0.0) moves.emplace_back(static_cast<std::size_t>(i), moved);
  }
  return moves;
}

/// A case without a driver: the kart on a track.
struct Standing {
  std::vector<Report> none;
  Facts facts;

  Standing(const Kart& kart, const Pack& pack, const std::string& track) {
    Debrief debrief;
    debrief.track = track;
    facts = settle_facts(pack, kart, none, given_facts(pack, kart, debrief));
  }
};

Reported report_of(const PaperChange& change, const Situation& situation,
                   const std::optional<LoadsToday>& loads, System units) {
  const Setting& setting = *change.setting;
  const Effect effect = effect_of(*setting.adjustment, situation);
  const double steps = steps_between(setting, change.from, change.to);
  Reported out;
  out.adjustment = change.id;
  out.made = made_text(setting, direction_of(change), change.from, change.to, units);
  out.moves = moves_of(effect, steps);
  out.contested = effect.contested;
  out.loads_claim = moves_loads(change);
  if (!out.loads_claim || !loads) return out;
  KnownKart after = loads->known;
  change_setting(after, setting, change.to);
  const LoadReason reason = load_reason(*loads, figures_of(after.kart, loads->corner), effect,
                                        steps, out.made, situation.pack);
  out.loads = reason.say;
  out.text = reason.text;
  return out;
}

}  // namespace

std::optional<WhatIf> whatif(const Kart& kart, const Pack& pack, const std::string& track,
                             const std::vector<PaperChange>& changes, System units) {
  std::optional<OnPaper> paper = on_paper(kart, pack, track, changes);
  if (!paper) return {};
  WhatIf out{.paper = std::move(*paper), .reported = {}, .equivalent_track = {}};
  const PaperClass& first = out.paper.classes.front();
  const Standing standing(kart, pack, track);
  const Situation situation{
      .pack = pack, .kart = kart, .reports = standing.none, .facts = standing.facts};
  const std::optional<LoadsToday> loads = loads_today(kart, pack, first.track);
  for (const PaperChange& change : changes) {
    if (change.setting != nullptr)
      out.reported.push_back(report_of(change, situation, loads, units));
  }
  const SprintKart& before = first.before.kart;
  const SprintKart& after = first.after.kart;
  if (after.mass_height != before.mass_height) {
    out.equivalent_track =
        equivalent_track(after.rear_track, after.mass_height, before.mass_height);
  }
  return out;
}

std::vector<Sweep> sweep(const Kart& kart, const Pack& pack, const std::string& track,
                         const std::vector<PaperChange>& changes,
                         const std::vector<PaperChange>& places) {
  std::vector<Sweep> out;
  const std::optional<KnownKart> known = known_kart(kart, pack);
  if (!known) return out;
  for (const std::string& id : classes_of(pack, track)) {
    Sweep one{.track = id, .corner = {}, .rows = {}, .assumed = known->assumed};
    for (const PaperChange& place : places) {
      std::vector<PaperChange> all = changes;
      all.push_back(place);
      const KnownKart there = changed(*known, kart, pack, all);
      one.corner = *corner_class(there, pack, id);
      one.rows.push_back({place, figures_of(there.kart, one.corner)});
    }
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace kartwright
