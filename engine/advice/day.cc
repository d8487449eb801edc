#include "engine/advice/day.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/advice/advise.h"
#include "engine/advice/day_ends.h"
#include "engine/advice/day_pages.h"
#include "engine/decision/day_levers.h"

namespace kartwright {
namespace {

using Places = std::vector<std::size_t>;

constexpr double kPoints = 100.0;
constexpr double kSmallest = 1e-9;  // of a loss that something is measured by

/// How many states on a track stands behind another, by what comes next; nothing where it never
/// does.
std::optional<std::size_t> states_ahead(const Pack& pack, const std::string& from,
                                        const std::string& to) {
  const TrackState* track = pack.track(from);
  for (std::size_t n = 0; n <= pack.tracks.size() && track != nullptr; ++n) {
    if (track->id == to) return n;
    track = pack.track(track->ahead);
  }
  return std::nullopt;
}

/// Loss and all that the stops take, in points over the day.
double paid(const PlanCase& c, const PlanValue& value) {
  return value.loss + c.minute_cost * value.minutes + value.ends;
}

/// Levers that move at some stop.
std::vector<std::size_t> moved_in(const PlanCase& c, const PlanPlaces& places) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < c.levers.size(); ++i) {
    const bool moves = std::any_of(places.begin(), places.end(),
                                   [&](const Places& at) { return at[i] != c.levers[i].now; });
    if (moves) out.push_back(i);
  }
  return out;
}

// --- other ways the day can go ------------------------------------------------------------------

/// By number, which stage each stop behind the start is in if the rubber comes a stage early, or
/// never. Nothing where that is no other day.
std::optional<std::vector<std::size_t>> other_day(const std::vector<StageOfDay>& stages,
                                                  bool early) {
  const auto rubber = static_cast<std::size_t>(
      std::find_if(stages.begin(), stages.end(),
                   [](const StageOfDay& each) { return each.stage->rubber; }) -
      stages.begin());
  if (rubber == 0 || rubber == stages.size()) return std::nullopt;
  std::vector<std::size_t> out;
  for (std::size_t k = 1; k < stages.size(); ++k) {
    if (early) out.push_back(k + 1 >= rubber ? std::min(k + 1, stages.size() - 1) : k);
    if (!early) out.push_back(std::min(k, rubber - 1));
  }
  return out;
}

DayReply reply_to(bool early, const std::vector<std::size_t>& goes, const DayCase& day,
                  const DayAsked& asked, const Places& start, System units) {
  const PlanCase rest = from_there(day.search, start, goes);
  const DayPlan best = best_plan(rest);
  std::vector<StageOfDay> stages;
  for (std::size_t k = 0; k < goes.size(); ++k)
    stages.push_back({asked.stages[goes[k]].stage, asked.stages[k + 1].hours});
  const DayPages pages(day, rest, stages, units);
  DayReply reply{.early = early, .stops = pages.stops(start, best.places, {})};
  // The same day known in the morning: the start is free again.
  PlanCase known = rest;
  known.stages.insert(known.stages.begin(), day.search.stages.front());
  known.levers = day.search.levers;
  const double stages_in_all = static_cast<double>(asked.stages.size());
  PlanPlaces whole{start};
  whole.insert(whole.end(), best.places.begin(), best.places.end());
  const PlanValue value = value_of(known, whole);
  const PlanPlaces still(whole.size(), places_now(known));
  reply.left = value.loss / std::max(value_of(known, still).loss, kSmallest);
  const PlanValue best_known = value_of(known, best_plan(known).places);
  reply.regret = std::max(0.0, paid(known, value) - paid(known, best_known)) / stages_in_all;
  return reply;
}

/// What the start gains over the best one for its own stage.
void look_no_further(const DayCase& day, const DayPlan& plan, const DayPages& pages, Day& out) {
  if (plan.places.size() < 2) return;
  PlanCase now = day.search;
  now.stages.resize(1);
  const DayPlan blind = best_plan(now);
  if (blind.places.front() == plan.places.front()) return;
  std::vector<std::size_t> rest(plan.places.size() - 1);
  std::iota(rest.begin(), rest.end(), std::size_t{1});
  const double then = best_plan(from_there(day.search, blind.places.front(), rest)).value;
  const double gain = (blind.value + then - plan.value) / static_cast<double>(plan.places.size());
  // The start that looks no further may move other levers later; then it can come out ahead.
  if (gain <= 0.0) return;
  out.gain_of_looking_ahead = gain;
  for (const std::size_t lever : moved_in(now, blind.places)) {
    const DayMove move = pages.move(lever, now.levers[lever].now, blind.places[0][lever]);
    out.start_looking_at_now.push_back(move.adjustment->label + " " + move.to);
  }
}

/// A kart that is broken, or not understood, is not to be planned for yet.
void what_goes_before(const Advice& now, const Pack& pack, Day& day) {
  const Headline headline = now.verdict.headline;
  if (headline == Headline::stop_and_fix || headline == Headline::ask_again)
    day.before_all = now.text;
  if (!now.look_over.empty()) {
    day.before_all += day.before_all.empty() ? "" : " ";
    day.before_all += "After a knock, look the whole kart over first: see CARE.";
    day.cautions.emplace_back(pack.look_over);
  }
  if (headline != Headline::stop_and_fix) return;
  for (const FaultOdds& odds : now.checks) {
    if (odds.fault->stop && odds.probability >= 0.5) day.stops_the_kart.push_back(odds);
  }
  day.cautions.insert(day.cautions.end(), now.check_cautions.begin(), now.check_cautions.end());
}

void add_cautions(const Pack& pack, Day& day) {
  std::vector<std::string> ids;
  for (const Adjustment* adjustment : day.movers) {
    for (const std::string& id : adjustment->cautions) {
      if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
    }
  }
  for (const std::string& id : ids) {
    const std::string_view text = pack.caution(id)->text;
    if (std::find(day.cautions.begin(), day.cautions.end(), text) == day.cautions.end())
      day.cautions.push_back(text);
  }
}

}  // namespace

std::vector<StageOfDay> stages_from(const Pack& pack, std::string_view track) {
  const auto first = std::find_if(pack.day.begin(), pack.day.end(),
                                  [&](const DayStage& stage) { return stage.track == track; });
  std::vector<StageOfDay> out;
  for (auto stage = first; stage != pack.day.end(); ++stage) out.push_back({&*stage});
  return out;
}

bool leads_on(const Pack& pack, const std::vector<StageOfDay>& stages, std::size_t& broken) {
  const auto far = [&](const DayStage& stage) {
    const auto states = states_ahead(pack, stages.front().stage->track, stage.track);
    return states ? std::optional(static_cast<double>(*states) + stage.towards) : std::nullopt;
  };
  for (broken = 1; broken < stages.size(); ++broken) {
    const auto here = far(*stages[broken].stage), before = far(*stages[broken - 1].stage);
    if (!here || !before || *here < *before) return false;
  }
  return true;
}

Day plan_day(const Pack& pack, const Kart& kart, const Debrief& debrief, System units,
             const DayAsked& asked, const History* history) {
  const Advice now = advise(pack, kart, debrief, units, {.questions = false}, history);
  const DayCase day = day_case(pack, kart, now, asked, history);
  const DayPlan plan = best_plan(day.search);
  const DayPages pages(day, day.search, asked.stages, units);
  Day out{.kart = now.kart,
          .units = units,
          .at_the_bench = asked.at_the_bench,
          .runs_in_log = history == nullptr ? 0 : history->runs,
          .notes = now.notes};
  what_goes_before(now, pack, out);
  const std::vector<std::size_t> movers = moved_in(day.search, plan.places);
  for (const std::size_t lever : movers) {
    out.movers.push_back(&day.adjustment(lever));
    out.stands.push_back(pages.setting(lever, day.search.levers[lever].now));
    out.travel.push_back(pages.travel(lever));
  }
  const Places start = places_now(day.search);
  out.stops = pages.stops(start, plan.places, movers);
  const double stages = static_cast<double>(asked.stages.size());
  const PlanPlaces still(plan.places.size(), start);
  const double untouched = std::max(value_of(day.search, still).loss, kSmallest);
  out.left = value_of(day.search, plan.places).loss / untouched;
  out.points_saved =
      (value_of(day.search, still).loss - paid(day.search, value_of(day.search, plan.places))) /
      stages;
  out.short_of_best = plan.exact() ? 0.0 : (plan.value - plan.bound) / stages;
  out.most_levers = asked.most_levers;
  out.changes = asked.changes;
  out.looked_at = plan.looked_at;
  look_no_further(day, plan, pages, out);
  out.runs_out = runs_out(day, plan.places, out, pages);
  for (const bool early : {true, false}) {
    if (const auto goes = other_day(asked.stages, early))
      out.replies.push_back(reply_to(early, *goes, day, asked, plan.places.front(), units));
  }
  add_cautions(pack, out);
  return out;
}

}  // namespace kartwright
