#include "engine/inference/situation.h"

#include <algorithm>
#include <cmath>

#include "engine/chassis/load_measures.h"
#include "engine/kart/travel.h"
#include "engine/knowledge/engine_facts.h"

namespace kartwright {
namespace {

bool test_holds(const FactTest& test, const Situation& situation) {
  const auto is_wanted = [&](const std::string& value) {
    return std::find(test.values.begin(), test.values.end(), value) != test.values.end();
  };
  const auto supposed = situation.supposed.find(test.fact);
  if (supposed != situation.supposed.end()) return is_wanted(supposed->second);
  const std::vector<Fact>& facts = situation.facts.all;
  return std::any_of(facts.begin(), facts.end(), [&](const Fact& fact) {
    return fact.id == test.fact && is_wanted(fact.value);
  });
}

bool test_holds(const ReportTest& test, const Situation& situation) {
  return std::any_of(situation.reports.begin(), situation.reports.end(), [&](const Report& report) {
    const bool phase = !test.phase || *test.phase == report.phase;
    const bool severity = test.at_least == 0 ? report.denied() : report.severity >= test.at_least;
    return report.symptom == test.symptom && phase && severity;
  });
}

bool test_holds(const SettingTest& test, const Situation& situation) {
  const Setting* setting = situation.kart.setting(test.adjustment);
  if (setting == nullptr) return false;
  if (setting->adjustment->listed()) {
    const auto place = static_cast<std::size_t>(setting->now);
    const std::string& name = setting->travel.names.at(place);
    return std::find(test.positions.begin(), test.positions.end(), name) != test.positions.end();
  }
  constexpr double kSlack = 1e-9;
  const std::optional<double> distance = distance_from_end(test, situation);
  return test.within && distance && *distance <= *test.within + kSlack;
}

/// The crew's band for a measure, else the usual one.
std::pair<std::optional<double>, std::optional<double>> band_of(const std::string& measure,
                                                                const Situation& situation) {
  const auto own = situation.kart.bands.find(measure);
  if (own != situation.kart.bands.end()) return {own->second.first, own->second.second};
  const MeasureDef* def = situation.pack.measure(measure);
  if (def == nullptr) return {};
  return {def->band_from, def->band_to};
}

bool test_holds(const MeasureTest& test, const Situation& situation) {
  return excess_over_band(test, situation) > 0.0;
}

std::string joined(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& text : texts) out += (out.empty() ? "" : " or ") + text;
  return out;
}

std::string words(const FactTest& test, const Pack& /*pack*/) {
  return test.fact + ":" + joined(test.values);
}
std::string words(const ReportTest& test, const Pack& /*pack*/) {
  std::string out = (test.at_least == 0 ? "denied: " : "report: ") + test.symptom;
  if (test.phase) out += "@" + std::string(name_of(*test.phase));
  return test.at_least > 1 ? out + " of at least " + std::to_string(test.at_least) : out;
}
std::string words(const SettingTest& test, const Pack& pack) {
  if (!test.within) return test.adjustment + " in " + joined(test.positions);
  const Adjustment* adjustment = pack.adjustment(test.adjustment);
  const Kind kind = adjustment == nullptr ? Kind::count : adjustment->kind;
  return test.adjustment + " within " + print_quantity(*test.within, kind, System::metric) +
         " of its " + test.of_end + " end";
}
std::string words(const MeasureTest& test, const Pack& pack) {
  const std::string side = test.side == MeasureTest::Side::above ? " above " : " below ";
  const MeasureDef* def = pack.measure(test.measure);
  const Kind kind = def == nullptr ? Kind::count : def->kind;
  return test.measure + side +
         (test.limit ? print_quantity(*test.limit, kind, System::metric) : "its band");
}

void collect(const Condition& condition, bool wanted, const Situation& situation,
             std::vector<std::string>& out) {
  if (condition.op == Condition::Op::test) {
    if (holds(condition.test, situation) != wanted) return;
    out.push_back((wanted ? "" : "not ") + describe(condition.test, situation.pack));
  }
  const bool inner = condition.op == Condition::Op::negated ? !wanted : wanted;
  for (const Condition& part : condition.parts) collect(part, inner, situation, out);
}

}  // namespace

bool comes_before(const Fact& a, const Fact& b) {
  const std::size_t shared = std::min(a.id.size(), b.id.size());
  const int order = a.id.compare(0, shared, b.id, 0, shared);
  if (order != 0) return order < 0;
  if (a.id.size() == b.id.size()) return a.value < b.value;
  return a.text() < b.text();  // one id goes on where the other ends
}

bool Facts::has(std::string_view id, std::string_view value) const {
  return std::any_of(all.begin(), all.end(),
                     [&](const Fact& fact) { return fact.id == id && fact.value == value; });
}

bool Facts::stated(std::string_view id) const {
  return std::any_of(all.begin(), all.end(), [&](const Fact& fact) { return fact.id == id; });
}

std::optional<double> distance_from_end(const SettingTest& test, const Situation& situation) {
  const Setting* setting = situation.kart.setting(test.adjustment);
  if (setting == nullptr || setting->adjustment->listed()) return {};
  const bool plus = test.of_end == setting->adjustment->directions[0];
  const bool upper = plus == (setting->adjustment->reference_step > 0.0);
  const auto legal = [&](double place) { return class_allows(*setting, place); };
  const std::vector<double>& places = setting->travel.places;
  // The end that counts is the last one the class allows.
  const auto low = std::find_if(places.begin(), places.end(), legal);
  const auto high = std::find_if(places.rbegin(), places.rend(), legal);
  if (low == places.end()) return {};
  return std::abs(setting->now - (upper ? *high : *low));
}

std::optional<double> edge_of(const MeasureTest& test, const Situation& situation) {
  const auto [from, to] = band_of(test.measure, situation);
  if (test.limit) return test.limit;
  return test.side == MeasureTest::Side::above ? to : from;
}

void measure_loads(Situation& situation) {
  const auto track = std::find_if(situation.facts.all.begin(), situation.facts.all.end(),
                                  [](const Fact& fact) { return fact.id == engine_facts::kTrack; });
  if (track == situation.facts.all.end()) return;
  const auto loads = loads_today(situation.kart, situation.pack, track->value);
  if (loads) situation.loads = measures_of(*loads, situation.pack);
}

std::optional<double> measured(std::string_view measure, const Situation& situation) {
  const auto given = situation.kart.measures.find(measure);
  if (given != situation.kart.measures.end()) return given->second;
  const auto load = situation.loads.find(measure);
  return load != situation.loads.end() ? std::optional(load->second) : std::nullopt;
}

double excess_over_band(const MeasureTest& test, const Situation& situation) {
  const std::optional<double> value = measured(test.measure, situation);
  const std::optional<double> edge = edge_of(test, situation);
  if (!value || !edge || same_value(*value, *edge)) return 0.0;
  const bool above = test.side == MeasureTest::Side::above;
  return std::max(0.0, above ? *value - *edge : *edge - *value);
}

bool holds(const Test& test, const Situation& situation) {
  return std::visit([&](const auto& one) { return test_holds(one, situation); }, test);
}

bool holds(const Condition& condition, const Situation& situation) {
  const auto part_holds = [&](const Condition& part) { return holds(part, situation); };
  const std::vector<Condition>& parts = condition.parts;
  switch (condition.op) {
    case Condition::Op::always:
      return true;
    case Condition::Op::test:
      return holds(condition.test, situation);
    case Condition::Op::all:
      return std::all_of(parts.begin(), parts.end(), part_holds);
    case Condition::Op::any:
      return std::any_of(parts.begin(), parts.end(), part_holds);
    case Condition::Op::negated:
      break;
  }
  return std::none_of(parts.begin(), parts.end(), part_holds);
}

std::string describe(const Test& test, const Pack& pack) {
  return std::visit([&](const auto& one) { return words(one, pack); }, test);
}

std::string describe(const Condition& condition, const Pack& pack) {
  using Op = Condition::Op;
  if (condition.op == Op::always) return "always";
  if (condition.op == Op::test) return describe(condition.test, pack);
  if (condition.op == Op::negated) return "not (" + describe(condition.parts.front(), pack) + ")";
  std::string out;
  for (const Condition& part : condition.parts) {
    const bool list = (part.op == Op::all || part.op == Op::any) && condition.parts.size() > 1;
    const std::string text = describe(part, pack);
    out += out.empty() ? "" : condition.op == Op::all ? " and " : " or ";
    out += list ? "(" + text + ")" : text;
  }
  return out;
}

std::vector<std::string> premises_of(const Condition& condition, const Situation& situation) {
  std::vector<std::string> out;
  collect(condition, true, situation, out);
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace kartwright
