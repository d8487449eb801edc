#include "engine/advice/whatif.h"

#include <algorithm>
#include <cmath>

#include "engine/advice/load_reason.h"
#include "engine/chassis/weighing.h"
#include "engine/inference/derive.h"

namespace kartwright {

namespace {

constexpr std::string_view kLastWord = "last-word";

SettingMove move_of(const PaperChange& change) {
  const double steps = steps_between(*change.setting, change.from, change.to);
  return {*change.setting, steps >= 0.0 ? 0U : 1U, change.from, change.to, steps};
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
  const SettingMove move = move_of(change);
  const Effect effect = effect_of(*move.setting.adjustment, situation);
  Reported out;
  out.adjustment = change.id;
  out.made = made_text(move, units);
  out.moves = moves_of(effect, move.steps);
  out.contested = effect.contested;
  out.loads_claim = moves_loads(change);
  if (!out.loads_claim || !loads) return out;
  const LoadReason reason = load_reason(*loads, move, effect, situation.pack, units);
  out.loads = reason.say;
  out.text = reason.text;
  return out;
}

/// N that the changes put on the outside rear in the middle of a corner, in the first class.
double change_of(const PaperClass& one) {
  return one.after.figures.outside_rear - one.before.figures.outside_rear;
}

/// The same with a size at another value; 0 where the kart cannot be worked out with it.
double change_with(const MeasureDef& size, double value, Kart kart, const Pack& pack,
                   const OnPaper& paper) {
  (pack.dimension(size.id) != nullptr ? kart.dimensions : kart.measures)[size.id] = value;
  const auto there = on_paper(kart, pack, paper.classes.front().track, paper.changes);
  return there ? change_of(there->classes.front()) : 0.0;
}

std::optional<CountsMost> counts_most(const OnPaper& paper, const Kart& kart, const Pack& pack) {
  constexpr double kNotWorthIt = 0.1;  // N
  const double now = change_of(paper.classes.front());
  std::optional<CountsMost> best;
  double most = kNotWorthIt;
  for (const std::string_view id : paper.assumed) {
    const MeasureDef* const dimension = pack.dimension(id);
    const MeasureDef* const size = dimension != nullptr ? dimension : pack.measure(id);
    if (size == nullptr || !size->likely_from || !size->likely_to) continue;
    CountsMost one{size->id, *size->likely_from, *size->likely_to};
    one.at_low = change_with(*size, one.low, kart, pack, paper);
    one.at_high = change_with(*size, one.high, kart, pack, paper);
    const double moved = std::max(std::abs(one.at_low - now), std::abs(one.at_high - now));
    if (moved < most) continue;
    most = moved;
    best = one;
  }
  return best;
}

}  // namespace

std::vector<std::string_view> paper_cautions(const std::vector<PaperChange>& changes,
                                             const Pack& pack) {
  std::vector<std::string_view> ids;
  const auto add = [&](std::string_view id) {
    if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
  };
  for (const PaperChange& change : changes) {
    if (change.setting == nullptr) continue;
    for (const std::string& id : change.setting->adjustment->cautions) add(id);
  }
  add(kLastWord);
  return caution_texts(ids, pack);
}

std::optional<WhatIf> whatif(const Kart& kart, const Pack& pack, const std::string& track,
                             const std::vector<PaperChange>& changes, System units) {
  std::optional<OnPaper> paper = on_paper(kart, pack, track, changes);
  if (!paper) return {};
  WhatIf out{.paper = std::move(*paper), .reported = {}, .equivalent_track = {}, .cautions = {}};
  out.cautions = paper_cautions(changes, pack);
  if (const auto known = known_kart(kart, pack)) {
    out.front_tyre_width = known->front_tyre_width;
    out.rear_tyre_width = known->rear_tyre_width;
  }
  const PaperClass& first = out.paper.classes.front();
  out.counts_most = counts_most(out.paper, kart, pack);
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
      const Manoeuvre middle = manoeuvre_of(there.kart, one.corner, CornerPhase::mid);
      one.rows.push_back({place, figures_of(there.kart, one.corner), corner(there.kart, middle)});
    }
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace kartwright
