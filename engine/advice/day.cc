#include "engine/advice/day.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/advice/advise.h"
#include "engine/advice/day_case.h"
#include "engine/decision/day_levers.h"
#include "engine/decision/stop_order.h"

namespace kartwright {
namespace {

using Places = std::vector<std::size_t>;

constexpr double kPoints = 100.0;

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

/// One way the day can go: the case, and which of the pack's stages each of its stages is.
class DayPages {
 public:
  DayPages(const DayCase& day, const PlanCase& search, std::vector<StageOfDay> stages, System units)
      : day_(day), search_(search), stages_(std::move(stages)), units_(units) {}

  double loss_at(std::size_t stage, const Places& places) const {
    PlanCase one = search_;
    one.stages = {search_.stages[stage]};
    one.stages[0].weight = 1.0;
    return value_of(one, {places}).loss / kPoints;
  }

  std::string setting(std::size_t lever, std::size_t place) const {
    return print_setting(*day_.settings[lever], day_.values[lever][place], units_);
  }

  DayMove move(std::size_t lever, std::size_t from, std::size_t to) const {
    return {.adjustment = &day_.adjustment(lever),
            .direction = to > from ? 0U : 1U,
            .from = setting(lever, from),
            .to = setting(lever, to),
            .minutes = search_.levers[lever].minutes};
  }

  /// The changes between two stages in the order to make them.
  std::vector<DayMove> moves(std::size_t stage, const Places& before, const Places& after) const {
    std::vector<std::size_t> moved;
    std::vector<StopJob> jobs;
    for (std::size_t i = 0; i < after.size(); ++i) {
      if (after[i] == before[i]) continue;
      const PlanLever& lever = search_.levers[i];
      moved.push_back(i);
      jobs.push_back({lever.minutes, lever.stand, lever.stand_minutes});
    }
    const auto left = [&](const std::vector<std::size_t>& done) {
      Places places = before;
      for (const std::size_t job : done) places[moved[job]] = after[moved[job]];
      return loss_at(stage, places);
    };
    std::vector<DayMove> out;
    for (const StopStep& step : stop_order(jobs, left)) {
      const std::size_t lever = moved[step.job];
      out.push_back(move(lever, before[lever], after[lever]));
      out.back().minutes = step.minutes;
      out.back().until = step.until;
      out.back().left = step.loss;
    }
    return out;
  }

  DayStop stop(std::size_t stage, const Places& before, const Places& after,
               const std::vector<std::size_t>& movers) const {
    DayStop out{.stage = stages_[stage].stage,
                .hours = stages_[stage].hours,
                .moves = moves(stage, before, after),
                .untouched = search_.stages[stage].mean.cwiseAbs2().dot(search_.weights) / kPoints,
                .left = loss_at(stage, after)};
    if (!out.moves.empty()) out.minutes = out.moves.back().until;
    for (const std::size_t lever : movers) {
      out.settings.push_back(setting(lever, after[lever]));
      const double last = static_cast<double>(search_.levers[lever].places.size() - 1);
      const double at = static_cast<double>(after[lever]);
      out.room.push_back(std::min(at, last - at) / last);
    }
    return out;
  }

  std::vector<DayStop> stops(Places before, const PlanPlaces& places,
                             const std::vector<std::size_t>& movers) const {
    std::vector<DayStop> out;
    for (std::size_t k = 0; k < places.size(); ++k) {
      out.push_back(stop(k, before, places[k], movers));
      before = places[k];
    }
    return out;
  }

 private:
  const DayCase& day_;
  const PlanCase& search_;
  std::vector<StageOfDay> stages_;
  System units_;
};

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

// --- where an adjustment runs out ---------------------------------------------------------------

/// Loss of one stage with one lever anywhere, in points: how far beyond an end its best lies.
struct Missed {
  double points = 0.0;
  bool above = false;  ///< beyond the last place, else beyond the first
};

Missed missed_by(const PlanStage& stage, const PlanCase& c, const Places& at, std::size_t lever) {
  const PlanLever& it = c.levers[lever];
  const bool first = at[lever] == 0, last = at[lever] + 1 == it.places.size();
  if (!first && !last) return {};
  Eigen::VectorXd mean = stage.mean;
  for (std::size_t i = 0; i < at.size(); ++i)
    mean += c.levers[i].places[at[i]] * stage.steps[i].effect;
  const BundleStep& step = stage.steps[lever];
  const double square = c.weights.cwiseProduct(step.effect).dot(step.effect) + step.spread;
  const double slope =
      2.0 * (c.weights.cwiseProduct(step.effect).dot(mean) + it.places[at[lever]] * step.spread);
  if (square <= 0.0) return {};
  const double further = -0.5 * slope / square;
  const bool beyond = (last && further > 0.0) || (first && further < 0.0);
  return beyond ? Missed{square * further * further, further > 0.0} : Missed{};
}

Refusal reason_of(const Setting& setting, std::size_t direction) {
  constexpr double kAnyTime = std::numeric_limits<double>::infinity();
  const Way way = ways_of(*setting.adjustment, &setting, kAnyTime)[direction];
  return way.options.empty() ? Refusal::end_stop : way.options.front().refusal;
}

/// The other lever whose move alone would take out most at a stage; nothing where none does.
std::optional<std::pair<std::size_t, std::size_t>> best_other(const PlanStage& stage,
                                                              const PlanCase& c, const Places& at,
                                                              std::size_t lever) {
  PlanCase one = c;
  one.stages = {stage};
  one.stages[0].weight = 1.0;
  one.stages[0].any_reach = true;
  const double now = value_of(one, {at}).loss;
  double best = now;
  std::optional<std::pair<std::size_t, std::size_t>> out;
  for (std::size_t i = 0; i < at.size(); ++i) {
    if (i == lever) continue;
    Places there = at;
    for (there[i] = 0; there[i] < c.levers[i].places.size(); ++there[i]) {
      if (there[i] == at[i]) continue;
      const double steps = std::abs(c.levers[i].places[there[i]] - c.levers[i].places[at[i]]);
      if (steps > c.levers[i].reach + 1e-9) continue;
      const double value = value_of(one, {there}).loss + c.minute_cost * c.levers[i].minutes;
      if (value >= best) continue;
      best = value;
      out = {i, there[i]};
    }
  }
  return out;
}

/// The plan's own move of another lever at or after a stage, the first of them.
std::optional<DayMove> by_the_plan(const std::vector<DayStop>& stops, std::size_t from,
                                   const Adjustment& adjustment) {
  for (std::size_t k = from; k < stops.size(); ++k) {
    for (const DayMove& move : stops[k].moves) {
      if (move.adjustment != &adjustment) return move;
    }
  }
  return std::nullopt;
}

std::vector<RunsOut> runs_out(const DayCase& day, const PlanPlaces& places, const Day& plan,
                              const DayPages& pages) {
  constexpr double kWorthSaying = 5.0;  // points of a stage, of what the plan moves
  const PlanCase& c = day.search;
  std::vector<RunsOut> out;
  for (std::size_t i = 0; i < c.levers.size(); ++i) {
    for (std::size_t k = 0; k < places.size(); ++k) {
      Places without = k == 0 ? places_now(c) : places[k - 1];
      without[i] = places[k][i];
      const Missed missed = missed_by(c.stages[k], c, without, i);
      const bool moved = std::find(plan.movers.begin(), plan.movers.end(), &day.adjustment(i)) !=
                         plan.movers.end();
      if (missed.points < (moved ? kWorthSaying : kWorthWhile)) continue;
      Setting setting = *day.settings[i];
      setting.now = day.values[i][places[k][i]];
      RunsOut found{.stage = plan.stops[k].stage,
                    .adjustment = &day.adjustment(i),
                    .direction = missed.above ? 0U : 1U,
                    .at = pages.setting(i, places[k][i]),
                    .missed = missed.points / kPoints};
      found.reason = reason_of(setting, found.direction);
      found.takes_over = by_the_plan(plan.stops, k, day.adjustment(i));
      found.by_plan = found.takes_over.has_value();
      if (const auto other = best_other(c.stages[k], c, places[k], i); other && !found.takes_over)
        found.takes_over = pages.move(other->first, places[k][other->first], other->second);
      out.push_back(std::move(found));
      break;
    }
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const RunsOut& a, const RunsOut& b) { return a.missed > b.missed; });
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
  for (std::size_t i = 0; i < known.levers.size(); ++i)
    known.levers[i].now = day.search.levers[i].now;
  const double stages_in_all = static_cast<double>(asked.stages.size());
  PlanPlaces whole{start};
  whole.insert(whole.end(), best.places.begin(), best.places.end());
  const PlanValue value = value_of(known, whole);
  reply.left = value.loss / stages_in_all / kPoints;
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
void what_goes_before(const Advice& now, Day& day) {
  const Headline headline = now.verdict.headline;
  if (headline == Headline::stop_and_fix || headline == Headline::ask_again)
    day.before_all = now.text;
  if (headline != Headline::stop_and_fix) return;
  for (const FaultOdds& odds : now.checks) {
    if (odds.fault->stop && odds.probability >= 0.5) day.stops_the_kart.push_back(odds);
  }
  day.cautions = now.check_cautions;
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
          .runs_in_log = history == nullptr ? 0 : history->runs,
          .notes = now.notes};
  what_goes_before(now, out);
  const std::vector<std::size_t> movers = moved_in(day.search, plan.places);
  for (const std::size_t lever : movers) {
    out.movers.push_back(&day.adjustment(lever));
    out.stands.push_back(pages.setting(lever, day.search.levers[lever].now));
  }
  const Places start = places_now(day.search);
  out.stops = pages.stops(start, plan.places, movers);
  const double stages = static_cast<double>(asked.stages.size());
  out.left = value_of(day.search, plan.places).loss / stages / kPoints;
  const PlanPlaces still(plan.places.size(), start);
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
