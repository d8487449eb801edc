#include "engine/advice/turning.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "engine/inference/case_change.h"

namespace kartwright {
namespace {

/// One case on one pack, worked out as often as asked. The kart's settings point into this pack.
class Trial {
 public:
  Trial(Pack& pack, const Kart& kart, const Debrief& debrief, System units, const History* history)
      : pack_(pack), entered_{kart, debrief}, units_(units), history_(history) {
    for (auto& [id, setting] : entered_.kart.settings) setting.adjustment = pack_.adjustment(id);
  }

  Pack& pack() { return pack_; }
  const EnteredCase& entered() const { return entered_; }
  int runs() const { return runs_; }

  /// Of a case on this pack: the advice points into it, and does not outlive it.
  Advice advice(const EnteredCase& entered) {
    ++runs_;
    return advise(pack_, entered.kart, entered.debrief, units_, {.questions = false}, history_);
  }
  Leading leading(const EnteredCase& entered) { return leading_of(advice(entered)); }
  Leading leading() { return leading(entered_); }

  Leading with(const CaseChange& change) {
    EnteredCase changed = entered_;
    make(change, pack_, changed);
    return leading(changed);
  }

 private:
  Pack& pack_;
  EnteredCase entered_;
  System units_;
  const History* history_;
  int runs_ = 0;
};

/// What the search is about, gathered on the way.
struct TurnSearch {
  Trial& trial;
  const Advice& advice;  ///< as it stands
  System units;
  TurningPlan plan;
  Turning& out;

  bool turns(const Leading& then) const { return !then.same_as(out.now); }
};

// --- reports
// --------------------------------------------------------------------------------------

std::string name_of_report(const Report& report) {
  const bool any = report.phase == Phase::any;
  return report.symptom + (any ? "" : "@" + std::string(name_of(report.phase)));
}

void try_severities(const TurnSearch& search, const Report& report) {
  std::vector<int> severities{0, 1, 2, 3};
  const auto far = [&](int severity) { return std::abs(severity - report.severity); };
  std::stable_sort(severities.begin(), severities.end(),
                   [&](int a, int b) { return far(a) < far(b); });
  std::array<bool, 2> found{};
  for (const int severity : severities) {
    const auto way = static_cast<std::size_t>(severity > report.severity);
    if (severity == report.severity || found.at(way)) continue;
    const Leading then = search.trial.with(ReportChange{report.symptom, report.phase, severity});
    if (!search.turns(then)) continue;
    found.at(way) = true;
    search.out.turns.push_back({TurnKind::severity, name_of_report(report),
                                fmt::format("{}", report.severity), fmt::format("{}", severity),
                                static_cast<double>(far(severity)), then});
  }
}

void try_confidences(const TurnSearch& search, std::size_t index) {
  const Report& report = search.trial.entered().debrief.heard.reports[index];
  if (report.denied()) return;  // how sure a denial is plays no part
  for (const Confidence confidence : {Confidence::sure, Confidence::fair, Confidence::unsure}) {
    if (confidence == report.confidence) continue;
    EnteredCase changed = search.trial.entered();
    changed.debrief.heard.reports[index].confidence = confidence;
    const Leading then = search.trial.leading(changed);
    if (!search.turns(then)) continue;
    const int far = std::abs(static_cast<int>(confidence) - static_cast<int>(report.confidence));
    search.out.turns.push_back({TurnKind::confidence, name_of_report(report),
                                std::string(name_of(report.confidence)),
                                std::string(name_of(confidence)), static_cast<double>(far), then});
  }
}

void try_reports(const TurnSearch& search) {
  const std::vector<Report> reports = search.trial.entered().debrief.heard.reports;
  for (std::size_t i = 0; i < reports.size(); ++i) {
    try_severities(search, reports[i]);
    try_confidences(search, i);
  }
}

// --- the track and the facts
// ----------------------------------------------------------------------

void try_fact(const TurnSearch& search, TurnKind kind, const std::string& id,
              const std::string& from, const std::string& to) {
  const Leading then = search.trial.with(FactChange{id, to});
  if (search.turns(then)) search.out.turns.push_back({kind, id, from, to, 1.0, then});
}

void try_tracks(const TurnSearch& search) {
  const std::string& now = search.trial.entered().debrief.track;
  for (const TrackState& track : search.trial.pack().tracks) {
    if (track.id != now) try_fact(search, TurnKind::track, "track", now, track.id);
  }
}

void try_facts(const TurnSearch& search) {
  std::set<std::string> open;
  for (const Effect& effect : search.advice.effects)
    open.insert(effect.open_facts.begin(), effect.open_facts.end());
  open.erase("track");
  for (const std::string& id : open) {
    for (const std::string& value : search.trial.pack().fact(id)->values)
      try_fact(search, TurnKind::fact, id, "nobody said", value);
  }
}

// --- settings
// -------------------------------------------------------------------------------------

void collect_settings(const Condition& condition, std::set<std::string>& out) {
  if (condition.op == Condition::Op::test) {
    if (const auto* test = std::get_if<SettingTest>(&condition.test)) out.insert(test->adjustment);
  }
  for (const Condition& part : condition.parts) collect_settings(part, out);
}

/// Adjustments whose setting can matter to what comes first.
std::set<std::string> settings_to_try(const TurnSearch& search) {
  std::set<std::string> out;
  const Pack& pack = search.trial.pack();
  for (const ReadingRule& rule : pack.readings) collect_settings(rule.when, out);
  for (const DeriveRule& rule : pack.derives) collect_settings(rule.when, out);
  for (const Adjustment& adjustment : pack.adjustments) {
    for (const EffectRule& rule : adjustment.effects) collect_settings(rule.when, out);
  }
  const auto ranked = search.advice.changes.size();
  for (std::size_t i = 0; i < std::min(ranked, static_cast<std::size_t>(search.plan.contenders));
       ++i) {
    out.insert(search.advice.changes[i].adjustment().id);
  }
  for (const NotNow& refused : search.advice.not_now) {
    if (refused.reason == Refusal::end_stop) out.emplace(refused.adjustment);
  }
  return out;
}

/// Allowed places in one direction of value, nearest first.
std::vector<double> places_beyond(const Setting& setting, bool up) {
  std::vector<double> out;
  for (const double place : setting.travel.places) {
    const bool beyond = up ? place > setting.now : place < setting.now;
    if (beyond && class_allows(setting, place)) out.push_back(place);
  }
  if (!up) std::reverse(out.begin(), out.end());
  return out;
}

void try_setting(const TurnSearch& search, const Setting& setting, bool up) {
  const Adjustment& adjustment = *setting.adjustment;
  std::vector<double> places = places_beyond(setting, up);
  const auto most = static_cast<std::size_t>(search.plan.places);
  if (places.size() > most) places.resize(most);
  for (const double place : places) {
    const Leading then = search.trial.with(SettingChange{adjustment.id, place});
    if (!search.turns(then)) continue;
    search.out.turns.push_back({TurnKind::setting, adjustment.id,
                                print_setting(setting, setting.now, search.units),
                                print_setting(setting, place, search.units),
                                std::abs((place - setting.now) / adjustment.reference_step), then});
    return;
  }
}

void try_settings(const TurnSearch& search) {
  for (const std::string& id : settings_to_try(search)) {
    const Setting* setting = search.trial.entered().kart.setting(id);
    if (setting == nullptr) continue;
    try_setting(search, *setting, false);
    try_setting(search, *setting, true);
  }
}

// --- the size of rules
// ----------------------------------------------------------------------------

/// A rule's cells at another size, and back again when it goes.
class Scaled {
 public:
  explicit Scaled(EffectRule& rule) : rule_(rule), cells_(rule.cells) {}
  ~Scaled() { rule_.cells = cells_; }
  Scaled(const Scaled&) = delete;
  Scaled& operator=(const Scaled&) = delete;

  void to(double factor) {
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      rule_.cells[i].mean = factor * cells_[i].mean;
      rule_.cells[i].sd = factor * cells_[i].sd;
    }
  }

 private:
  EffectRule& rule_;
  std::vector<Cell> cells_;
};

EffectRule* own_rule(Pack& pack, const std::string& id) {
  for (Adjustment& adjustment : pack.adjustments) {
    for (EffectRule& rule : adjustment.effects) {
      if (rule.id == id) return &rule;
    }
  }
  return nullptr;
}

/// The size nearest to 1 on the way to `farthest` at which another change leads, to 1 %: steps of a
/// tenth of the way first, then halving the step in which it turns.
void try_size(const TurnSearch& search, EffectRule& rule, double farthest) {
  constexpr int kSteps = 10;
  constexpr double kFine = 0.01;
  Scaled scaled(rule);
  const auto leads_at = [&](double factor) {
    scaled.to(factor);
    return search.trial.leading();
  };
  double stays = 1.0;
  for (int i = 1; i <= kSteps; ++i) {
    double turned = 1.0 + i * (farthest - 1.0) / kSteps;
    Leading then = leads_at(turned);
    if (!search.turns(then)) {
      stays = turned;
      continue;
    }
    while (std::abs(turned - stays) > kFine) {
      const double middle = (turned + stays) / 2.0;
      const Leading there = leads_at(middle);
      (search.turns(there) ? turned : stays) = middle;
      if (search.turns(there)) then = there;
    }
    search.out.turns.push_back({TurnKind::rule, rule.id, "1", fmt::format("{:.2f}", turned),
                                std::abs(turned - 1.0), then});
    return;
  }
}

void try_rules_of(const TurnSearch& search, const Change& change, double farthest) {
  const auto at =
      static_cast<std::size_t>(&change.adjustment() - search.trial.pack().adjustments.data());
  for (const EffectRule* rule : search.advice.effects[at].rules) {
    if (EffectRule* own = own_rule(search.trial.pack(), rule->id)) try_size(search, *own, farthest);
  }
}

/// Where a change leads it may turn out weaker, and the next one stronger; where nothing leads, the
/// first of the ranking may be stronger.
void try_rules(const TurnSearch& search) {
  const std::vector<Change>& changes = search.advice.changes;
  const std::size_t next = search.out.now.adjustment.empty() ? 0 : 1;
  if (next == 1) try_rules_of(search, changes.front(), 0.0);
  if (changes.size() > next) try_rules_of(search, changes[next], search.plan.strongest);
}

// --- the list
// -------------------------------------------------------------------------------------

/// Reports together, then the other kinds.
int group_of(TurnKind kind) { return kind <= TurnKind::confidence ? 0 : static_cast<int>(kind); }

bool nearer(const Turn& a, const Turn& b) {
  return std::tie(a.kind, a.distance, a.input, a.to) < std::tie(b.kind, b.distance, b.input, b.to);
}

/// The nearest of each kind, and then the next nearest, as long as there is room.
std::vector<Turn> telling(const std::vector<Turn>& turns) {
  constexpr std::size_t kMost = 5;
  std::vector<std::pair<int, const Turn*>> order;
  std::array<int, 6> seen{};
  for (const Turn& turn : turns)
    order.emplace_back(seen.at(static_cast<std::size_t>(group_of(turn.kind)))++, &turn);
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  if (order.size() > kMost) order.resize(kMost);
  std::vector<Turn> out;
  for (const auto& [round, turn] : order) out.push_back(*turn);
  std::sort(out.begin(), out.end(), nearer);
  return out;
}

}  // namespace

Turning turning(Pack pack, const Kart& kart, const Debrief& debrief, System units,
                const TurningPlan& plan) {
  Trial trial(pack, kart, debrief, units, plan.history);
  Turning out;
  const Advice advice = trial.advice(trial.entered());
  out.now = leading_of(advice);
  const TurnSearch search{trial, advice, units, plan, out};
  try_reports(search);
  try_tracks(search);
  try_facts(search);
  try_settings(search);
  try_rules(search);
  std::sort(out.turns.begin(), out.turns.end(), nearer);
  out.telling = telling(out.turns);
  out.runs = trial.runs();
  return out;
}

}  // namespace kartwright
