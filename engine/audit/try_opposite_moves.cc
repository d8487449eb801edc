// A move and the move back, each judged on the kart as it then stands.

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "engine/audit/property_cases.h"
#include "engine/audit/property_trials.h"
#include "engine/decision/effects.h"
#include "engine/decision/options.h"
#include "engine/kart/travel.h"

namespace kartwright {
namespace {

/// What the conditions behind an adjustment's effects ask for, as a crew would say it.
struct Asked {
  std::vector<StatedFact> facts;
  std::vector<Report> reports;
  bool place = false;  ///< where some setting stands, or what room it has
};

void collect_asked(const Condition& condition, const Pack& pack, Asked& asked) {
  for (const Condition& part : condition.parts) collect_asked(part, pack, asked);
  if (condition.op != Condition::Op::test) return;
  if (const auto* fact = std::get_if<FactTest>(&condition.test)) {
    asked.place = asked.place || pack.fact(fact->fact) == nullptr;  // the engine's own: room
    if (fact->fact == "track" || pack.fact(fact->fact) == nullptr) return;
    for (const std::string& value : fact->values) asked.facts.push_back({fact->fact, value});
  } else if (const auto* report = std::get_if<ReportTest>(&condition.test)) {
    asked.reports.push_back({.symptom = report->symptom,
                             .phase = report->phase.value_or(Phase::any),
                             .severity = report->at_least});
  } else if (std::holds_alternative<SettingTest>(condition.test)) {
    asked.place = true;
  }
}

bool concludes_one_of(const DeriveRule& rule, const std::vector<StatedFact>& facts) {
  return std::any_of(facts.begin(), facts.end(),
                     [&](const StatedFact& fact) { return fact.fact == rule.fact; });
}

/// What the effects ask for, and what the derivations behind that ask for in turn.
Asked asked_for(const Adjustment& adjustment, const Pack& pack) {
  Asked asked;
  for (const EffectRule& rule : adjustment.effects) collect_asked(rule.when, pack, asked);
  std::vector<const DeriveRule*> left;
  for (const DeriveRule& rule : pack.derives) left.push_back(&rule);
  const auto next = [&] {
    return std::find_if(left.begin(), left.end(), [&](const DeriveRule* rule) {
      return concludes_one_of(*rule, asked.facts);
    });
  };
  for (auto rule = next(); rule != left.end(); rule = next()) {
    collect_asked((*rule)->when, pack, asked);
    left.erase(rule);
  }
  return asked;
}

void state_some(Dice& dice, const Asked& asked, Debrief& debrief) {
  std::vector<StatedFact>& facts = debrief.heard.facts;
  for (const StatedFact& fact : asked.facts) {
    const bool stated = std::any_of(facts.begin(), facts.end(), [&](const StatedFact& other) {
      return other.fact == fact.fact;
    });
    if (!stated && throw_below(dice, 2) == 0) facts.push_back(fact);
  }
  for (const Report& report : asked.reports) {
    if (throw_below(dice, 2) == 0) debrief.heard.reports.push_back(report);
  }
}

/// Each track with nothing said. Where a rule looks at a place, also with each fact and each report
/// that is asked for, and with mixes of those.
std::vector<Debrief> cases_for(const Asked& asked, const Pack& pack, const TrialSize& size) {
  const std::vector<std::string> tracks = every_track(pack);
  std::vector<Debrief> cases;
  for (const std::string& track : tracks) {
    cases.push_back({.heard = {}, .track = track});
    if (!asked.place) continue;
    for (const StatedFact& fact : asked.facts) {
      cases.push_back({.heard = {}, .track = track});
      cases.back().heard.facts.push_back(fact);
    }
    for (const Report& report : asked.reports) cases.push_back(one_report(track, report));
  }
  if (!asked.place || asked.facts.size() + asked.reports.size() < 2) return cases;
  Dice dice(size.seed);
  for (int i = 0; i < size.mixes; ++i) {
    cases.push_back({.heard = {}, .track = tracks[throw_below(dice, tracks.size())]});
    state_some(dice, asked, cases.back());
  }
  return cases;
}

/// From one place of an adjustment to another, both by index, and back; in reference steps.
struct RoundTrip {
  std::size_t from = 0, to = 0;
  double there = 0.0, back = 0.0;
};

/// Steps from the place where a kart stands to every place in reach at once; nothing elsewhere.
std::vector<std::optional<double>> steps_from_here(const Pack& pack, const Kart& kart,
                                                   const Setting& setting) {
  constexpr double kNoHurry = 1e6;
  const std::vector<double>& places = setting.travel.places;
  std::vector<std::optional<double>> steps(places.size());
  for (const Way& way : all_ways(pack, kart, kNoHurry)) {
    for (const Option& option : way.options) {
      const auto at = std::find(places.begin(), places.end(), option.to) - places.begin();
      if (option.legal()) steps[static_cast<std::size_t>(at)] = option.steps;
    }
  }
  return steps;
}

/// REQUIRES: the kart has this one setting.
std::vector<RoundTrip> round_trips(const Pack& pack, Kart kart) {
  Setting& setting = kart.settings.begin()->second;
  const std::vector<double> places = setting.travel.places;
  std::vector<std::vector<std::optional<double>>> steps;
  for (const double place : places) {
    setting.now = place;
    steps.push_back(steps_from_here(pack, kart, setting));
  }
  std::vector<RoundTrip> trips;
  for (std::size_t from = 0; from < places.size(); ++from) {
    for (std::size_t to = from + 1; to < places.size(); ++to) {
      const std::optional<double> there = steps[from][to], back = steps[to][from];
      if (there && back) trips.push_back({from, to, *there, *back});
    }
  }
  return trips;
}

Setting anywhere_usual(const Adjustment& adjustment) {
  Setting setting{.adjustment = &adjustment, .travel = usual_travel(adjustment), .limit = {}};
  if (adjustment.parts) setting.in_the_box = adjustment.positions;
  return setting;
}

class OppositeTrial {
 public:
  OppositeTrial(const Adjustment& adjustment, const Pack& pack)
      : adjustment_(adjustment), pack_(pack), kart_(typical_kart(pack)) {
    kart_.settings.insert_or_assign(adjustment.id, anywhere_usual(adjustment));
    Kart alone;
    alone.settings.emplace(adjustment.id, anywhere_usual(adjustment));
    trips_ = round_trips(pack, std::move(alone));
  }

  std::optional<Counterexample> on(const Debrief& debrief) {
    const std::vector<Eigen::VectorXd> per_step = everywhere(debrief);
    for (const RoundTrip& trip : trips_) {
      const Eigen::VectorXd there = trip.there * per_step[trip.from];
      const Eigen::VectorXd back = trip.back * per_step[trip.to];
      Eigen::Index axis = 0;
      constexpr double kNothing = 1e-9;  // notches
      if ((there + back).cwiseAbs().maxCoeff(&axis) <= kNothing) continue;
      return Counterexample{adjustment_.id, told(debrief, trip, axis, there[axis], back[axis])};
    }
    return std::nullopt;
  }

 private:
  Setting& setting() { return kart_.settings.at(adjustment_.id); }

  /// What a step does with the kart at each of its places.
  std::vector<Eigen::VectorXd> everywhere(const Debrief& debrief) {
    std::vector<Eigen::VectorXd> per_step;
    for (const double place : setting().travel.places) {
      setting().now = place;
      per_step.push_back(effect_of(adjustment_, settled_case(pack_, kart_, debrief)).per_step);
    }
    return per_step;
  }

  std::string told(const Debrief& debrief, const RoundTrip& trip, Eigen::Index axis, double there,
                   double back) {
    const auto place = [&](std::size_t index) {
      return print_setting(setting(), setting().travel.places[index], System::metric);
    };
    return fmt::format(
        "{}, `{}` from {} to {} does {:+.3g} notches to {}, and the way back {:+.3g}",
        case_in_words(debrief), adjustment_.id, place(trip.from), place(trip.to), there,
        pack_.axes[static_cast<std::size_t>(axis)].label, back);
  }

  const Adjustment& adjustment_;
  const Pack& pack_;
  Kart kart_;
  std::vector<RoundTrip> trips_;
};

}  // namespace

std::vector<Counterexample> try_opposite_moves(const Property& claim, const Pack& pack,
                                               const TrialSize& size) {
  std::vector<Counterexample> broken;
  for (const Adjustment& adjustment : pack.adjustments) {
    if (!claim.claimed_of(adjustment.id)) continue;
    OppositeTrial trial(adjustment, pack);
    for (const Debrief& debrief : cases_for(asked_for(adjustment, pack), pack, size)) {
      if (!trial.on(debrief)) continue;
      const Debrief least =
          least_of(debrief, 0, [&](const Debrief& less) { return trial.on(less).has_value(); });
      broken.push_back(*trial.on(least));
      break;
    }
  }
  return broken;
}

}  // namespace kartwright
