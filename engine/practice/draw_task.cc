#include "engine/practice/draw_task.h"

#include <algorithm>
#include <cmath>

#include "engine/debrief/debrief_file.h"
#include "engine/decision/gaussian.h"
#include "engine/inference/derive.h"
#include "engine/kart/travel.h"
#include "engine/practice/draw_fault.h"
#include "engine/practice/draw_used_up.h"
#include "engine/practice/told_reports.h"

namespace kartwright {
namespace {

using Eigen::VectorXd;

constexpr std::uint64_t kDrawing = 2;  ///< tells the dice of the drawing from those of the truth
constexpr int kMostTries = 1000;

/// Moves some settings of the level's list off where they typically stand, within their travel.
void move_settings(const DrillLevel& level, Kart& kart, DrillDice& dice) {
  constexpr int kFarthest = 3;  // places; farther off is no kart that anybody runs
  for (int i = 0; i < level.moved; ++i) {
    const auto found = kart.settings.find(dice.one_of(level.offers));
    const int by = static_cast<int>(dice.below(2 * kFarthest + 1)) - kFarthest;
    if (found == kart.settings.end()) continue;
    Setting& setting = found->second;
    const std::vector<double>& places = setting.travel.places;
    const auto now = std::find(places.begin(), places.end(), setting.now) - places.begin();
    const auto last = static_cast<std::ptrdiff_t>(places.size()) - 1;
    if (now <= last) setting.now = places[static_cast<std::size_t>(std::clamp(now + by, {}, last))];
  }
}

/// What the kart truly does: drawn from what is believed of it on its track before a word is said.
VectorXd draw_truth(const DrillTask& task, const Pack& pack, DrillDice& dice) {
  const std::vector<Report> nothing;
  Situation situation{
      .pack = pack,
      .kart = task.kart,
      .reports = nothing,
      .facts = settle_facts(pack, task.kart, nothing, given_facts(pack, task.kart, task.debrief))};
  measure_loads(situation);
  const Belief belief = update(make_prior(pack), take_readings(situation));
  return Gaussian(belief.mean, belief.covariance).draw(dice.engine());
}

/// What the driver feels, worst first, each symptom once; only what the rules have words for.
std::vector<Report> felt_in(const VectorXd& z, const Pack& pack, DrillDice& dice) {
  constexpr double kMost = 3.0;
  std::vector<std::pair<double, Report>> felt;
  for (const Symptom& symptom : pack.symptoms) {
    if (pack.drills.said_of("symptom " + symptom.id) == nullptr) continue;
    for (const Phase phase : symptom.phases) {
      const auto row = symptom_row(symptom, phase, pack);
      if (!row || !symptom.reading) continue;
      const double severity =
          (row->dot(z) + pack.hearing.fair * dice.normal()) / symptom.reading->value;
      const int whole = static_cast<int>(std::lround(std::min(severity, kMost)));
      if (whole >= 1)
        felt.push_back({severity, {.symptom = symptom.id, .phase = phase, .severity = whole}});
    }
  }
  std::stable_sort(felt.begin(), felt.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<Report> out;
  for (auto& [severity, report] : felt) {
    const auto same = [&, &report = report](const Report& other) {
      return other.symptom == report.symptom;
    };
    if (std::none_of(out.begin(), out.end(), same)) out.push_back(std::move(report));
  }
  return out;
}

/// Which way a complaint pulls the belief, notches by axis.
VectorXd pull_of(const Report& report, const Prior& prior, const Pack& pack) {
  const Symptom& symptom = *pack.symptom(report.symptom);
  return prior.covariance * *symptom_row(symptom, report.phase, pack) *
         (symptom.reading->value > 0.0 ? 1.0 : -1.0);
}

/// True where every pair of complaints makes each other likelier, or some pair does not.
bool fits(ReportsFit wanted, const std::vector<Report>& reports, const Pack& pack) {
  if (wanted == ReportsFit::any) return true;
  const Prior prior = make_prior(pack);
  bool conflict = false;
  for (std::size_t i = 0; i < reports.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const Symptom& symptom = *pack.symptom(reports[j].symptom);
      const double sign = symptom.reading->value > 0.0 ? 1.0 : -1.0;
      const double together =
          pull_of(reports[i], prior, pack).dot(*symptom_row(symptom, reports[j].phase, pack)) *
          sign;
      conflict = conflict || together < 0.0;
    }
  }
  return conflict == (wanted == ReportsFit::conflict);
}

/// Puts what is said into the task; false where the words do not say just that.
bool say(const std::vector<Report>& reports, const Pack& pack, Ear& ear, DrillDice& dice,
         DrillTask& task) {
  const auto words = in_driver_words(reports, pack, ear, dice);
  if (!words) return false;
  task.said = *words;
  add_heard(task.debrief, ear.hear(*words));
  return true;
}

bool is_what_was_asked(const DrillLevel& level, const DrillTask& task, const Pack& pack) {
  const Marking marking(pack, task);
  if (name_of(marking.advice().verdict.headline) != level.headline) return false;
  const DrillChoice& best = marking.best();
  if (level.broken) return best.kind == DrillChoice::Kind::check;
  if (level.headline != "change") return best.kind == DrillChoice::Kind::leave_alone;
  if (best.kind != DrillChoice::Kind::change) return false;
  const std::string& id = marking.adjustment_of(best).id;
  return std::find(level.offers.begin(), level.offers.end(), id) != level.offers.end();
}

std::optional<DrillTask> try_to_draw(const DrillLevel& level, const Pack& pack, Ear& ear,
                                     std::uint64_t seed, DrillDice& dice) {
  DrillTask task{.level = level.id, .seed = seed, .kart = practice_kart(pack)};
  move_settings(level, task.kart, dice);
  task.debrief.track = dice.one_of(level.tracks);
  if (!level.laps.empty())
    task.debrief.heard.facts.push_back({.fact = "laps", .value = level.laps});
  task.truth = draw_truth(task, pack, dice);
  std::vector<Report> reports = felt_in(*task.truth, pack, dice);
  const auto span =
      static_cast<std::size_t>(level.most) - static_cast<std::size_t>(level.least) + 1;
  const std::size_t many = static_cast<std::size_t>(level.least) + dice.below(span);
  if (reports.size() < many) return std::nullopt;
  reports.resize(many);
  if (!fits(level.reports, reports, pack)) return std::nullopt;
  if (level.broken && !add_fault(pack, dice, reports, task.debrief)) return std::nullopt;
  if (!say(reports, pack, ear, dice, task)) return std::nullopt;
  if (level.used_up && !use_up(pack, dice, task)) return std::nullopt;
  if (!is_what_was_asked(level, task, pack)) return std::nullopt;
  if (level.used_up && used_up(task, pack) == nullptr) return std::nullopt;
  // What the clock says was not drawn with the rest: it is a part of what is believed.
  if (!level.laps.empty()) task.truth.reset();
  return task;
}

}  // namespace

DrillTask drawn_task(const DrillLevel& level, const Pack& pack, Ear& ear, std::uint64_t seed) {
  for (int i = 0; i < kMostTries; ++i) {
    DrillDice dice{seed, kDrawing, static_cast<std::uint64_t>(level.place),
                   static_cast<std::uint64_t>(i)};
    if (auto task = try_to_draw(level, pack, ear, seed, dice)) return std::move(*task);
  }
  throw InputError(
      {Diagnostic{.code = Code::bad_rule,
                  .file = level.source.file,
                  .span = {.line = level.source.line, .column = 1},
                  .message = "no case was found that is what the level `" + level.id + "` asks",
                  .help = "ask less of it: other tracks, fewer complaints, more offers"}});
}

}  // namespace kartwright
