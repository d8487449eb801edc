#include "engine/audit/sample.h"

#include <algorithm>

#include "engine/knowledge/names.h"
#include "engine/quantity/quantity.h"

namespace kartwright {
namespace {

/// Literals by what they look at.
struct Subjects {
  std::map<std::string, Conjunction> facts, symptoms, adjustments, measures;
};

/// The adjustment whose room a fact tells, or nullptr.
const Adjustment* room_of(const std::string& fact, const Pack& pack) {
  const auto found =
      std::find_if(pack.adjustments.begin(), pack.adjustments.end(), [&](const Adjustment& a) {
        return fact == room_fact(a.id, a.directions[0]) || fact == room_fact(a.id, a.directions[1]);
      });
  return found == pack.adjustments.end() ? nullptr : &*found;
}

Subjects by_subject(const Conjunction& all, const Pack& pack) {
  Subjects out;
  for (const Literal& literal : all) {
    if (const auto* fact = std::get_if<FactTest>(&literal.test)) {
      const Adjustment* room = room_of(fact->fact, pack);
      if (room != nullptr) out.adjustments[room->id].push_back(literal);
      if (room == nullptr) out.facts[fact->fact].push_back(literal);
    } else if (const auto* report = std::get_if<ReportTest>(&literal.test)) {
      out.symptoms[report->symptom].push_back(literal);
    } else if (const auto* setting = std::get_if<SettingTest>(&literal.test)) {
      out.adjustments[setting->adjustment].push_back(literal);
    } else if (const auto* measure = std::get_if<MeasureTest>(&literal.test)) {
      out.measures[measure->measure].push_back(literal);
    }
  }
  return out;
}

/// A value that every wanted test allows and no other; empty: better not stated. Nothing where the
/// fact must be stated and no value is left.
std::optional<std::string> stated_value(const Conjunction& all) {
  std::optional<std::vector<std::string>> open;
  for (const Literal& literal : all) {
    const auto& values = std::get<FactTest>(literal.test).values;
    if (literal.wanted && !open) open = values;
  }
  if (!open) return "";
  for (const Literal& literal : all) {
    const auto& values = std::get<FactTest>(literal.test).values;
    std::erase_if(*open, [&](const std::string& v) {
      return (std::find(values.begin(), values.end(), v) != values.end()) != literal.wanted;
    });
  }
  if (open->empty()) return std::nullopt;
  return open->front();
}

bool settle_facts_of(const Subjects& subjects, Sample& sample) {
  return std::all_of(subjects.facts.begin(), subjects.facts.end(), [&](const auto& each) {
    const std::optional<std::string> value = stated_value(each.second);
    if (value && !value->empty()) sample.facts[each.first] = *value;
    return value.has_value();
  });
}

bool settle_reports_of(const Subjects& subjects, const Pack& pack, Sample& sample) {
  return std::all_of(subjects.symptoms.begin(), subjects.symptoms.end(), [&](const auto& each) {
    const Symptom* symptom = pack.symptom(each.first);
    const auto reports = symptom == nullptr ? std::nullopt : sample_reports(*symptom, each.second);
    if (reports) sample.reports.insert(sample.reports.end(), reports->begin(), reports->end());
    return reports.has_value();
  });
}

bool settle_stands(const Subjects& subjects, const std::vector<std::string>& fitted,
                   const Pack& pack, Sample& sample) {
  std::map<std::string, Conjunction> asked = subjects.adjustments;
  for (const std::string& id : fitted) asked.try_emplace(id);
  return std::all_of(asked.begin(), asked.end(), [&](const auto& each) {
    const Adjustment* adjustment = pack.adjustment(each.first);
    const bool must = std::find(fitted.begin(), fitted.end(), each.first) != fitted.end();
    auto stand =
        adjustment == nullptr ? std::nullopt : sample_stand(*adjustment, each.second, must, pack);
    if (stand) sample.stands[each.first] = *stand;
    return stand.has_value();
  });
}

bool settle_measures(const Subjects& subjects, const Pack& pack, Sample& sample) {
  return std::all_of(subjects.measures.begin(), subjects.measures.end(), [&](const auto& each) {
    const MeasureDef* measure = pack.measure(each.first);
    const auto measured =
        measure == nullptr ? std::nullopt : sample_measure(*measure, each.second, pack);
    if (measured) sample.measures[each.first] = *measured;
    return measured.has_value();
  });
}

}  // namespace

std::optional<Sample> sample_of(const Conjunction& all, const Pack& pack,
                                const std::vector<std::string>& fitted) {
  const Subjects subjects = by_subject(all, pack);
  Sample sample;
  const bool fits =
      settle_facts_of(subjects, sample) && settle_reports_of(subjects, pack, sample) &&
      settle_stands(subjects, fitted, pack, sample) && settle_measures(subjects, pack, sample);
  return fits ? std::optional(std::move(sample)) : std::nullopt;
}

double as_written(double si, Kind kind, System system) {
  const ParsedQuantity read = parse_quantity(print_quantity(si, kind, system), kind);
  const auto* quantity = std::get_if<Quantity>(&read);
  return quantity == nullptr ? si : quantity->si;
}

}  // namespace kartwright
