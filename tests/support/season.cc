#include "tests/support/season.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/advice/learned.h"
#include "engine/decision/forecast.h"
#include "engine/decision/options.h"
#include "engine/inference/readings.h"

namespace kartwright {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

std::vector<RunSetting> setup_of_kart(const Kart& kart) {
  std::vector<RunSetting> setup;
  for (const auto& [id, setting] : kart.settings)
    setup.push_back({id, print_setting(setting, setting.now, System::metric)});
  return setup;
}

double rounded(double seconds) { return std::round(seconds * 1000.0) / 1000.0; }

}  // namespace

Season::Season(const Pack& pack, Kart kart, SeasonPlan plan)
    : pack_(pack),
      kart_(std::move(kart)),
      plan_(std::move(plan)),
      lots_(plan_.seed),
      rules_(effects_by_rules(pack, kart_, plan_.track)) {
  for (std::size_t j = 0; j < rules_.size(); ++j) {
    const auto multiple = plan_.multiples.find(pack.adjustments[j].id);
    const double more = multiple == plan_.multiples.end() ? 0.0 : multiple->second - 1.0;
    truth_.emplace_back(more * rules_[j].per_step);
  }
  if (plan_.multiples.empty()) draw_truth();
}

void Season::draw_truth() {
  for (std::size_t j = 0; j < rules_.size(); ++j) {
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> parts(rules_[j].covariance);
    VectorXd lots(rules_[j].per_step.size());
    for (Index i = 0; i < lots.size(); ++i)
      lots[i] = normal(std::sqrt(std::max(0.0, parts.eigenvalues()[i])));
    truth_[j] = parts.eigenvectors() * lots;
  }
}

std::string Season::track_of(int run) const {
  if (plan_.tracks.empty()) return plan_.track;
  return plan_.tracks[std::min(static_cast<std::size_t>(run), plan_.tracks.size() - 1)];
}

double Season::normal(double sd) {
  // Two uniform draws by Box and Muller: the same on every machine, as the library's need not be.
  constexpr double kTwoPi = 6.283185307179586;
  const auto uniform = [&] {
    return (static_cast<double>(lots_() >> 11U) + 0.5) / static_cast<double>(1ULL << 53U);
  };
  const double radius = std::sqrt(-2.0 * std::log(uniform()));
  return sd * radius * std::cos(kTwoPi * uniform());
}

std::vector<Report> Season::debrief() {
  struct Felt {
    VectorXd row;
    double value = 0;
  };
  std::vector<Felt> felt;  // one feeling for the two ends of a row
  std::vector<Report> reports;
  for (const Symptom& symptom : pack_.symptoms) {
    if (!symptom.reading) continue;
    const bool phased = reads_by_phase(symptom, pack_);
    const std::vector<Phase> phases = phased ? symptom.phases : std::vector<Phase>{Phase::any};
    for (const Phase phase : phases) {
      const auto row = symptom_row(symptom, phase, pack_);
      if (!row) continue;
      auto same = std::find_if(felt.begin(), felt.end(),
                               [&](const Felt& each) { return each.row.isApprox(*row); });
      if (same == felt.end()) {
        felt.push_back({*row, row->dot(stands_) + normal(plan_.say_sd)});
        same = felt.end() - 1;
      }
      const double severity = std::round(same->value / symptom.reading->value);
      if (severity < 1.0) continue;
      reports.push_back({.symptom = symptom.id,
                         .phase = phase,
                         .severity = static_cast<int>(std::min(severity, 3.0))});
    }
  }
  return reports;
}

Run Season::drive_run(const std::string& at, int number) {
  Run run{.kart = kart_.name,
          .at = at,
          .session = fmt::format("{} {}", plan_.outing, number + 1),
          .track = track_of(number)};
  run.settings = setup_of_kart(kart_);
  double loss = 0.0;
  for (std::size_t i = 0; i < pack_.axes.size(); ++i)
    loss += pack_.axes[i].weight * stands_[static_cast<Index>(i)] * stands_[static_cast<Index>(i)];
  for (int n = 1; n <= plan_.laps_a_run; ++n) {
    ++lap_of_day_;
    double seconds = plan_.base_lap + plan_.loss_a_square * loss + plan_.drift_a_lap * lap_of_day_ +
                     normal(plan_.lap_sd);
    const bool out = n == 1;
    if (out) seconds += 2.2;
    run.laps.push_back(
        {.number = n, .seconds = rounded(seconds), .flag = out ? LapFlag::out : LapFlag::counts});
  }
  run.reports = debrief();
  run.complete = run.reports.size() <= plan_.most_said;
  std::stable_sort(run.reports.begin(), run.reports.end(),
                   [](const Report& a, const Report& b) { return a.severity > b.severity; });
  if (!run.complete) run.reports.resize(plan_.most_said);
  return run;
}

void Season::move_by(const std::vector<RunChange>& changes, int before) {
  const std::string was = track_of(before);
  if (track_of(before + 1) != was) {
    const auto ahead = forecast(pack_, was, 3.0);
    if (!ahead.empty()) stands_ += ahead.front().shift;
  }
  for (const RunChange& change : changes) {
    const auto j =
        static_cast<std::size_t>(pack_.adjustment(change.adjustment) - pack_.adjustments.data());
    stands_ += change.steps * (rules_[j].per_step + truth_[j]);
  }
  for (Index i = 0; i < stands_.size(); ++i) stands_[i] += normal(plan_.track_sd);
}

std::vector<Run> Season::drive(const Crew& crew) {
  std::vector<Run> runs;
  for (int day = 0; day < plan_.days; ++day) {
    lap_of_day_ = 0;
    stands_ = VectorXd::Zero(static_cast<Index>(pack_.axes.size()));
    for (std::size_t i = 0; i < pack_.axes.size(); ++i)
      stands_[static_cast<Index>(i)] = normal(plan_.start * pack_.axes[i].spread);
    std::vector<RunChange> changes;
    const std::string morning = later(plan_.first_day + "T09:00:00", day * 86'400);
    for (int n = 0; n < plan_.runs_a_day; ++n) {
      Run run = drive_run(later(morning, n * 1'500), n);
      run.id = static_cast<std::int64_t>(runs.size()) + 1;
      run.changes = changes;
      runs.push_back(std::move(run));
      if (n + 1 == plan_.runs_a_day) continue;
      changes = crew(kart_, runs);
      move_by(changes, n);
    }
  }
  return runs;
}

RunChange make_change(Kart& kart, const std::string& adjustment, double to) {
  Setting& setting = kart.settings.at(adjustment);
  RunChange change{.adjustment = adjustment,
                   .from = print_setting(setting, setting.now, System::metric),
                   .to = print_setting(setting, to, System::metric),
                   .steps = steps_between(setting, setting.now, to)};
  setting.now = to;
  return change;
}

Crew tries_everything(const Pack& pack, std::uint64_t seed) {
  auto lots = std::make_shared<std::mt19937_64>(seed);
  return [&pack, lots](Kart& kart, std::vector<Run>&) -> std::vector<RunChange> {
    std::vector<RunChange> made;
    while (made.empty()) {
      const std::size_t which = (*lots)() % pack.adjustments.size();
      const Setting* const setting = kart.setting(pack.adjustments[which].id);
      if (setting == nullptr || setting->travel.places.size() < 2) continue;
      const Way way = ways_of(pack.adjustments[which], setting, 1e9)[(*lots)() % 2];
      std::vector<double> near;
      for (const Option& option : way.options) {
        if (option.at_once) near.push_back(option.to);
      }
      if (near.empty()) continue;
      made.push_back(make_change(kart, pack.adjustments[which].id, near.back()));
    }
    return made;
  };
}

}  // namespace kartwright
