#include "engine/records/history.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <memory>
#include <tuple>

#include <fmt/format.h>

#include "engine/algebra/solving.h"
#include "engine/decision/forecast.h"
#include "engine/decision/options.h"
#include "engine/inference/derive.h"
#include "engine/inference/readings.h"
#include "engine/kart/change_setting.h"

namespace kartwright {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr std::size_t kMostRunsOfADay = 16;
constexpr double kHoursOfForecast = 3.0;
constexpr int kMostSevere = 3;  // severity

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
    if (at < moves.size() && std::abs(change.steps) <= kMostSteps) moves[at] += change.steps;
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

}  // namespace

/// A row of axes that debriefs speak of, and whether there are symptoms of either sign.
struct Sense {
  VectorXd row;
  bool above = false, below = false;

  bool two_sided() const { return above && below; }
};

/// Every row that some report reads, found by symptom and phase.
class Senses {
 public:
  explicit Senses(const Pack& pack) : pack_(pack) {
    constexpr std::array kPhases{Phase::entry, Phase::mid, Phase::exit, Phase::straight,
                                 Phase::any};
    at_.resize(pack.symptoms.size());
    for (std::size_t i = 0; i < pack.symptoms.size(); ++i) {
      for (const Phase phase : kPhases) add(i, phase);
    }
  }

  const std::vector<Sense>& all() const { return all_; }

  /// The row of a report; nothing where it reads none.
  std::optional<std::size_t> of(const Report& report) const {
    const Symptom* const symptom = pack_.symptom(report.symptom);
    if (symptom == nullptr) return {};
    const auto number = static_cast<std::size_t>(symptom - pack_.symptoms.data());
    return at_[number][static_cast<std::size_t>(report.phase)];
  }

 private:
  void add(std::size_t number, Phase phase) {
    const Symptom& symptom = pack_.symptoms[number];
    const auto row = symptom_row(symptom, phase, pack_);
    if (!row) return;
    const double value = symptom.reading->value;
    auto same = std::find_if(all_.begin(), all_.end(),
                             [&](const Sense& each) { return each.row.isApprox(*row); });
    if (same == all_.end()) same = all_.insert(same, {*row});
    (value > 0.0 ? same->above : same->below) = true;
    at_[number][static_cast<std::size_t>(phase)] = static_cast<std::size_t>(same - all_.begin());
  }

  const Pack& pack_;
  std::vector<Sense> all_;
  std::vector<std::array<std::optional<std::size_t>, 5>> at_;  ///< by symptom and phase
};

namespace {

Saying saying_of(const Report& report, const Pack& pack) {
  const Symptom& symptom = *pack.symptom(report.symptom);
  Saying saying{.value = symptom.reading->value * report.severity,
                .sd = report.denied() ? pack.learning.unmentioned
                                      : pack.hearing.confidence_sd(report.confidence)};
  if (report.phase == Phase::any && reads_by_phase(symptom, pack))
    saying.sd *= pack.hearing.unsaid_factor;
  return saying;
}

/// Sayings of a row, by run.
struct Told {
  std::size_t sense = 0;
  std::vector<std::optional<Saying>> runs = {};
  std::vector<const Report*> reports = {};

  /// Both at the worst there is a word for, of one symptom.
  bool worst_twice(std::size_t i) const {
    const Report* const before = reports[i - 1];
    const Report* const after = reports[i];
    return before != nullptr && after != nullptr && before->symptom == after->symptom &&
           std::min(before->severity, after->severity) >= kMostSevere;
  }
};

/// Gathers what the debriefs of a day say, row by row.
std::vector<Told> sayings_of(const std::vector<const Run*>& runs, const Senses& senses,
                             const Pack& pack) {
  std::vector<Told> all;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    for (const Report& report : runs[i]->reports) {
      const auto sense = senses.of(report);
      if (!sense) continue;
      auto told = std::find_if(all.begin(), all.end(),
                               [&](const Told& each) { return each.sense == *sense; });
      if (told == all.end())
        told = all.insert(all.end(), {*sense, std::vector<std::optional<Saying>>(runs.size()),
                                      std::vector<const Report*>(runs.size(), nullptr)});
      const Saying saying = saying_of(report, pack);
      std::optional<Saying>& slot = told->runs[i];
      if (slot && std::abs(saying.value) <= std::abs(slot->value)) continue;
      slot = saying;
      told->reports[i] = &report;
    }
  }
  // What a complete debrief does not mention is not there.
  for (Told& told : all) {
    for (std::size_t i = 0; i < runs.size(); ++i) {
      if (!told.runs[i] && runs[i]->complete)
        told.runs[i] = Saying{.value = 0.0, .sd = pack.learning.unmentioned};
    }
  }
  return all;
}

/// Two sayings in a row at an end of the scale say nothing of what lies between them: where a
/// symptom was silent twice the kart may have moved below what is felt, where it was at its worst
/// twice beyond what has a word. There the row is cut in two.
void add_without_ends(const Told& told, const Sense& sense, DayOfRuns& day) {
  day.whole.push_back({sense.row, told.runs});
  DaySayings part{sense.row, std::vector<std::optional<Saying>>(told.runs.size())};
  const auto close = [&] {
    day.sayings.push_back(part);
    day.reports.push_back(told.reports);
  };
  for (std::size_t i = 0; i < told.runs.size(); ++i) {
    const bool both = i > 0 && told.runs[i - 1] && told.runs[i];
    const bool silent =
        both && told.runs[i - 1]->value == 0.0 && told.runs[i]->value == 0.0 && !sense.two_sided();
    if (silent || (both && told.worst_twice(i))) {
      close();
      part.runs.assign(told.runs.size(), {});
    }
    part.runs[i] = told.runs[i];
  }
  close();
}

DayOfRuns day_of(const std::vector<const Run*>& runs, const Senses& senses, const Pack& pack,
                 const RuleEffect& by_rule) {
  DayOfRuns day{.runs = runs};
  for (std::size_t i = 0; i + 1 < runs.size(); ++i) {
    DayStep step;
    StepUsed used;
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
    day.steps.push_back(std::move(step));
    day.by_rules.push_back(std::move(expected));
    day.used.push_back(std::move(used));
  }
  for (const Told& told : sayings_of(runs, senses, pack))
    add_without_ends(told, senses.all()[told.sense], day);
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

bool same_place(const Setting* setting, const std::string& a, const std::string& b) {
  if (a == b || setting == nullptr) return a == b;
  const auto one = setting_value(*setting, a);
  const auto other = setting_value(*setting, b);
  return one && other && steps_between(*setting, *one, *other) == 0.0;
}

bool stands_at(const Setting* setting, const std::string& place) {
  const auto there = setting == nullptr ? std::nullopt : setting_value(*setting, place);
  return there && steps_between(*setting, setting->now, *there) == 0.0;
}

/// The last change of an adjustment before a run; nullptr where there is none.
const RunChange* last_of(const Run& run, const std::string& adjustment) {
  const auto found =
      std::find_if(run.changes.rbegin(), run.changes.rend(),
                   [&](const RunChange& change) { return change.adjustment == adjustment; });
  return found == run.changes.rend() ? nullptr : &*found;
}

/// Whether the crew went back to what was tried in `run`: with a later change that takes none
/// back, or in the kart file and past the log.
bool put_there_again(const std::vector<Run>& runs, const Run& run, const std::string& adjustment,
                     const Kart& kart) {
  const RunChange* const tried = last_of(run, adjustment);
  if (tried == nullptr) return false;
  const Setting* const setting = kart.setting(adjustment);
  const RunChange* last = tried;
  for (const Run* later = &run + 1; later != runs.data() + runs.size(); ++later) {
    const RunChange* const change = last_of(*later, adjustment);
    if (change == nullptr) continue;
    if (change->origin != Origin::undo && same_place(setting, change->to, tried->to)) return true;
    last = change;
  }
  return !same_place(setting, last->to, tried->to) && stands_at(setting, tried->to);
}

/// A change was taken back to tell it from the track, say, and then the clock was for it.
bool kept_after(const Run& run, const RunVerdict& verdict) {
  const RunVerdict* const end = run.verdicts.data() + run.verdicts.size();
  return std::any_of(&verdict + 1, end, [&](const RunVerdict& later) {
    return later.adjustment == verdict.adjustment && later.verdict == ClockVerdict::keep;
  });
}

std::vector<std::vector<TriedBefore>> tried_in(const std::vector<Run>& runs, const Pack& pack,
                                               const Kart& kart) {
  std::vector<std::vector<TriedBefore>> tried(pack.adjustments.size());
  for (auto run = runs.rbegin(); run != runs.rend(); ++run) {
    for (const RunVerdict& verdict : run->verdicts) {
      const std::size_t at = place_of(pack, verdict.adjustment);
      if (at == tried.size() || verdict.verdict != ClockVerdict::revert) continue;
      const double steps = moves_before(*run, pack)[at];
      if (steps == 0.0 || kept_after(*run, verdict)) continue;
      if (put_there_again(runs, *run, verdict.adjustment, kart)) continue;
      tried[at].push_back({.direction = steps > 0.0 ? 0U : 1U,
                           .track = run->track,
                           .text = fmt::format("tried in {} and taken back", name_of(*run))});
    }
  }
  return tried;
}

}  // namespace

std::vector<std::vector<const Run*>> cut_into_days(const std::vector<Run>& runs) {
  std::vector<std::vector<const Run*>> days;
  std::vector<const Run*> day;
  const auto close = [&] {
    if (day.size() > 1) days.push_back(day);
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

struct DayReader::Inside {
  const Pack& pack;
  RuleEffect by_rule;
  Senses senses;
};

DayReader::DayReader(const Pack& pack, RuleEffect by_rule)
    : in_(std::make_unique<Inside>(Inside{pack, std::move(by_rule), Senses(pack)})) {}

DayReader::~DayReader() = default;

DayOfRuns DayReader::day(const std::vector<const Run*>& runs) const {
  return day_of(runs, in_->senses, in_->pack, in_->by_rule);
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

namespace {

/// "hop mid 2 to 1", or of opposites "push exit 2, then loose exit 1"; with how much it changed.
std::pair<int, std::string> change_heard(const Report* before, const Report* after,
                                         const Pack& pack) {
  const auto name = [&](const Report& report) {
    const std::string& label = pack.symptom(report.symptom)->label;
    return report.phase == Phase::any ? label : label + " " + std::string(name_of(report.phase));
  };
  const Report& one = before != nullptr ? *before : *after;
  const int was = before != nullptr ? before->severity : 0;
  const int is = after != nullptr ? after->severity : 0;
  if (before != nullptr && after != nullptr && before->symptom != after->symptom)
    return {was + is, fmt::format("{} {}, then {} {}", name(*before), was, name(*after), is)};
  return {std::abs(was - is), fmt::format("{} {} to {}", name(one), was, is)};
}

/// What changed in the debriefs over a step, most first.
std::string heard_text(const DayOfRuns& day, std::size_t step, const Pack& pack) {
  constexpr std::size_t kMost = 3;
  std::vector<std::pair<int, std::string>> told;
  for (std::size_t i = 0; i < day.sayings.size(); ++i) {
    const DaySayings& saying = day.sayings[i];
    const Report* const before = day.reports[i][step];
    const Report* const after = day.reports[i][step + 1];
    if (!saying.runs[step] || !saying.runs[step + 1] || (before == nullptr && after == nullptr))
      continue;
    told.push_back(change_heard(before, after, pack));
  }
  std::stable_sort(told.begin(), told.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::string text;
  for (std::size_t i = 0; i < std::min(kMost, told.size()) && told[i].first > 0; ++i)
    text += (i == 0 ? "" : ", ") + told[i].second;
  return text.empty() ? "nothing changed" : text;
}

bool something_said(const DayOfRuns& day, std::size_t step) {
  return std::any_of(day.sayings.begin(), day.sayings.end(), [&](const DaySayings& each) {
    return each.runs[step] && each.runs[step + 1];
  });
}

bool counts(const DayOfRuns& day, std::size_t step) {
  return day.used[step].changes > 0 && something_said(day, step);
}

void count_day(const DayOfRuns& day, std::vector<StepsOfOne>& out) {
  for (std::size_t step = 0; step < day.steps.size(); ++step) {
    if (!counts(day, step)) continue;
    const StepUsed& used = day.used[step];
    for (std::size_t j = 0; j < out.size(); ++j) {
      if (used.moves[j] == 0.0) continue;
      ++out[j].steps;
      if (used.changes > 1) ++out[j].with_others;
      if (used.track_moved) ++out[j].track_moved;
      if (used.tyres_changed) ++out[j].tyres_changed;
    }
  }
}

/// The steps of a day in words, latest first, where fewer than three are told already.
void tell_day(const DayOfRuns& day, const Pack& pack, std::vector<StepsOfOne>& out) {
  constexpr std::size_t kTold = 3;
  for (std::size_t step = day.steps.size(); step-- > 0;) {
    if (!counts(day, step)) continue;
    for (std::size_t j = 0; j < out.size(); ++j) {
      const double moved = day.used[step].moves[j];
      if (moved == 0.0 || out[j].told.size() == kTold) continue;
      const std::string heard = heard_text(day, step, pack);
      out[j].told.push_back(fmt::format("{}: {:+g} step{}, {}", name_of(*day.runs[step + 1]), moved,
                                        std::abs(moved) == 1.0 ? "" : "s", heard));
    }
  }
}

}  // namespace

History learn(const std::vector<Run>& runs, const Pack& pack, const Kart& kart) {
  constexpr std::size_t kDaysTold = 30;
  History history{.learning = EffectLearning(pack.adjustments.size(), pack.axes.size()),
                  .steps = std::vector<StepsOfOne>(pack.adjustments.size()),
                  .tried = tried_in(runs, pack, kart),
                  .runs = runs.size()};
  if (pack.learning.drift <= 0.0) return history;
  const DayReader reader(pack, rules_for(pack, kart));
  const auto days = cut_into_days(runs);
  for (const auto& each : days) {
    const DayOfRuns day = reader.day(each);
    history.learning.add_day(day.steps, day.sayings);
    count_day(day, history.steps);
  }
  for (std::size_t i = 0; i < std::min(kDaysTold, days.size()); ++i)
    tell_day(reader.day(days[days.size() - 1 - i]), pack, history.steps);
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
    out[j].told = history.steps[j].told;
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
      const MatrixXd after = inverse_of(belief.covariance.block(from, from, n, n));
      const MatrixXd gained = after - inverse_of(prior.block(from, from, n, n));
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
