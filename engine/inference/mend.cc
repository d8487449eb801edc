#include "engine/inference/mend.h"

#include <algorithm>
#include <cmath>

#include "engine/inference/derive.h"
#include "engine/knowledge/names.h"

namespace kartwright {
namespace {

bool among(const std::vector<std::string>& all, const std::string& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

/// The adjustment that a fact on room speaks of, or nullptr.
const Adjustment* room_of(const std::string& fact, const Pack& pack) {
  for (const Adjustment& adjustment : pack.adjustments) {
    for (const std::string& direction : adjustment.directions) {
      if (room_fact(adjustment.id, direction) == fact) return &adjustment;
    }
  }
  return nullptr;
}

// --- facts
// ----------------------------------------------------------------------------------------

struct Given {
  std::vector<std::string> values;
  bool from_reports = false;
};

Given given(const std::string& id, const Facts& facts) {
  Given out;
  for (const Fact& fact : facts.all) {
    const bool stated = fact.rule == "crew" || fact.rule == "kart" || fact.rule == "reports";
    if (!stated || fact.id != id) continue;
    out.values.push_back(fact.value);
    out.from_reports = fact.rule == "reports";
  }
  return out;
}

/// What could be said of a fact, the plainest first: a value asked for, `no`, nothing, the others.
std::vector<std::optional<std::string>> sayings(const Requirements& asked, const FactDef* def,
                                                bool from_reports) {
  std::vector<std::optional<std::string>> out;
  for (const Requirement& one : asked) {
    if (!one.wanted) continue;
    for (const std::string& value : std::get<FactTest>(one.ask).values) out.emplace_back(value);
  }
  if (def != nullptr && among(def->values, "no")) out.emplace_back("no");
  if (!from_reports) out.emplace_back(std::nullopt);
  if (def == nullptr) return out;
  for (const std::string& value : def->values) out.emplace_back(value);
  return out;
}

bool answers(const std::optional<std::string>& said, const Requirements& asked) {
  return std::all_of(asked.begin(), asked.end(), [&](const Requirement& one) {
    return one.wanted == (said && among(std::get<FactTest>(one.ask).values, *said));
  });
}

Lacks mend_fact(const Requirements& asked, const Situation& situation) {
  const std::string& id = std::get<FactTest>(asked.front().ask).fact;
  const Given seen = given(id, situation.facts);
  for (const auto& said : sayings(asked, situation.pack.fact(id), seen.from_reports)) {
    if (!answers(said, asked)) continue;
    return std::vector{Lack{.asked = first_unmet(asked),
                            .change = FactChange{id, said},
                            .distance = seen.values.empty() ? 1.0 : 2.0,
                            .values = seen.values}};
  }
  return std::nullopt;
}

// --- settings
// -------------------------------------------------------------------------------------

/// A kart with this one setting: all that a test on it looks at.
struct Bench {
  Kart kart = {};
  std::vector<Report> reports = {};

  Situation at(const Setting& setting, double place, const Pack& pack) {
    kart.settings.clear();
    kart.settings.emplace(setting.adjustment->id, setting).first->second.now = place;
    return {.pack = pack,
            .kart = kart,
            .reports = reports,
            .facts = {.all = given_facts(pack, kart, Debrief{})}};
  }
};

double steps_away(const Setting& setting, double place) {
  return std::abs((place - setting.now) / setting.adjustment->reference_step);
}

/// Places it could be moved to, those the class allows first, then the nearest first.
std::vector<double> places_by_distance(const Setting& setting) {
  std::vector<double> places = setting.travel.places;
  std::stable_sort(places.begin(), places.end(), [&](double a, double b) {
    const bool legal_a = class_allows(setting, a), legal_b = class_allows(setting, b);
    if (legal_a != legal_b) return legal_a;
    return steps_away(setting, a) < steps_away(setting, b);
  });
  return places;
}

std::optional<double> missed_by(const Requirement& asked, const Situation& situation) {
  const auto* test = std::get_if<SettingTest>(&asked.ask);
  if (test == nullptr || !test->within) return {};
  const std::optional<double> distance = distance_from_end(*test, situation);
  if (!distance) return {};
  return std::abs(*distance - *test->within);
}

/// Notes what stands there now.
void look_at(const Setting& setting, const Situation& situation, Lack& lack) {
  lack.seen = setting.now;
  if (const auto* room = std::get_if<FactTest>(&lack.asked.ask)) {
    lack.values = given(room->fact, situation.facts).values;
  } else if (setting.adjustment->listed()) {
    lack.values = {print_setting(setting, setting.now, System::metric)};
  }
}

Lacks mend_setting(const Adjustment& adjustment, const Requirements& asked,
                   const Situation& situation) {
  constexpr double kFitting = 3.0;
  const Setting* now = situation.kart.setting(adjustment.id);
  const Setting setting = now == nullptr ? fitted_setting(adjustment) : *now;
  Bench bench;
  for (const double place : places_by_distance(setting)) {
    const Situation moved = bench.at(setting, place, situation.pack);
    const bool all = std::all_of(asked.begin(), asked.end(),
                                 [&](const Requirement& one) { return is_met(one, moved); });
    if (!all) continue;
    Lack lack{.asked = first_unmet(asked), .change = SettingChange{adjustment.id, place}};
    lack.distance = steps_away(setting, place) + (now == nullptr ? kFitting : 0.0);
    if (now != nullptr) look_at(*now, situation, lack);
    lack.off_by = missed_by(lack.asked, situation);
    return std::vector{std::move(lack)};
  }
  return std::nullopt;
}

const Adjustment* adjustment_of(const Requirement& asked, const Pack& pack) {
  if (const auto* fact = std::get_if<FactTest>(&asked.ask)) return room_of(fact->fact, pack);
  if (const auto* setting = std::get_if<SettingTest>(&asked.ask))
    return pack.adjustment(setting->adjustment);
  if (const auto* fitted = std::get_if<FittedTest>(&asked.ask))
    return pack.adjustment(fitted->adjustment);
  return nullptr;
}

}  // namespace

const Requirement& first_unmet(const Requirements& asked) {
  return *std::find_if(asked.begin(), asked.end(), [](const Requirement& r) { return !r.met; });
}

std::string subject_of(const Requirement& asked, const Pack& pack) {
  if (const Adjustment* adjustment = adjustment_of(asked, pack)) return "setting " + adjustment->id;
  if (const auto* fact = std::get_if<FactTest>(&asked.ask)) return "fact " + fact->fact;
  if (const auto* measure = std::get_if<MeasureTest>(&asked.ask))
    return "measure " + measure->measure;
  return "report " + symptom_of(asked);
}

std::optional<std::vector<Lack>> mend(const Requirements& asked, const Situation& situation) {
  const bool done =
      std::all_of(asked.begin(), asked.end(), [](const Requirement& one) { return one.met; });
  if (done) return std::vector<Lack>{};
  const Requirement& first = asked.front();
  if (const Adjustment* adjustment = adjustment_of(first, situation.pack))
    return mend_setting(*adjustment, asked, situation);
  if (std::holds_alternative<FactTest>(first.ask)) return mend_fact(asked, situation);
  if (std::holds_alternative<MeasureTest>(first.ask)) return mend_measure(asked, situation);
  return mend_reports(asked, situation);
}

}  // namespace kartwright
