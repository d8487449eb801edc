#include "engine/records/history.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <tuple>

#include <fmt/format.h>

#include "engine/decision/forecast.h"
#include "engine/inference/derive.h"
#include "engine/inference/readings.h"

namespace kartwright {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr std::size_t kMostRunsOfADay = 16;
constexpr double kHoursOfForecast = 3.0;
constexpr int kWorst = 3;  // severity

Index size_of(const Pack& pack) { return static_cast<Index>(pack.axes.size()); }

std::size_t place_of(const Pack& pack, std::string_view adjustment) {
  const Adjustment* const found = pack.adjustment(adjustment);
  return found == nullptr ? pack.adjustments.size()
                          : static_cast<std::size_t>(found - pack.adjustments.data());
}

/// Steps by adjustment between two runs: what the changes before the second sum to.
std::vector<double> moves_before(const Run& run, const Pack& pack) {
  std::vector<double> moves(pack.adjustments.size(), 0.0);
  for (const RunChange& change : run.changes) {
    const std::size_t at = place_of(pack, change.adjustment);
    if (at < moves.size()) moves[at] += change.steps;
  }
  return moves;
}

bool other_tyres(const Run& before, const Run& after) {
  if (!before.tyres.empty() && !after.tyres.empty() && before.tyres != after.tyres) return true;
  return before.tyre_laps && after.tyre_laps && *after.tyre_laps < *before.tyre_laps;
}

/// What the track is expected to do between two runs, and how far that is known.
void expect_track(const Run& before, const Run& after, const Pack& pack, DayStep& step,
                  StepUsed& used) {
  const Learning& learning = pack.learning;
  used.track_moved = before.track != after.track;
  used.tyres_changed = other_tyres(before, after);
  double variance = learning.drift * learning.drift;
  step.drift = VectorXd::Zero(size_of(pack));
  if (used.track_moved) {
    variance = learning.track_moved * learning.track_moved;
    for (const Stage& stage : forecast(pack, before.track, kHoursOfForecast)) {
      if (stage.track != after.track) continue;
      step.drift = stage.shift;
      break;
    }
  }
  if (used.tyres_changed) variance += learning.tyres_changed * learning.tyres_changed;
  step.drift_sd = VectorXd::Constant(size_of(pack), std::sqrt(variance));
}

/// A row of axes that debriefs speak of, and how a symptom is told on it.
struct Sense {
  VectorXd row;
  std::string label;
  bool two_sided = false;
  double end = 0.0;  ///< what the worst severity reads, notches
};

/// Sayings of a row, by run.
struct Told {
  Sense sense;
  std::vector<std::optional<Saying>> runs;
};

bool both_ways(const VectorXd& row, double value, const Pack& pack) {
  return std::any_of(pack.symptoms.begin(), pack.symptoms.end(), [&](const Symptom& symptom) {
    if (!symptom.reading || symptom.reading->value * value >= 0.0) return false;
    for (const Phase phase : {Phase::entry, Phase::mid, Phase::exit, Phase::any}) {
      const auto other = symptom_row(symptom, phase, pack);
      if (other && other->isApprox(row)) return true;
    }
    return false;
  });
}

/// Gathers what the debriefs of a day say, row by row.
class Sayings {
 public:
  Sayings(const std::vector<const Run*>& runs, const Pack& pack) : runs_(runs), pack_(pack) {
    for (std::size_t i = 0; i < runs.size(); ++i) {
      for (const Report& report : runs[i]->reports) hear(report, i);
    }
    for (Told& told : all_) fill_in(told);
  }

  const std::vector<Told>& all() const { return all_; }

 private:
  void hear(const Report& report, std::size_t run) {
    const Symptom* const symptom = pack_.symptom(report.symptom);
    if (symptom == nullptr) return;
    const auto row = symptom_row(*symptom, report.phase, pack_);
    if (!row) return;
    Told& told = told_of(*row, *symptom, report.phase);
    const Hearing& hearing = pack_.hearing;
    Saying saying{.value = symptom->reading->value * report.severity,
                  .sd = report.denied() ? pack_.learning.unmentioned
                                        : hearing.confidence_sd(report.confidence)};
    if (report.phase == Phase::any && reads_by_phase(*symptom, pack_))
      saying.sd *= hearing.unsaid_factor;
    std::optional<Saying>& slot = told.runs[run];
    if (!slot || std::abs(saying.value) > std::abs(slot->value)) slot = saying;
  }

  Told& told_of(const VectorXd& row, const Symptom& symptom, Phase phase) {
    for (Told& told : all_) {
      if (told.sense.row.isApprox(row)) return told;
    }
    std::string label = symptom.label;
    if (phase != Phase::any) label += " " + std::string(name_of(phase));
    Sense sense{row, label, both_ways(row, symptom.reading->value, pack_),
                kWorst * std::abs(symptom.reading->value)};
    all_.push_back({std::move(sense), std::vector<std::optional<Saying>>(runs_.size())});
    return all_.back();
  }

  /// What a complete debrief does not mention is not there.
  void fill_in(Told& told) const {
    for (std::size_t i = 0; i < runs_.size(); ++i) {
      if (!told.runs[i] && runs_[i]->complete)
        told.runs[i] = Saying{.value = 0.0, .sd = pack_.learning.unmentioned};
    }
  }

  const std::vector<const Run*>& runs_;
  const Pack& pack_;
  std::vector<Told> all_;
};

/// Two sayings in a row at an end of the scale say nothing of what lies between them: where a
/// symptom was silent twice the kart may have moved below what is felt, where it was at its worst
/// twice beyond what has a word. There the row is cut in two.
std::vector<DaySayings> without_ends(const Told& told) {
  std::vector<DaySayings> out;
  DaySayings part{told.sense.row, std::vector<std::optional<Saying>>(told.runs.size())};
  for (std::size_t i = 0; i < told.runs.size(); ++i) {
    const bool both = i > 0 && told.runs[i - 1] && told.runs[i];
    const double value = both ? told.runs[i]->value : 0.0;
    const bool same = both && told.runs[i - 1]->value == value;
    const bool at_end = value == 0.0 ? !told.sense.two_sided : std::abs(value) >= told.sense.end;
    if (same && at_end) {
      out.push_back(part);
      part.runs.assign(told.runs.size(), {});
    }
    part.runs[i] = told.runs[i];
  }
  out.push_back(std::move(part));
  return out;
}

std::string heard_text(const Told& told, std::size_t step) {
  const double before = std::abs(told.runs[step]->value);
  const double after = std::abs(told.runs[step + 1]->value);
  return fmt::format("{} {:g} to {:g}", told.sense.label, before, after);
}

DayOfRuns day_of(const std::vector<const Run*>& runs, const Pack& pack, const RuleEffect& by_rule) {
  DayOfRuns day{.day = runs.front()->day(), .runs = runs};
  const Sayings sayings(day.runs, pack);
  for (std::size_t i = 0; i + 1 < runs.size(); ++i) {
    DayStep step;
    StepUsed used{.before = name_of(*runs[i]), .after = name_of(*runs[i + 1])};
    expect_track(*runs[i], *runs[i + 1], pack, step, used);
    used.moves = moves_before(*runs[i + 1], pack);
    step.moves =
        Eigen::Map<const VectorXd>(used.moves.data(), static_cast<Index>(used.moves.size()));
    VectorXd expected = VectorXd::Zero(size_of(pack));
    for (std::size_t j = 0; j < used.moves.size(); ++j) {
      if (used.moves[j] == 0.0) continue;
      ++used.changes;
      expected += used.moves[j] * by_rule(j, *runs[i], *runs[i + 1]).per_step;
    }
    step.drift += expected;
    for (const Told& told : sayings.all()) {
      const bool said = told.runs[i] && told.runs[i + 1] &&
                        (told.runs[i]->value != 0.0 || told.runs[i + 1]->value != 0.0);
      if (said) used.heard.push_back(heard_text(told, i));
    }
    day.steps.push_back(std::move(step));
    day.by_rules.push_back(std::move(expected));
    day.used.push_back(std::move(used));
  }
  for (const Told& told : sayings.all()) {
    for (DaySayings& each : without_ends(told)) day.sayings.push_back(std::move(each));
  }
  return day;
}

bool other_driver(const Run& before, const Run& after) {
  return !before.driver.empty() && !after.driver.empty() && before.driver != after.driver;
}

/// Facts as they were stated before a run, as one text.
std::string facts_text(const Run& run) {
  std::string text;
  for (const StatedFact& fact : run.facts) text += fact.fact + "=" + fact.value + ";";
  return text;
}

std::vector<std::vector<TriedBefore>> tried_in(const std::vector<Run>& runs, const Pack& pack) {
  std::vector<std::vector<TriedBefore>> tried(pack.adjustments.size());
  for (auto run = runs.rbegin(); run != runs.rend(); ++run) {
    for (const RunVerdict& verdict : run->verdicts) {
      const std::size_t at = place_of(pack, verdict.adjustment);
      if (at == tried.size() || verdict.verdict != ClockVerdict::revert) continue;
      const double steps = moves_before(*run, pack)[at];
      if (steps == 0.0) continue;
      tried[at].push_back({.direction = steps > 0.0 ? 0U : 1U,
                           .track = run->track,
                           .text = fmt::format("tried in {} and taken back", name_of(*run))});
    }
  }
  return tried;
}

}  // namespace

std::vector<DayOfRuns> days_of(const std::vector<Run>& runs, const Pack& pack,
                               const RuleEffect& by_rule) {
  std::vector<DayOfRuns> days;
  std::vector<const Run*> day;
  const auto close = [&] {
    if (day.size() > 1) days.push_back(day_of(day, pack, by_rule));
    day.clear();
  };
  for (const Run& run : runs) {
    if (!run.driven) continue;
    const bool other =
        !day.empty() && (run.day() != day.back()->day() || other_driver(*day.back(), run));
    if (other) close();
    if (day.size() == kMostRunsOfADay) {
      const Run* const last = day.back();
      close();
      day.push_back(last);
    }
    day.push_back(&run);
  }
  close();
  return days;
}

RuleEffect rules_for(const Pack& pack, const Kart& kart) {
  using Key = std::tuple<std::size_t, std::string, std::string>;
  auto known = std::make_shared<std::map<Key, Effect>>();
  return [&pack, &kart, known](std::size_t adjustment, const Run& before, const Run& after) {
    const Key key{adjustment, after.track, facts_text(before)};
    const auto found = known->find(key);
    if (found != known->end()) return found->second;
    static const std::vector<Report> kNone;
    Debrief debrief;
    debrief.heard.facts = before.facts;
    if (!after.track.empty()) debrief.track = after.track;
    const Situation situation{
        .pack = pack,
        .kart = kart,
        .reports = kNone,
        .facts = settle_facts(pack, kart, kNone, facts_without_room(pack, kart, debrief))};
    return known->emplace(key, effect_of(pack.adjustments[adjustment], situation)).first->second;
  };
}

History learn(const std::vector<Run>& runs, const Pack& pack, const Kart& kart) {
  History history{.learning = EffectLearning(pack.adjustments.size(), pack.axes.size()),
                  .used = std::vector<std::vector<StepUsed>>(pack.adjustments.size()),
                  .tried = tried_in(runs, pack),
                  .runs = runs.size()};
  if (pack.learning.drift <= 0.0) return history;
  for (DayOfRuns& day : days_of(runs, pack, rules_for(pack, kart))) {
    history.learning.add_day(day.steps, day.sayings);
    for (StepUsed& used : day.used) {
      if (used.heard.empty()) continue;
      for (std::size_t j = 0; j < used.moves.size(); ++j) {
        if (used.moves[j] != 0.0) history.used[j].push_back(used);
      }
    }
  }
  return history;
}

namespace {

/// The axes of an adjustment that its effect is not sure of, as indices into all effects stacked.
std::vector<Index> open_axes(const std::vector<Effect>& effects, std::size_t adjustment) {
  constexpr double kLeast = 1e-12;
  std::vector<Index> open;
  const MatrixXd& covariance = effects[adjustment].covariance;
  for (Index i = 0; i < covariance.rows(); ++i) {
    if (covariance(i, i) > kLeast)
      open.push_back(static_cast<Index>(adjustment) * covariance.rows() + i);
  }
  return open;
}

std::string step_text(const StepUsed& used, std::size_t adjustment) {
  return fmt::format("{}: {:+g} step{}, {}", used.after, used.moves[adjustment],
                     std::abs(used.moves[adjustment]) == 1.0 ? "" : "s",
                     fmt::join(used.heard, ", "));
}

}  // namespace

Experience experience_of(const History& history, const std::vector<Effect>& effects) {
  Experience out(effects.size());
  const Index axes = effects.empty() ? 0 : effects.front().per_step.size();
  std::vector<Index> all;
  for (std::size_t j = 0; j < effects.size(); ++j) {
    out[j].tried = history.tried[j];
    out[j].runs = history.learning.runs_of(j);
    if (out[j].runs == 0) continue;
    for (const Index i : open_axes(effects, j)) all.push_back(i);
    for (auto used = history.used[j].rbegin(); used != history.used[j].rend(); ++used)
      out[j].told.push_back(step_text(*used, j));
  }
  if (all.empty()) return out;
  MatrixXd prior = MatrixXd::Zero(static_cast<Index>(all.size()), static_cast<Index>(all.size()));
  for (Index a = 0; a < prior.rows(); ++a) {
    for (Index b = 0; b < prior.cols(); ++b) {
      const Index i = all[static_cast<std::size_t>(a)];
      const Index k = all[static_cast<std::size_t>(b)];
      if (i / axes == k / axes)
        prior(a, b) = effects[static_cast<std::size_t>(i / axes)].covariance(i % axes, k % axes);
    }
  }
  const EffectBelief belief = history.learning.belief(all, prior);
  Index from = 0;
  for (std::size_t j = 0; j < effects.size(); ++j) {
    if (out[j].runs == 0) continue;
    const std::vector<Index> open = open_axes(effects, j);
    const auto n = static_cast<Index>(open.size());
    out[j].precision = MatrixXd::Zero(axes, axes);
    out[j].pull = VectorXd::Zero(axes);
    if (n > 0) {
      const MatrixXd after = belief.covariance.block(from, from, n, n).inverse();
      const MatrixXd gained = after - prior.block(from, from, n, n).inverse();
      const VectorXd pull = after * belief.mean.segment(from, n);
      for (Index a = 0; a < n; ++a) {
        const Index row = open[static_cast<std::size_t>(a)] % axes;
        out[j].pull[row] = pull[a];
        for (Index b = 0; b < n; ++b)
          out[j].precision(row, open[static_cast<std::size_t>(b)] % axes) =
              (gained(a, b) + gained(b, a)) / 2.0;
      }
    }
    from += n;
  }
  return out;
}

}  // namespace kartwright
