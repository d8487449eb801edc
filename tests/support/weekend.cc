#include "tests/support/weekend.h"

#include <array>

#include <fmt/format.h>

#include "cli/advice_json.h"
#include "cli/run_json.h"
#include "engine/advice/advise.h"
#include "engine/records/clock_of_runs.h"
#include "engine/records/history.h"

namespace kartwright {

namespace {

/// The crew of the weekend: advice, its own ideas, and the way back where a change did not help.
class WeekendCrew {
 public:
  explicit WeekendCrew(const Pack& pack) : pack_(pack) {}

  std::vector<RunChange> operator()(Kart& kart, std::vector<Run>& so_far) {
    Run& last = so_far.back();
    if (!last.changes.empty() && last.changes.front().origin != Origin::undo && !helped(so_far))
      return {take_back(kart, last)};
    const Advice advice = ask(kart, so_far);
    ++asked_;
    const bool own = asked_ % 3 == 0 || advice.verdict.headline != Headline::change;
    if (own) return own_idea(kart);
    return {follow(kart, advice)};
  }

 private:
  /// By the clock where it settles that, else by what the driver complains of.
  static bool helped(const std::vector<Run>& runs) {
    const auto laps = laps_fact(runs);
    if (laps) return *laps == "faster";
    return complaint(runs.back()) <= complaint(runs[runs.size() - 2]) + 1;
  }

  static int complaint(const Run& run) {
    int sum = 0;
    for (const Report& report : run.reports) sum += report.severity * report.severity;
    return sum;
  }

  RunChange take_back(Kart& kart, Run& last) const {
    const RunChange& made = last.changes.front();
    RunChange back = make_change(
        kart, made.adjustment,
        kart.settings.at(made.adjustment).now - made.steps * step_of(kart, made.adjustment));
    back.origin = Origin::undo;
    back.asked_by = "chief";
    back.why = "takes back the change of " + name_of(last);
    last.verdicts.push_back({.adjustment = made.adjustment,
                             .verdict = ClockVerdict::revert,
                             .by = "crew",
                             .text = "taken back"});
    return back;
  }

  /// SI, or positions, of one reference step.
  static double step_of(const Kart& kart, const std::string& adjustment) {
    return kart.settings.at(adjustment).adjustment->reference_step;
  }

  Advice ask(const Kart& kart, const std::vector<Run>& so_far) const {
    Debrief debrief;
    debrief.heard.reports = so_far.back().reports;
    debrief.track = so_far.back().track;
    debrief.minutes = 20.0;
    const History history = learn(so_far, pack_, kart);
    return advise(pack_, kart, debrief, System::metric, {.questions = false}, &history);
  }

  RunChange follow(Kart& kart, const Advice& advice) const {
    const Change& first = advice.changes.front();
    RunChange change = make_change(kart, first.adjustment().id, first.candidate.option.to);
    change.origin = Origin::advice;
    change.asked_by = "chief";
    change.rank = 1;
    change.relief = first.candidate.relief;
    change.advice = cli::advice_json(advice, pack_, true, {});
    return change;
  }

  /// One of a few things in turn, there and back about where the kart stands.
  std::vector<RunChange> own_idea(Kart& kart) {
    static constexpr std::array<const char*, 5> kIdeas{"rear-width", "toe", "caster",
                                                       "rear-pressures", "rear-hubs"};
    for (std::size_t tries = 0; tries < 2 * kIdeas.size(); ++tries) {
      const std::size_t n = ideas_++;
      const std::string id = kIdeas.at(n % kIdeas.size());
      const Way way = ways_of(*pack_.adjustment(id), kart.setting(id), 60.0)[n / kIdeas.size() % 2];
      const Option* to = nullptr;
      for (const Option& option : way.options) {
        if (option.legal()) to = &option;
      }
      if (to == nullptr) continue;
      RunChange change = make_change(kart, id, to->to);
      change.asked_by = "driver";
      change.why = "to know what it does on this kart";
      return {change};
    }
    return {};
  }

  const Pack& pack_;
  int asked_ = 0;
  std::size_t ideas_ = 0;
};

/// Tyres, temperatures and the mark that it is invented.
void dress(std::vector<Run>& runs) {
  constexpr int kRunsOnASet = 9;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    Run& run = runs[i];
    const int n = static_cast<int>(i);
    run.driver = "the invented one";
    run.tyres = fmt::format("set {}", n / kRunsOnASet + 1);
    run.tyre_laps = n % kRunsOnASet * static_cast<int>(run.laps.size());
    run.air = 9.0 + (n % 22) * 0.5;
    run.road = 11.0 + (n % 22);
  }
  runs.front().notes.push_back(
      {"invented: no such kart, driver or day; made by tests/support/weekend.cc, which says what "
       "is true of it"});
}

}  // namespace

SeasonPlan weekend_plan() {
  SeasonPlan plan{.days = 2, .runs_a_day = 22, .laps_a_run = 11, .seed = 27};
  plan.start = 0.5;
  plan.outing = "outing";
  plan.first_day = "2024-10-12";
  plan.track = "green";
  plan.tracks = {"cold",  "cold",  "cold",  "green", "green",      "green",
                 "green", "green", "green", "green", "rubbered-in"};
  plan.multiples = {{"rear-width", 1.4}, {"caster", 0.5}, {"toe", 0.3}, {"rear-pressures", -1.5}};
  return plan;
}

std::vector<Run> weekend(const Pack& pack, const Kart& kart) {
  Season season(pack, kart, weekend_plan());
  std::vector<Run> runs = season.drive(WeekendCrew(pack));
  dress(runs);
  return runs;
}

std::string weekend_file(const std::vector<Run>& runs) {
  std::string text = cli::export_head();
  for (const Run& run : runs) text += cli::export_run(run, &run == &runs.back());
  return text + cli::export_end(runs.size());
}

}  // namespace kartwright
